package wiring

import (
	"math"
	"slices"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// What may be asked, counted by hand. 5 leads: 12 kicks in order, 6 pairs to be
// stiff or pulsed, 6 orders to run; where the coils are known the two pairs that
// are one fall away; of 8 leads a half is asked by its first, and each of 6 orders
// has 8 senses. Behind gears no tick and no stiffness is asked for.
func TestEveryQuestion(t *testing.T) {
	for _, c := range []struct {
		leads  int
		geared bool
		want   map[Test]int
	}{
		{5, false, map[Test]int{Kick: 12, Stiff: 6, Pulse: 6, Run: 6}}, {5, true, map[Test]int{Pulse: 6, Run: 6}},
		{4, false, map[Test]int{Kick: 8, Stiff: 4, Pulse: 4, Run: 6}}, {6, false, map[Test]int{Kick: 8, Stiff: 4, Pulse: 4, Run: 6}},
		{8, false, map[Test]int{Kick: 12, Stiff: 6, Pulse: 6, Run: 48}}, {8, true, map[Test]int{Pulse: 6, Run: 48}},
	} {
		got, seen := map[Test]int{}, map[string]bool{}
		for _, q := range asked(t, c.leads, c.geared, "").questions() {
			got[q.Test]++
			seen[q.String()] = true
		}
		all := 0
		for _, test := range Tests {
			all += c.want[test]
			if got[test] != c.want[test] {
				t.Errorf("%d leads, geared %v: %d of %s, want %d", c.leads, c.geared, got[test], test, c.want[test])
			}
		}
		if len(seen) != all {
			t.Errorf("%d leads: %d different questions, want %d", c.leads, len(seen), all)
		}
	}
}

// The odds of each answer under a mapping, by hand: what is right, less the share
// that is told wrong, which goes to the other words alike.
func TestOddsOfAnAnswer(t *testing.T) {
	inOrder, crossed := mapping{0, 1, 2, 3}, mapping{0, 2, 1, 3}
	halves := mapping{0, 0, 1, 3, 2, 2, 3, 1} // a and b one phase alike, c and d against each other
	for _, c := range []struct {
		leads  int
		geared bool
		test   string
		m      mapping
		want   []float64
	}{
		{5, false, "kick p q", inOrder, []float64{0.88, 0.06, 0.06}}, {5, false, "kick q p", inOrder, []float64{0.06, 0.88, 0.06}}, {5, false, "kick p r", inOrder, []float64{0.06, 0.06, 0.88}},
		{5, false, "kick p r", crossed, []float64{0.88, 0.06, 0.06}}, {5, true, "kick p q", inOrder, []float64{0.98/3 + 0.02*0.88, 0.98/3 + 0.02*0.06, 0.98/3 + 0.02*0.06}},
		{8, false, "kick a1 b1", halves, []float64{0.04, 0.04, 0.04, 0.88}}, {8, false, "kick a1 b2", halves, []float64{0.04, 0.04, 0.88, 0.04}}, {8, false, "kick a1 c1", halves, []float64{0.88, 0.04, 0.04, 0.04}},
		{5, false, "stiff p q", inOrder, []float64{0.88, 0.12}}, {5, false, "stiff p r", inOrder, []float64{0.12, 0.88}},
		{8, false, "pulse a1 b1", halves, []float64{0.90, 0.05, 0.05}}, {8, false, "pulse c1 d1", halves, []float64{0.05, 0.90, 0.05}}, {8, false, "pulse a1 c1", halves, []float64{0.05, 0.05, 0.90}},
		{5, false, "pulse p r", inOrder, []float64{0.475, 0.475, 0.05}}, {5, false, "pulse p q", inOrder, []float64{0.05, 0.05, 0.90}},
		{4, false, "short p r", mapping{0, 1, 2, 3}, []float64{0.85, 0.15}}, {4, false, "short p q", mapping{0, 1, 2, 3}, []float64{0.15, 0.85}},
		{5, false, "run p q r s", inOrder, []float64{0.88, 0.04, 0.04, 0.04}}, {5, false, "run p s r q", inOrder, []float64{0.04, 0.88, 0.04, 0.04}}, {5, false, "run q r s p", inOrder, []float64{0.88, 0.04, 0.04, 0.04}},
		{5, true, "run p q r s", inOrder, []float64{0.88, 0.04, 0.04, 0.04}},
	} {
		s := asked(t, c.leads, c.geared, "")
		word := map[Test]string{Kick: "cw", Stiff: "yes", Pulse: "up", Short: "free", Run: "cw"}
		var q Question
		for test, answer := range word {
			if r, err := s.topology.ParseReply(c.test + " " + answer); err == nil && r.Test == test {
				q = r.Question
			}
		}
		if q.Test == "" { // two ends of one half are never asked for
			t.Fatalf("%s is no test", c.test)
		}
		got := s.predict(q, c.m)
		for i := range c.want {
			if len(got) != len(c.want) || math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("%d leads, geared %v, %s under %v: %v, want %v", c.leads, c.geared, c.test, c.m, got, c.want)
				break
			}
		}
	}
}

