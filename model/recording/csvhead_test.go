package recording_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

// What the head of a CSV says: channels, tick, the first times, and what was taken
// for granted; or why it is none.
func TestCSVHeads(t *testing.T) {
	many := strings.Repeat(",c", 255)
	for _, c := range []struct {
		name, text string
		o          recording.Options
		want       string // channels | seconds a tick | time of the first and last line | notes, or a complaint
	}{
		{"unit in brackets", "Time [ms],A\n1,0\n2,1\n", recording.Options{}, "A|1e-12|1000000000 2000000000|"},
		{"in round ones", "time (us);A\n1,5;0\n2,5;1\n", recording.Options{}, "A|1e-12|1500000 2500000|"},
		{"behind a line", "time_ns\tA\n1\t0\n2\t1\n", recording.Options{}, "A|1e-12|1000 2000|"},
		{"picoseconds", "t [ps],A\n7,0\n9,1\n", recording.Options{}, "A|1e-12|7 9|"},
		{"written as µ", "T [µs],A\n1,0\n2,1\n", recording.Options{}, "A|1e-12|1000000 2000000|"},
		{"in words", "timestamp [seconds],A\n1,0\n2,1\n", recording.Options{}, "A|1e-12|1000000000000 2000000000000|"},
		{"the unit alone", "us,A\n1,0\n2,1\n", recording.Options{}, "A|1e-12|1000000 2000000|"},
		{"seconds alone", "s,A\n1,0\n2,1\n", recording.Options{}, "A|1e-12|1000000000000 2000000000000|"},
		{"no unit", "time,A\n1,0\n2,1\n", recording.Options{}, `A|1e-12|1000000000000 2000000000000|The times of the column "time" were taken for seconds; a unit in its name, as time [us], says otherwise.`},
		{"time is not first", "A,time [s],t\n0,1,0\n1,2,1\n", recording.Options{}, "A t|1e-12|1000000000000 2000000000000|"},
		{"a count of samples beside it", "sample,time [s],A\n0,1,0\n1,2,1\n", recording.Options{}, "A|1e-12|1000000000000 2000000000000|"},
		{"samples at a rate", "index,A,B\n0,0,1\n1,1,1\n", recording.Options{SampleRate: 250}, "A B|0.004|0 1|"},
		{"no names, no time", "0,1\n1,1\n1,0\n", recording.Options{SampleRate: 100}, "column 1 column 2|0.01|0 2|"},
		{"no names, a time", "0.5,1\n1,0\n", recording.Options{}, "column 2|1e-12|500000000000 1000000000000|The file has no names: its first column rises all the time and was taken for the time in seconds."},
		{"a rate in a comment", "; Samplerate: 10 kHz\n# logged\n\nA,B\n0,1\n1,1\n", recording.Options{}, "A B|0.0001|0 1|The rate of the samples, 10000 Hz, is that of a comment above them."},
		{"in megahertz", "% sample rate = 2.5MHz\nA,B\n0,1\n1,1\n", recording.Options{}, "A B|4e-07|0 1|The rate of the samples, 2.5e+06 Hz, is that of a comment above them."},
		{"one that is given goes first", "// sample-rate 10Hz\nA,B\n0,1\n1,1\n", recording.Options{SampleRate: 100}, "A B|0.01|0 1|"},
		{"a rate that is none", "# samplerate: 1.2.3 Hz\nA,B\n0,1\n", recording.Options{}, "2: no column is the time; name one time, or give the rate of the samples with --sample-rate, as 1000000"},
		{"a time below such a comment", "# samplerate: 10 kHz\ntime [s],A\n1,0\n2,1\n", recording.Options{}, "A|1e-12|1000000000000 2000000000000|"},
		{"two that may be the time", "time [ms],t,A\n1,0,0\n2,1,1\n", recording.Options{}, "t A|1e-12|1000000000 2000000000|"},
		{"the first without a name, by tabs", "\ttime [ps]\tA\n0\t5\t1\n1\t6\t0\n", recording.Options{}, "column 1 A|1e-12|5 6|"},
		{"a name of nothing but quotes", "time [ps],\"\"\n1,0\n2,1\n", recording.Options{}, "column 2|1e-12|1 2|"},
		{"names without one", "A,,A\n0,1,1\n1,1,0\n", recording.Options{SampleRate: 1}, "A column 2 A#2|1|0 1|"},
		{"256 columns", "time [s]" + many + "\n0" + strings.Repeat(",0", 255) + "\n", recording.Options{}, "255 channels"},
		{"257 columns", "time [s],b" + many + "\n", recording.Options{}, "1:1: this is no VCD, and as a CSV its first line has 257 columns; a column a channel is wanted, parted by comma, semicolon or tab, and one for time"},
		{"no time", "A,B\n0,1\n", recording.Options{}, "1: no column is the time; name one time, or give the rate of the samples with --sample-rate, as 1000000"},
		{"nor names", "1,0\n0,1\n", recording.Options{}, "1: no column is the time; name one time, or give the rate of the samples with --sample-rate, as 1000000"},
		{"one line of numbers", "0.5,1\n", recording.Options{}, "1: no column is the time; name one time, or give the rate of the samples with --sample-rate, as 1000000"},
		{"a time and a rate", "time,A\n0,1\n", recording.Options{SampleRate: 5}, `the column "time" tells the time, and a sample rate is given as well; leave --sample-rate out`},
		{"no channel", "time [s],sample\n0,1\n", recording.Options{}, "1:1: its columns tell the time and count the samples, and none is a channel; a column a channel is wanted beside them"},
		{"only comments", "# one\n# two", recording.Options{}, "2:6: no line of the file holds levels; a line of names and lines of levels are wanted"},
		{"voltages that do not swing", "time [s],A\n0,2.1\n1,2.5\n", recording.Options{}, "2:1: voltages between 2.1 and 2.5 V are no levels; give the threshold with --threshold, as 1.5V"},
		{"a threshold that is given", "time [s],A\n0,2.1\n1,2.5\n2,2.1\n", recording.Options{Threshold: 2.3, Hysteresis: 0.1}, "A|1e-12|0 2000000000000|"},
	} {
		w, complaint := soon(t, []byte(c.text), c.o)
		var got string
		switch {
		case complaint != nil:
			got = strings.TrimSpace(place(complaint))
		case len(w.channels) > 9:
			got = fmt.Sprintf("%d channels", len(w.channels))
		default:
			var names []string
			for _, ch := range w.channels {
				names = append(names, ch.Name)
			}
			got = fmt.Sprintf("%s|%.6g|%d %d|%s", strings.Join(names, " "), w.tick, w.samples[0].At, w.until, strings.Join(w.notes, " "))
		}
		if got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}

// The level after each line, cell by cell: what was measured as a voltage changes
// only beyond the band about the threshold.
func TestCSVLevels(t *testing.T) {
	for _, c := range []struct {
		name, cells string
		o           recording.Options
		want        string
	}{
		{"digits", "0 1 1.0 0.0 1e0 00", recording.Options{}, "011010"},
		{"not known", "0 x 1 Z 0 X z", recording.Options{}, "0x1x0xx"},
		{"quotes with nothing in them stay", `1 "" "0" "" x ""`, recording.Options{}, "1100xx"},
		{"an empty cell stays", "1 _ 0 _ x _", recording.Options{}, "1100xx"},
		{"about 1.5 V, in a band of 0.4", "0 1.69 1.7 1.71 1.3 1.29 1.6", recording.Options{Threshold: 1.5, Hysteresis: 0.4}, "0001100"},
		{"first within it, above", "1.6 1.4 1.75 x 1.6", recording.Options{Threshold: 1.5, Hysteresis: 0.4}, "111x1"},
		{"first within it, below", "1.5 1.6 1.8 x 1.4", recording.Options{Threshold: 1.5, Hysteresis: 0.4}, "001x0"},
		{"in a band of a fifth", "0 1.6 1.66 1.4 1.34", recording.Options{Threshold: 1.5}, "00110"},
		{"found in the middle of 0 and 5 V", "0 5 2.3 2.2 2.7 2.8", recording.Options{}, "011001"},
		{"below zero", "-5 5 -0.1 0.1 -5", recording.Options{Threshold: 1, Hysteresis: 0.5}, "01000"},
		{"0 and 1 as voltages", "0 1 2", recording.Options{Threshold: 1.5}, "001"},
		{"just enough of a swing", "2 2.5 2", recording.Options{}, "010"},
	} {
		cells := strings.Fields(c.cells)
		text := "time [ps],A\n"
		for k, cell := range cells {
			text += fmt.Sprintf("%d,%s\n", k, strings.Trim(cell, "_"))
		}
		w, complaint := soon(t, []byte(text), c.o)
		if complaint != nil {
			t.Errorf("%s: %v", c.name, complaint)
			continue
		}
		var got strings.Builder
		level := byte('?')
		for k := range cells {
			for _, s := range w.samples {
				if s.At == int64(k) {
					level = "01xx"[s.Unknown&1<<1|s.High&1]
				}
			}
			got.WriteByte(level)
		}
		if got.String() != c.want || w.until != int64(len(cells)-1) {
			t.Errorf("%s: %s is %s until %d, want %s", c.name, c.cells, got.String(), w.until, c.want)
		}
	}
}

// Lines of one time are one moment, of which the last counts; a time that goes back
// is none.
func TestCSVLinesOfOneTime(t *testing.T) {
	w, complaint := soon(t, []byte("time [ps],A,B\n0,0,0\n5,1,1\n5,0,1\n9,1,1\n9,0,1\n"), recording.Options{})
	want := []recording.Sample{{At: 0}, {At: 5, High: 2}}
	if complaint != nil || !slices.Equal(w.samples, want) || w.until != 9 {
		t.Errorf("%v until %d, %v; want %v until 9", w.samples, w.until, complaint, want)
	}
	if _, complaint = soon(t, []byte("time [ps],A\n5,0\n4,1\n"), recording.Options{}); complaint == nil || !strings.Contains(place(complaint), `3:1: "4" goes back in time`) {
		t.Errorf("%v", complaint)
	}
}

// A cell that is wrong is named by the column at which it begins, whatever stands
// before it.
func TestPlacesOfWrongCells(t *testing.T) {
	for text, want := range map[string]string{
		"time [ps],A,B\n0,1,0\n1,x1,0\n": `3:3: "x1" is no level`, "time [ps],A,B\n0,1,   two\n": `2:8: "two" is no level`, "time [ps];A\n  1,5x;0\n": `2:3: "1,5x" is no time`,
		"time [ps],A\n0,q\n": `2:3: "q" is no level`, "time [ps],A\n0,0\n1,1x1\n": `3:3: "1x1" is no level`, "time [ps],A\n0,1\n1,0x\n": `3:3: "0x" is no level`,
		"time [ps],A\n0,1\n1,\xffoo\n":  `3:3: "\xffoo" is no level`, // the last bytes of a text may be a letter that is cut, so it is called one
		"time [ps],A,B\n0,\"0,5\",zz\n": `2:9: "zz" is no voltage`, "time [ps],A,B\n0,1,0\n1,2\n": "3:1: this line has 2 columns where the first has 3",
	} {
		o := recording.Options{}
		if strings.Contains(want, "voltage") {
			o.Threshold = 1.5
		}
		if w, complaint := soon(t, []byte(text), o); complaint == nil || !strings.Contains(place(complaint), want) {
			t.Errorf("%q: %v, %v; want %s", text, w.samples, complaint, want)
		}
	}
}

// What may be a recording is told by a few lines of it.
func TestLikeARecording(t *testing.T) {
	for text, want := range map[string]bool{
		"time,A,B\n0,1,0\n": true, "t\tA\tB\n0\t1\t0\n": true, "\n# by hand\ntime;A;B\n0,5;1;0": true, "0,1,1\n1,1,0\n": true, "a,b,c\n1e-3,0,1\n": true,
		"time,A\n0,1\n": false, "time,A,B\n0,1\n": false, "time,A,B\n0,1,x\n": false, "time,A,B": false, "": false, "# only": false,
		"\ufeff $date today $end": true, "$var wire 1 ! A $end": true, "$timescale 1ns $end": true, "$comment x $end": true, "$version 1 $end": true, "$scope module m $end": true, "$enddefinitions $end": true, "$else": false,
		"\x1f\x8b\x08\x00": true, "\x28\xb5\x2f\xfd\x00": true, "const byte steps[] = {1, 2, 4,\n8, 16, 3};": false,
	} {
		if got := recording.Like([]byte(text)); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

// What is no recording is refused, with the place of what is no text.
func TestNoRecording(t *testing.T) {
	for text, want := range map[string]string{
		"": "the file is empty; a recording of pins is wanted, VCD or CSV", " \r\n\t\n": "the file is empty; a recording of pins is wanted, VCD or CSV",
		"\xff\xfea\x00":         "this is UTF-16 text; save the file as UTF-8",
		"\xfe\xff\x00a":         "this is UTF-16 text; save the file as UTF-8",
		"ab\ncd\x00e":           "2:3: this is no text; a recording of pins is wanted, VCD or CSV; export it as one of these",
		"\n\nab\ncd\x00e\n":     "4:3: this is no text; a recording of pins is wanted, VCD or CSV; export it as one of these",
		"\n\n\x00ELF":           "3:1: this is no text; a recording of pins is wanted, VCD or CSV; export it as one of these",
		"\x00ELF":               "1:1: this is no text; a recording of pins is wanted, VCD or CSV; export it as one of these",
		"ab\xffcdefg,h":         "1:3: this is no text; a recording of pins is wanted, VCD or CSV; export it as one of these",
		"one, column\xc3\n":     "1: no column is the time; name one time, or give the rate of the samples with --sample-rate, as 1000000",
		"time [s],A\n0,1\n\x00": "3:1: this is no text; a recording of pins is wanted, VCD or CSV; export it as one of these",
	} {
		w, complaint := soon(t, []byte(text), recording.Options{})
		if complaint == nil {
			t.Errorf("%q gives %+v", text, w)
		} else if got := strings.TrimSpace(place(complaint)); got != want {
			t.Errorf("%q:\ngot  %s\nwant %s", text, got, want)
		}
	}
}
