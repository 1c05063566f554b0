package course

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

// beatOf is a row and how long it lasts, in rows.
type beatOf struct {
	levels string
	lasts  int64
}

// spoiltTables are tables of a whole mode with one thing wrong in them, the same in every
// cycle; what is told of it is counted by hand.
var spoiltTables = []struct {
	kind  string // told of it
	least int    // rows of the modes that it is put into
	most  int
	spoil func(rows []beatOf, at int) []beatOf
}{
	{"", 4, 8, func(rows []beatOf, _ int) []beatOf { return rows }},
	{"both-ends-on", 4, 8, func(rows []beatOf, at int) []beatOf { rows[at].levels = "1111"; return rows }},
	{"both-ends-on", 4, 8, func(rows []beatOf, at int) []beatOf { return slices.Insert(rows, at, beatOf{"0101", 1}) }},
	{"no-field", 4, 8, func(rows []beatOf, at int) []beatOf { rows[at].levels = "0000"; return rows }},
	{"wrong-row", 4, 4, func(rows []beatOf, at int) []beatOf {
		rows[at].levels = rowBetween(rows[at].levels, rows[(at+1)%len(rows)].levels)
		return rows
	}},
	{"wrong-row", 8, 8, func(rows []beatOf, at int) []beatOf { rows[at].levels = rows[(at+3)%8].levels; return rows }},
	{"rows-exchanged", 4, 8, func(rows []beatOf, at int) []beatOf {
		k := (at + 1) % len(rows)
		rows[at], rows[k] = rows[k], rows[at]
		return rows
	}},
	{"open-wrap", 8, 8, func(rows []beatOf, at int) []beatOf { return slices.Delete(rows, at, at+1) }}, // a row is missing
	{"open-wrap", 4, 8, func(rows []beatOf, at int) []beatOf { rows[at].lasts = 2; return rows }},      // a row stands twice
	{"wrong-row", 8, 8, func(rows []beatOf, at int) []beatOf { // a row stands for the one after it as well
		rows[at].lasts = 2
		return slices.Delete(rows, (at+1)%8, (at+1)%8+1)
	}},
}

// rowBetween is a row of the other sort than two that follow each other: with one coil on
// where they have two, or with two where they have one.
func rowBetween(a, b string) string {
	row, both := []byte("0000"), true
	for k := range row {
		both = both && !(a[k] == '1' && b[k] == '1')
	}
	for k := range row {
		if a[k] == '1' && b[k] == '1' || both && (a[k] == '1' || b[k] == '1') {
			row[k] = '1'
		}
	}
	return string(row)
}

const beatTicks = 1000

// timedCourse makes a course of a table that is gone through again and again, before and
// after it once as it should be, with one of its rows so many ticks longer.
func timedCourse(table []beatOf, sound []string, cycles, row int, longer int64) (c *Course, starts []int64) {
	g, at := newGatherer(1e-6), int64(0)
	var once []beatOf
	for _, w := range sound {
		once = append(once, beatOf{w, 1})
	}
	beats := slices.Concat(once, slices.Repeat(table, cycles), once)
	for i, b := range beats {
		s := recording.Sample{At: at}
		for k, c := range b.levels {
			s.High |= uint32(c-'0') << k
		}
		g.add([]recording.Sample{s})
		starts = append(starts, at)
		if at += b.lasts * beatTicks; i == row {
			at += longer
		}
	}
	return g.end(at), append(starts, at)
}

// What is wrong in the table hides neither a gap nor a pause, wherever that stands beside it,
// nor is either told where none is. Rules: a row's time is judged whatever its levels are.
func TestTimesBesideWrongRows(t *testing.T) {
	for _, of := range []string{halves, fulls, waves, back(halves), back(fulls), back(waves)} {
		mode := modeOf(of)
		for n, bad := range spoiltTables {
			words := strings.Fields(of)
			if len(words) < bad.least || len(words) > bad.most || bad.kind == "no-field" && mode == "wave" {
				continue // there a row of zeros is a pin that never goes on
			}
			for at := 1; at+1 < len(words); at++ {
				var table []beatOf
				for _, w := range words {
					table = append(table, beatOf{w, 1})
				}
				table = bad.spoil(table, at)
				t.Run(fmt.Sprintf("%s, %s %d, at %d", of, bad.kind, n, at), func(t *testing.T) { holdTimes(t, table, words, mode, bad.kind) })
			}
		}
	}
}

// modeOf names the mode of the rows of a table.
func modeOf(rows string) string {
	switch ones := strings.Count(rows, "1"); {
	case ones == 12:
		return "half"
	case ones == 8:
		return "full"
	}
	return "wave"
}

