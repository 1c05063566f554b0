package course_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/course"
	"coilwalk/model/recording"
	"coilwalk/model/table"
	"coilwalk/sequence"
)

// read gives the rows of a text, and the channels that were taken for the four
// outputs; an error when they are not found.
func (g *generated) read(t *testing.T, text []byte, o recording.Options) (*course.Course, [4]string, error) {
	t.Helper()
	r, err := recording.Open("-", bytes.NewReader(text), o)
	if err != nil {
		t.Fatalf("%s: %v", g.name, err)
	}
	defer r.Close()
	loading, err := course.Begin(r, g.asked.channels, table.Auto)
	if err != nil {
		return nil, [4]string{}, err
	}
	rows, err := loading.Rows(context.Background(), nil)
	if err != nil {
		t.Fatalf("%s: %v", g.name, err)
	}
	return rows, loading.Choice.Outputs, nil
}

// judged has the program judge a generated recording; the verdict is nil when it
// does not find the outputs.
func (g *generated) judged(t *testing.T) *course.Verdict {
	t.Helper()
	rows, outputs, err := g.read(t, g.text, recording.Options{})
	if err != nil {
		t.Logf("%s: %v", g.name, err)
		return nil
	}
	q := course.Question{Active: [3]course.Level{course.Low, course.Unsaid, course.High}[g.asked.level+1], Direction: sequence.Direction(g.asked.meant)}
	if w := g.asked.wiring; w != nil {
		q.Wiring = &sequence.Permutation{sequence.End(w[0]), sequence.End(w[1]), sequence.End(w[2]), sequence.End(w[3])}
	}
	return course.Judge(rows, outputs, q)
}

// keep writes a recording to the folder COILWALK_KEEP, for a look at it.
func (g *generated) keep(t *testing.T) {
	if folder := os.Getenv("COILWALK_KEEP"); folder != "" {
		name := strings.NewReplacer(" ", "-", ",", "").Replace(g.name)
		if err := os.WriteFile(filepath.Join(folder, name), g.text, 0o600); err != nil {
			t.Error(err)
		}
	}
}

// tells says whether a fault that is told names the kind and the pin of one
// that was put in, and whether it is at its time and row.
func (w *wrong) tells(v *course.Verdict, f course.Fault) (named, timed bool) {
	named = f.Kind == w.kind
	if w.channel != "" {
		named = named && slices.ContainsFunc(f.Outputs, func(o int) bool { return v.Channels[o-1] == w.channel })
		if w.kind != "late-pin" {
			named = named && len(f.Outputs) == 1
		}
	}
	at := v.Course.Seconds(f.At)
	timed = w.from <= at && at <= w.to && (w.loose || int64(w.row) <= f.Row && f.Row <= int64(w.lastRow))
	return named, timed
}

// mark is how a recording was told.
type mark struct {
	named, timed []bool // of each fault that was put in
	more         int    // faults told beyond them
}

func (m mark) good() bool {
	return !slices.Contains(m.timed, false) && m.more == 0
}

func (g *generated) mark(v *course.Verdict) mark {
	m := mark{named: make([]bool, len(g.faults)), timed: make([]bool, len(g.faults))}
	if v == nil {
		return m
	}
	m.more = v.More
	used := make([]bool, len(v.Faults))
	for pass := range 2 { // those at their time first
		for i := range g.faults {
			for k, f := range v.Faults {
				named, timed := g.faults[i].tells(v, f)
				if !used[k] && !m.named[i] && named && (timed || pass == 1) {
					used[k], m.named[i], m.timed[i] = true, true, timed
				}
			}
		}
	}
	for _, u := range used {
		if !u {
			m.more++
		}
	}
	return m
}

// marked has the program read a recording, and keeps it where it is not told as
// it is.
func (g *generated) marked(t *testing.T) mark {
	t.Helper()
	v := g.judged(t)
	m := g.mark(v)
	if !m.good() {
		g.keep(t)
		if v != nil {
			t.Log(g.told(v))
		}
	}
	return m
}

// told writes what was put in and what was told, for a look at a failure.
func (g *generated) told(v *course.Verdict) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s; asked %+v, low is on: %v, feeds %v\n", g.name, g.asked, g.low, g.feeds)
	for _, f := range g.faults {
		fmt.Fprintf(&b, "   put in %s %s: rows %d to %d, %.6f to %.6f s\n", f.kind, f.channel, f.row, f.lastRow, f.from, f.to)
	}
	for _, f := range v.Faults {
		fmt.Fprintf(&b, "   told %s %v: row %d, %.6f s: %s\n", f.Kind, f.Outputs, f.Row, v.Course.Seconds(f.At), f.Text)
	}
	return b.String()
}

// kindsOfFault are those that can be seen without a motor.
var kindsOfFault = append([]string{"stuck-low", "stuck-high", "outputs-permuted", "direction-reversed", "open-wrap", "quantised-timer"}, singleRow...)

// size is a number of recordings: the greater with COILWALK_LONG=1.
func size(few, many int) int {
	if os.Getenv("COILWALK_LONG") != "" {
		return many
	}
	if os.Getenv("COILWALK_RACE") != "" {
		return max(1, few/4) // the race detector takes ten times as long, and nothing here depends on how many
	}
	return few
}

// tally counts how the recordings of a kind were told.
type tally struct{ count, named, timed, good int }

func (t *tally) add(m mark, i int) {
	t.count++
	t.named += int(bit(m.named[i]))
	t.timed += int(bit(m.timed[i]))
	t.good += int(bit(m.good()))
}