// A test that was done counts half as much, one that could not be told an eighth,
// and an answer later a seventh; in the end half again.
func TestWeariness(t *testing.T) {
	q := Question{Kick, []motor.Lead{"p", "q"}}
	for text, want := range map[string]float64{
		"": 1, "kick q p cw": 1, "stiff p q yes": 1, "kick p q cw": 2, "kick p q unsure": 8, "kick p q unsure\nkick p r slack": 7,
		"kick p q unsure\nkick p r slack\nkick p s ccw\nkick q r cw\nkick q s slack\nkick r s cw": 3, "kick p q unsure\nkick p r slack\nkick p s ccw\nkick q r cw\nkick q s slack\nkick r s cw\nkick s p cw\nkick s q slack": 2,
	} {
		if got := asked(t, 5, false, text).weariness(q); got != want {
			t.Errorf("after %q it is %v, want %v", text, got, want)
		}
	}
}

// Angles within a pitch, to a hundredth, and the places of rests, to a degree.
func TestPlacesWithinAPitch(t *testing.T) {
	for deg, want := range map[float64]float64{0: 0, 359.994: 359.99, 359.996: 0, 360: 0, -0.004: 0, -0.006: 359.99, -90: 270, 725.5: 5.5, -725.5: 354.5} {
		if got := within(deg); got != want {
			t.Errorf("%v° is at %v°, want %v°", deg, got, want)
		}
	}
	var p places
	for _, deg := range []float64{0, 0.4, 359.6, 63.4, 63.6, 64.2, 127, 128, 319.6, 320, 359} {
		p.add(deg)
	}
	if p.count() != 7 { // 0, 63, 64, 127, 128, 320, 359
		t.Errorf("%d places", p.count())
	}
}

// A rotor that a row takes to either side goes on the way it went where it drifts,
// and else both ways alike; the likeliest of too many states bear the weight of all.
func TestRunnerAtABalance(t *testing.T) {
	either := func(int, float64) restWay { return restWay{by: [2]float64{90, -90}, ways: 2} }
	for _, last := range []int{1, -1} {
		drifts := runner{holds: []bool{true}, drift: true, grain: 1, rest: either}
		next := drifts.step(map[state]float64{{deg: 10, last: last}: 0.5}, 0)
		for s, w := range next {
			if len(next) != 1 || w != 0.5 || s.total != 90*float64(last) || s.last != last || !s.moved || drifts.byChance {
				t.Errorf("going %d it drifts to %+v, %v", last, s, w)
			}
		}
	}
	falls := runner{holds: []bool{true}, grain: 1, rest: either}
	next := falls.step(map[state]float64{{deg: 10, last: 1}: 0.5}, 0)
	sum := 0.0
	for s, w := range next {
		sum += s.total
		if w != 0.25 || s.last*90 != int(s.total) {
			t.Errorf("it falls to %+v, %v", s, w)
		}
	}
	if len(next) != 2 || sum != 0 || !falls.byChance {
		t.Errorf("it falls to %v", next)
	}
	dragged := runner{holds: []bool{true}, load: 0.5, rest: func(int, float64) restWay { return restWay{} }}
	for s := range dragged.step(map[state]float64{{}: 1}, 0) {
		if s.total != -90 || !s.moved {
			t.Errorf("a load that drives it on takes it to %+v", s)
		}
	}
	small := runner{holds: []bool{false}, grain: 1, rest: func(int, float64) restWay { return restWay{by: [2]float64{-0.9}, ways: 1} }}
	for s := range small.step(map[state]float64{{deg: 10, last: 1}: 1}, 0) {
		if s.moved || s.last != 1 || s.deg != 9.1 || s.rests.count() != 0 {
			t.Errorf("a row without a field that moves it by less than a degree makes of it %+v", s)
		}
	}
	b := Behaviour{Share: map[Does]float64{}}
	whole := runner{holds: []bool{true, true, true, true}, drift: true, grain: 1, rest: either}
	if whole.run(1, &b, map[int]float64{}); b.Share[Clockwise] != 0.5 || b.Share[CounterClockwise] != 0.5 || !b.Either {
		t.Errorf("begun both ways alike, it goes %v", b)
	}
	many := map[state]float64{}
	for k := range 2 * mostTracked {
		many[state{deg: float64(k) / 4}] = 1
		if k%2 == 0 {
			many[state{deg: float64(k) / 4}] = 3
		}
	}
	kept := likeliest(many)
	sum = 0
	for s, w := range kept {
		sum += w
		if math.Mod(s.deg*4, 2) != 0 || math.Abs(w-4) > 1e-9 {
			t.Errorf("%+v is kept with %v", s, w)
		}
	}
	if len(kept) != mostTracked || math.Abs(sum-4*mostTracked) > 1e-6 {
		t.Errorf("%d states are kept, with %v in all", len(kept), sum)
	}
	w := restWay{by: [2]float64{-3, 5}}
	if w.order(rotor.Either); w.by != [2]float64{5, -3} {
		t.Errorf("ordered as %v", w.by)
	}
	if w.order(rotor.Either); w.by != [2]float64{5, -3} {
		t.Errorf("ordered again as %v", w.by)
	}
}