func holdTimes(t *testing.T, table []beatOf, sound []string, mode, kind string) {
	const cycles = 12
	for place := range len(table) {
		row := len(sound) + 6*len(table) + place
		for _, longer := range []int64{0, 7230, 30_000} {
			c, starts := timedCourse(table, sound, cycles, row, longer)
			v := Judge(c, [4]string{"IN1", "IN2", "IN3", "IN4"}, Question{Active: High})
			var told []string
			for _, f := range v.Faults {
				told = append(told, fmt.Sprintf("%s@%d", f.Kind, f.Row))
				if f.Kind == kind && f.Times < cycles-2 {
					told = append(told, fmt.Sprintf("only %d times", f.Times))
				}
			}
			var want, pauses, runs []string
			for _, f := range v.Faults[:min(1, len(v.Faults))] {
				if kind != "" {
					want = append(want, fmt.Sprintf("%s@%d", kind, f.Row))
				}
			}
			wantRuns := []string{mode}
			wantPauses := []string(nil)
			switch {
			case longer == 7230:
				want = append(want, fmt.Sprintf("gap@%d", row+2))
			case longer > 7230:
				wantPauses = []string{fmt.Sprintf("%d-%d", starts[row], starts[row+1])}
				last := row
				if table[place].levels == "0000" {
					last-- // a pause with all off is none of the run
				}
				wantRuns = []string{fmt.Sprintf("%s to %d", mode, starts[last]), fmt.Sprintf("%s from %d", mode, starts[row+1])}
			}
			for _, p := range v.Pauses {
				pauses = append(pauses, fmt.Sprintf("%d-%d", p.From, p.To))
			}
			for k, r := range v.Runs { // where the recording begins and ends is not at issue
				runs = append(runs, r.Mode)
				if k > 0 {
					runs[k] += fmt.Sprintf(" from %d", r.From)
				}
				if k+1 < len(v.Runs) {
					runs[k] += fmt.Sprintf(" to %d", r.To)
				}
			}
			if !slices.Equal(told, want) || !slices.Equal(pauses, wantPauses) || !slices.Equal(runs, wantRuns) {
				t.Errorf("row %d (place %d), %d longer:\n told %q\n want %q\n pauses %q, want %q\n runs %q\n want %q", row, place, longer, told, want, pauses, wantPauses, runs, wantRuns)
			}
		}
	}
}

// Nor does it hide a glitch, within the wrong row or beside it.
func TestGlitchBesideWrongRows(t *testing.T) {
	bad := strings.Replace(halves, "0011", "1011", 1)
	for place := range 8 {
		rows := strings.Fields(strings.Repeat(bad, 12))
		row := 48 + place
		other := []byte(rows[row])
		other[1] ^= 1
		rows[row] = fmt.Sprintf("%s/2 %s/50 %s/2", rows[row], other, rows[row])
		v := Judge(writtenCourse(t, 1000, strings.Join(rows, " ")), [4]string{"IN1", "IN2", "IN3", "IN4"}, Question{})
		var told []string
		for _, f := range v.Faults {
			told = append(told, fmt.Sprintf("%s@%d, %d times", f.Kind, f.Row, f.Times))
		}
		if want := []string{"both-ends-on@6, 12 times", fmt.Sprintf("glitch@%d, 1 times", row+1)}; !slices.Equal(told, want) {
			t.Errorf("place %d: %q, want %q", place, told, want)
		}
		if v.Rows() != 96 || len(v.Runs) != 1 {
			t.Errorf("place %d: %d rows in %d runs", place, v.Rows(), len(v.Runs))
		}
	}
}

// Nor is a gap lost before a pin that comes late, though the row after it is cut in two.
func TestGapBesideLatePin(t *testing.T) {
	for place := range 8 {
		rows := strings.Fields(strings.Repeat(fulls, 8))
		for i := range rows {
			quarters := 4
			if i == 12+place {
				quarters = 31
			}
			if i == 16 { // its second pin comes a quarter of a row late
				rows[i] = fmt.Sprintf("1000 %s*%d", rows[i], quarters-1)
			} else {
				rows[i] = fmt.Sprintf("%s*%d", rows[i], quarters)
			}
		}
		v := Judge(writtenCourse(t, 250, strings.Join(rows, " ")), [4]string{"IN1", "IN2", "IN3", "IN4"}, Question{})
		var told []string
		for _, f := range v.Faults {
			told = append(told, fmt.Sprintf("%s@%d", f.Kind, f.Row))
		}
		if want := []string{fmt.Sprintf("gap@%d", 12+place+2), "late-pin@17"}; !slices.Equal(told, want) {
			t.Errorf("place %d: %q, want %q", place, told, want)
		}
	}
}

// A wrong row at which the run turns round is told once, and is the first of the way back.
func TestWrongRowAtTurn(t *testing.T) {
	v := Judge(writtenCourse(t, 1000, strings.Repeat(halves, 3)+"1000 1010 "+back(strings.Repeat(halves, 3))), [4]string{"IN1", "IN2", "IN3", "IN4"}, Question{})
	if len(v.Faults) != 1 || v.Faults[0].Row != 26 || len(v.Runs) != 2 || v.Runs[1].Row != 26 || v.Runs[1].Rows != 25 {
		t.Errorf("faults %+v, runs %+v", v.Faults, v.Runs)
	}
}

// A row that stands for the one after it, or for the one before, is no repeated row besides.
func TestRowInPlaceOfAnother(t *testing.T) {
	for _, cycle := range []string{"1000 0100*2 0110 0010 0011 0001 1001 ", "1000*2 0100 0110 0010 0011 0001 1001 ", "1000*3 0110 0010 0011 0001 1001 "} {
		v := Judge(writtenCourse(t, 1000, strings.Repeat(halves, 3)+cycle+strings.Repeat(halves, 3)), [4]string{"IN1", "IN2", "IN3", "IN4"}, Question{})
		if len(v.Faults) != 1 {
			t.Errorf("%s: %+v", cycle, v.Faults)
		}
	}
}