func (t *tally) addBoth(m mark) {
	t.count++
	t.named += int(bit(!slices.Contains(m.named, false)))
	t.timed += int(bit(!slices.Contains(m.timed, false)))
	t.good += int(bit(m.good()))
}

func (t *tally) String() string {
	share := func(n int) float64 { return 100 * float64(n) / float64(max(1, t.count)) }
	return fmt.Sprintf("%d | %.1f | %.1f | %.1f |", t.count, share(t.named), share(t.timed), share(t.good))
}

const tallyHead = "| kind | recordings | named, % | and timed to the row, % | and nothing else told, % |\n|---|---|---|---|---|\n"

// One fault a recording: of 100 at least 95 are found, named, timed, and
// nothing else is told.
func TestSingleFaults(t *testing.T) {
	var all tally
	lines := tallyHead
	for k, kind := range kindsOfFault {
		var one tally
		for n := range size(6, 100) {
			g := generate(uint64(k+1), n, kind)
			m := g.marked(t)
			one.add(m, 0)
			all.add(m, 0)
		}
		lines += fmt.Sprintf("| `%s` | %s\n", kind, &one)
	}
	t.Logf("\n%s| all | %s", lines, &all)
	if all.good*100 < 95*all.count {
		t.Errorf("of %d recordings with one fault %d were told as they are", all.count, all.good)
	}
}

// partable says whether two faults can be told from each other at all: not an
// order of which every cycle has a slip from other slips of rows, nor the
// direction of outputs that do not turn the rotor.
func partable(a, b string) bool {
	if b == "open-wrap" || b == "outputs-permuted" {
		a, b = b, a
	}
	switch a {
	case "open-wrap":
		return slices.Contains([]string{"glitch", "late-pin", "outputs-permuted", "direction-reversed"}, b)
	case "outputs-permuted":
		return b != "direction-reversed"
	}
	return true
}

// Two faults of different kinds in a recording: of 100 at least 90 are told as
// they are.
func TestPairsOfFaults(t *testing.T) {
	all := map[string]*tally{"": {}}
	series := uint64(100)
	for i, a := range kindsOfFault {
		all[a] = &tally{}
		for _, b := range kindsOfFault[:i] {
			series++
			if !partable(a, b) {
				continue
			}
			for n := range size(1, 10) {
				g := generate(series, n, a, b)
				m := g.marked(t)
				all[a].add(m, 0)
				all[b].add(m, 1)
				all[""].addBoth(m)
			}
		}
	}
	lines := tallyHead
	for _, kind := range kindsOfFault {
		lines += fmt.Sprintf("| `%s` and another | %s\n", kind, all[kind])
	}
	t.Logf("\n%s| all pairs, both | %s", lines, all[""])
	if all[""].good*100 < 90*all[""].count {
		t.Errorf("of %d recordings with two faults %d were told as they are", all[""].count, all[""].good)
	}
}

// Sound recordings, in all modes, with jitter, skew, pauses, turns, accelerated,
// beside other lines: nothing is told, and the runs are those that were meant.
func TestSoundRecordings(t *testing.T) {
	count, asks := size(60, 1000), 0
	for n := range count {
		g := generate(1000, n)
		v := g.judged(t)
		if v == nil { // that it asks which they are is no alarm
			g.keep(t)
			asks++
			continue
		}
		if !v.Sound || len(v.Faults)+v.More > 0 {
			g.keep(t)
			t.Errorf("a false alarm: %s", g.told(v))
			continue
		}
		g.holdRuns(t, v)
	}
	if t.Logf("of %d, %d were not read without being told the outputs", count, asks); asks*100 > count {
		t.Errorf("the outputs of %d of %d were not found", asks, count)
	}
}

// holdRuns compares the runs and the position. Without a wiring the ends have
// no names, so all may be the other way round.
func (g *generated) holdRuns(t *testing.T, v *course.Verdict) {
	t.Helper()
	turned := 1
	if g.asked.wiring != nil {
		turned = ring(g.asked.wiring, g.feeds)
	} else if len(g.runs) > 0 && len(v.Runs) > 0 && int(v.Runs[0].Direction) == -g.runs[0].way {
		turned = -1
	}
	same := len(v.Runs) == len(g.runs)
	for k := 0; same && k < len(g.runs); k++ {
		want, got := g.runs[k], v.Runs[k]
		same = got.Mode == string(want.mode) && int(got.Direction) == turned*want.way && math.Abs(float64(got.Rows)-float64(want.rows)) <= 2 &&
			math.Abs(v.Course.Seconds(got.From)-want.first.at/1e9) <= 2.2*want.first.usual/1e9 && math.Abs(v.Course.Seconds(got.To)-want.last.at/1e9) <= 2.2*want.last.usual/1e9
	}
	at := math.NaN()
	if v.Position != nil {
		at = *v.Position
	}
	if same && math.Abs(at-float64(turned)*g.steps) < 1e-9 {
		return
	}
	g.keep(t)
	t.Errorf("%s; asked %+v: position %v, want %v times %v; runs", g.name, g.asked, at, turned, g.steps)
	for _, r := range g.runs {
		t.Logf("   meant %s %+d, %d rows, %.6f to %.6f s", r.mode, r.way, r.rows, r.first.at/1e9, r.last.at/1e9)
	}
	for _, r := range v.Runs {
		t.Logf("   told  %s %+d, %d rows, %.6f to %.6f s", r.Mode, r.Direction, r.Rows, v.Course.Seconds(r.From), v.Course.Seconds(r.To))
	}
}