// A quarter turned on is the same to a motor of equal phases, whichever row a cycle
// is begun with: one of all is kept.
func TestAlikeCyclesAreOne(t *testing.T) {
	order := sequence.Half.Order()
	begun := func(row, way int) cycle {
		var c cycle
		for k := range order.Len() {
			c.rows = append(c.rows, order.Row(int64(row+way*k)))
		}
		return c
	}
	same := func(a, b cycle) bool {
		for k := range a.rows {
			if a.rows[k] != b.rows[k] {
				return false
			}
		}
		return a.broken == b.broken
	}
	want := begun(0, 1).first()
	for row := range order.Len() {
		if got := begun(row, 1).first(); !same(got, want) {
			t.Errorf("begun at row %d it is %v, want %v", row, got.rows, want.rows)
		}
	}
	if same(begun(0, -1).first(), want) {
		t.Error("in reverse it is the same")
	}
	one, other := begun(0, 1), begun(0, 1)
	one.broken[0], other.broken[3] = true, true
	if !same(one.first(), other.first()) || same(one.first(), want) {
		t.Errorf("with one lead broken it is %v, or %v", one.first(), other.first())
	}
}

func TestDegreesInWords(t *testing.T) {
	for deg, want := range map[float64]string{0.0879: "0.088°", 0.265: "0.27°", 1.5: "1.5°", 8: "8°", 9.96: "10°", 10: "10°", 24.4: "24°"} {
		if got := degrees(deg); got != want {
			t.Errorf("%v is written %s, want %s", deg, got, want)
		}
	}
	for rows, want := range map[float64]int{0: 0, 0.1: 4, 4: 4, 4.1: 8, 136.5: 140, 140: 140} {
		if got := rounds(rows); got != want {
			t.Errorf("%v rows are %d in whole rounds, want %d", rows, got, want)
		}
	}
}

