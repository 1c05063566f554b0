package handoff

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"

	"coilwalk/model/files"
	"coilwalk/model/recording"
	"coilwalk/sequence"
)

// benchWalk is the vent flap on pins 8 to 11, for an active level.
func benchWalk(tb testing.TB, low bool) *Walk {
	w := walkOf(tb, sequence.Half)
	w.Board.ActiveLow = low
	return w
}

// script is what comes over the serial line of the firmware, and when.
type script struct {
	w    *Walk
	text strings.Builder
	at   int64 // us
}

// send sends bytes so many us after the ones before.
func (s *script) send(after int64, what ...byte) {
	s.at += after
	fmt.Fprintf(&s.text, "%d % x\n", s.at, what)
}

// arm makes the four pins outputs.
func (s *script) arm(after int64) {
	s.send(after, 0xf4, 8, 1, 0xf4, 9, 1, 0xf4, 10, 1, 0xf4, 11, 1)
}

// row asks for a row on the outputs, bit k being output k+1, and gives when.
func (s *script) row(after int64, bits byte) int64 {
	if s.w.Board.ActiveLow {
		bits ^= 0x0f
	}
	s.send(after, 0x91, bits, 0)
	return s.at
}

// standing is a row of the pins from a time on.
type standing struct {
	us  float64
	row sequence.Row
}

// told is what the firmware sent, each byte with the time of the first that went
// out with it in one go.
type told struct {
	us    []float64
	bytes []byte
}

// between gives what was sent between two times.
func (s told) between(from, to int64) []byte {
	var all []byte
	for k, us := range s.us {
		if us >= float64(from) && us < float64(to) {
			all = append(all, s.bytes[k])
		}
	}
	return all
}

// notices gives the reasons told between two times.
func (s told) notices(from, to int64) (reasons []byte) {
	all := s.between(from, to)
	for {
		at := bytes.Index(all, []byte{0xf0, 0x0e, 0x01})
		if at < 0 || len(all) < at+4 {
			return reasons
		}
		reasons = append(reasons, all[at+3])
		all = all[at+4:]
	}
}

// joined puts what goes out in one go on a line.
const joined = `awk '$1 == "out" { if (!n || $2 - last > 1000) printf "%sout %s", n++ ? "\n" : "", $2; last = $2; printf " %s", $3 } END { print "" }'`