// What the next reading may show is listed, the likeliest first. Three leads that
// read the same to a fourth: that is the common, and they read twice as much to each
// other, or none is, and they read the same.
func TestWhatTheNextReadingMayShow(t *testing.T) {
	for text, want := range map[string]string{
		"a,b,50\na,c,50\na,d,50\n":    "it may read about 99 ohm (50 %) or about 50 ohm (50 %), and that parts what is still possible",
		"a,b,50\nc,d,50\n":            "it may read open (99 %) or about 50 ohm (1 %), and that parts what is still possible",
		"a,b,100\nc,d,50\na,c,open\n": "it may read open (94 %) or about 100 ohm (2 %) or about 50 ohm (2 %) or anything else (3 %), and that parts what is still possible",
	} {
		readings, err := ReadReadings("r", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if next := Identify(readings).Next; next == nil || next.Why != want {
			t.Errorf("%q: %+v, want %s", text, next, want)
		}
	}
	// All that there is was read, and alike: nothing is left to ask.
	readings, _ := ReadReadings("r", []byte("a,b,50\nc,d,50\na,c,open\na,d,open\nb,c,open\nb,d,open\n"))
	if next := Identify(readings).Next; next != nil {
		t.Errorf("of two coils that were read whole, %+v is asked", next)
	}
}

// What a test may show, by hand: of 5 leads the second is a quarter on, a quarter
// back or opposite alike; of 4 it is on or back, and one answer in eight is wrong.
func TestWhatATestMayShow(t *testing.T) {
	for _, c := range []struct {
		leads  int
		geared bool
		want   string
	}{
		{5, false, "of what is still possible, cw 33 %, ccw 33 %, slack 33 %"},
		{4, false, "of what is still possible, cw 47 %, ccw 47 %, slack 6 %"},
	} {
		if ask, ok := asked(t, c.leads, c.geared, "").Next(); !ok || ask.Test != Kick || ask.Why != c.want {
			t.Errorf("%d leads: %+v", c.leads, ask)
		}
	}
	s := asked(t, 4, true, "")
	run := Question{Run, []motor.Lead{"p", "q", "r", "s"}}
	if why := s.why(run); why != "of what is still possible, cw 46 %, ccw 46 %, buzz or still 8 %; behind gears the play swallows a tick, so the leads are run" {
		t.Errorf("%s", why)
	}
}

// What a meter would show under a guess, in words: a joint with what the meter's
// leads have, a coil to two digits, and nothing where a lead is broken.
func TestWhatAMeterWouldShow(t *testing.T) {
	doubled := layout{kind: FiveLead, coil: make([]int, 4), inner: []bool{false, false, true, true}}
	s := sitting{leads: []motor.Lead{"a", "b", "c", "d"}}
	sound := guess{layout: doubled, odds: 0.75, ohm: 52.4, lead: 0.3}
	broken := guess{layout: doubled, odds: 0.25, ohm: 52.4, lead: 0.3, defect: &defect{kind: "open-lead", a: 0}}
	for at, want := range map[[2]int]string{{2, 3}: "0.30 ohm", {0, 2}: "about 52 ohm", {0, 1}: "about 100 ohm", {1, 2}: "about 52 ohm"} {
		got := s.outcomes([]guess{sound, broken}, at[0], at[1])
		wanted := []outcome{{want, 0.75}, {"open", 0.25}}
		if at[0] != 0 {
			wanted = []outcome{{want, 1}}
		}
		if !slices.Equal(got, wanted) {
			t.Errorf("from %d to %d: %v, want %v", at[0], at[1], got, wanted)
		}
	}
}

// Where no current has a way, by hand: both ends of a coil that a bridge drives, one
// half where a tap goes to the supply, and all behind a tap that does not.
func TestBrokenEnds(t *testing.T) {
	for _, c := range []struct {
		fault Fault
		drive sequence.Drive
		want  [4]bool
	}{
		{Fault{Kind: LeadOpen, End: 1}, sequence.Unipolar, [4]bool{false, true, false, false}}, {Fault{Kind: LeadOpen, End: 3}, sequence.Bipolar, [4]bool{false, true, false, true}},
		{Fault{Kind: TapOff, Phase: 0}, sequence.Unipolar, [4]bool{true, false, true, false}}, {Fault{Kind: TapOff, Phase: 1}, sequence.Unipolar, [4]bool{false, true, false, true}},
		{Fault{Kind: TapOff, Phase: -1}, sequence.Unipolar, [4]bool{true, true, true, true}}, {Fault{Kind: OutputDead}, sequence.Unipolar, [4]bool{}},
	} {
		if got := Broken([]Fault{c.fault}, c.drive); got != c.want {
			t.Errorf("%+v, %s: %v, want %v", c.fault, c.drive, got, c.want)
		}
	}
	if got := Broken([]Fault{{Kind: LeadOpen, End: 0}, {Kind: TapOff, Phase: 1}}, sequence.Unipolar); got != [4]bool{true, true, false, true} {
		t.Errorf("both together: %v", got)
	}
}