// run has the firmware compiled and run on the script in a simulator, neither of
// which is ours, and gives what the pins did and what it said.
func (s *script) run(t *testing.T, name string) ([]standing, told) {
	t.Helper()
	run := outside{name: "serial/" + name + "-" + s.w.Board.level(), given: map[string][]byte{"bench.c": made(t, Bench, s.w), "script": []byte(s.text.String())}, sources: []string{"serial/rig.c"},
		command: "avr-gcc -mmcu=atmega328p -std=c99 -Os -Wall -Wextra -Werror -pedantic -o image.elf bench.c && " +
			"gcc -std=c99 -O1 -Wall -Wextra -Werror -I/usr/include/simavr -o rig rig.c -lsimavr -lelf -lutil && " +
			fmt.Sprintf("./rig -s script -b bytes -v pins.vcd -t %d image.elf >said 2>&1 || { cat said >&2; exit 1; }; ", s.at/1_000_000+4) +
			"{ grep -E '^(frozen|restart)' said; " + joined + " bytes; cat pins.vcd; } >all",
		version: "echo $(avr-gcc --version | head -n 1), simavr $(dpkg-query -W -f '${Version}' libsimavr-dev)", result: "all"}
	text := run.said(t)
	at := bytes.Index(text, []byte("$timescale"))
	if at < 0 {
		t.Fatalf("no recording in %q", text)
	}
	var sent told
	for line := range strings.Lines(string(text[:at])) {
		words := strings.Fields(line)
		if words[0] != "out" {
			continue
		}
		us, err := strconv.ParseFloat(words[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		for _, word := range words[2:] {
			b, err := strconv.ParseUint(word, 16, 8)
			if err != nil {
				t.Fatal(err)
			}
			sent.us, sent.bytes = append(sent.us, us), append(sent.bytes, byte(b))
		}
	}
	return stands(t, s.w, text[at:]), sent
}

// stands reads the recording of pins 8 to 11, from when they are known.
func stands(t *testing.T, w *Walk, vcd []byte) (all []standing) {
	t.Helper()
	r, err := recording.Open(files.Standard, bytes.NewReader(vcd), recording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	var watch []int
	for k, c := range r.Channels {
		if slices.Contains([]string{"PB0", "PB1", "PB2", "PB3"}, c.Name) {
			watch = append(watch, k)
		}
	}
	if err := r.Watch(watch); err != nil {
		t.Fatal(err)
	}
	into := make([]recording.Sample, 100)
	for {
		n, err := r.Next(into)
		for _, s := range into[:n] {
			if s.Unknown != 0 && s.Unknown != 0x0f {
				t.Errorf("at %.1f us some pins are outputs, and some are not: %04b", float64(s.At)*r.Tick*1e6, s.Unknown)
			}
			if s.Unknown != 0 {
				continue
			}
			high := byte(s.High) & 0x0f
			if w.Board.ActiveLow {
				high ^= 0x0f
			}
			all = append(all, standing{float64(s.At) * r.Tick * 1e6, nibble(high)})
		}
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

func nibble(bits byte) (row sequence.Row) {
	for k := range row {
		row[k] = float64(bits >> k & 1)
	}
	return row
}

func bitsOf(row sequence.Row) (bits byte) {
	for k, v := range row {
		if v > 0 {
			bits |= 1 << k
		}
	}
	return bits
}

func hexByte(b byte) string { return fmt.Sprintf("%02x", b) }

// sameRows holds the rows of the pins against those that were asked for; one
// that is asked for twice changes nothing.
func sameRows(t *testing.T, got, want []sequence.Row) {
	t.Helper()
	want = slices.Compact(slices.Clone(want))
	for k := range max(len(got), len(want)) {
		switch {
		case k >= len(got):
			t.Fatalf("the pins stop after %d rows of %d", k, len(want))
		case k >= len(want):
			t.Fatalf("row %d, %s, was never asked for", k, got[k].Bits())
		case got[k] != want[k]:
			t.Fatalf("row %d is %s, want %s", k, got[k].Bits(), want[k].Bits())
		}
	}
}

// benchRows are all rows that four outputs can have, in such an order that one to
// four of them change at once.
var benchRows = []byte{0x1, 0xe, 0x3, 0xc, 0x6, 0x9, 0x5, 0xa, 0xf, 0x2, 0xd, 0x4, 0xb, 0x7, 0x8, 0x0}

func eachLevel(t *testing.T, test func(t *testing.T, s *script)) {
	for _, low := range []bool{false, true} {
		s := &script{w: benchWalk(t, low)}
		t.Run(s.w.Board.level(), func(t *testing.T) {
			t.Parallel()
			test(t, s)
		})
	}
}

// fault is what happened to a row, and how the pins have to go off for it.
type fault struct {
	name     string
	on       int64 // us: when the row was asked for
	at       int64 // when what happened began
	from, to int64 // us after that, between which the pins go off
	reasons  []byte
	until    int64 // what is told and what the pins do counts up to here
}

// hold holds what the pins did against the faults: the row is there before,
// all off from then on, and nothing on again.
func hold(t *testing.T, faults []fault, pins []standing, sent told) {
	t.Helper()
	for _, f := range faults {
		var before sequence.Row
		gone := -1.0
		for _, p := range pins {
			switch {
			case p.us < float64(f.on):
			case p.us < float64(f.at+f.from):
				before = p.row
			case p.us < float64(f.until):
				if p.row != off {
					t.Errorf("%s: %s is on at %.0f us, %.0f after it", f.name, p.row.Bits(), p.us, p.us-float64(f.at))
				} else if gone < 0 {
					gone = p.us - float64(f.at)
				}
			}
		}
		if before == off {
			t.Errorf("%s: nothing was on before it", f.name)
		}
		if gone < 0 || gone > float64(f.to) {
			t.Errorf("%s: off %.0f us after it, want %d to %d", f.name, gone, f.from, f.to)
		}
		if got := slices.Compact(sent.notices(f.at, f.until)); !slices.Equal(got, f.reasons) { // messages between allow one more
			t.Errorf("%s: notices %v, want %v", f.name, got, f.reasons)
		}
		t.Logf("%s: off after %.1f ms", f.name, gone/1000)
	}
}

// armedRow arms and asks for a row, which stands when what follows is sent.
func (s *script) armedRow(after int64) int64 {
	s.arm(after)
	return s.row(6000, 0x09)
}
