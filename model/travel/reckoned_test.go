package travel

import (
	"math"
	"math/big"
	"reflect"
	"strings"
	"testing"

	"coilwalk/sequence"
)

// Reckoned by hand from v² = v0² + 2as and t = (v − v0)/a: where a ramp ends, what
// is even between, how long it takes, and the rates on the way. A smooth ramp with
// π/2 times the acceleration has the same way and time.
func TestMovesReckonedByHand(t *testing.T) {
	for _, c := range []struct {
		name                         string
		w                            Wish
		peak, up, flat, down, second float64
		rates                        map[int64]float64
	}{
		{"up, even, down", Wish{Rows: 1001, Top: 100, Accel: 50, Decel: 100}, 100, 100, 850, 50, 2 + 8.5 + 1,
			map[int64]float64{0: 0, 50: math.Sqrt(5000), 99: math.Sqrt(9900), 100: 100, 500: 100, 950: 100, 975: math.Sqrt(5000), 1000: 0}},
		{"one figure for both", Wish{Rows: 1001, Top: 100, Accel: 50}, 100, 100, 800, 100, 2 + 8 + 2,
			map[int64]float64{950: math.Sqrt(5000)}},
		{"turns before its rate", Wish{Rows: 301, Top: 1000, Accel: 50, Decel: 100}, math.Sqrt(20_000), 200, 0, 100, math.Sqrt(20_000) * (1.0/50 + 1.0/100),
			map[int64]float64{100: 100, 250: 100}},
		{"from a rate", Wish{Rows: 1001, Start: 100, Top: 200, Accel: 50}, 200, 300, 400, 300, 2 + 2 + 2,
			map[int64]float64{0: 100, 150: math.Sqrt(25_000), 1000: 100}},
		{"from a rate, turns before", Wish{Rows: 301, Start: 100, Top: 200, Accel: 50}, math.Sqrt(25_000), 150, 0, 150, 2 * (math.Sqrt(25_000) - 100) / 50, nil},
		{"just reaches its rate", Wish{Rows: 201, Top: 100, Accel: 50}, 100, 100, 0, 100, 4, nil},
		{"at once", Wish{Rows: 11, Start: 100, Top: 100}, 100, 0, 10, 0, 0.1, map[int64]float64{0: 100, 5: 100, 10: 100}},
		{"no faster than asked", Wish{Rows: 11, Start: 300, Top: 100}, 100, 0, 10, 0, 0.1, nil},
		{"one row", Wish{Rows: 1, Start: 20, Top: 100, Accel: 50}, 20, 0, 0, 0, 0, map[int64]float64{0: 20}},
		{"smooth", Wish{Rows: 1001, Top: 100, Accel: 25 * math.Pi, Decel: 50 * math.Pi, Shape: Smooth}, 100, 100, 850, 50, 2 + 8.5 + 1,
			map[int64]float64{0: 0, 100: 100, 950: 100, 1000: 0}},
		{"smooth, turns before", Wish{Rows: 301, Top: 1000, Accel: 25 * math.Pi, Decel: 50 * math.Pi, Shape: Smooth}, math.Sqrt(20_000), 200, 0, 100, math.Sqrt(20_000) * (1.0/50 + 1.0/100), nil},
	} {
		p, err := c.w.Plan()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		got, want := []float64{p.Peak, p.Up, p.Flat, p.Down, p.Seconds}, []float64{c.peak, c.up, c.flat, c.down, c.second}
		for i := range want {
			if !(math.Abs(got[i]-want[i]) <= 1e-9*max(1, want[i])) {
				t.Errorf("%s: peak, up, flat, down, seconds are %v, want %v", c.name, got, want)
				break
			}
		}
		for k, rate := range c.rates {
			if got := p.Rate(k); !(math.Abs(got-rate) <= 1e-6) { // so that what is no number is told too
				t.Errorf("%s: %v rows/s at row %d, want %v", c.name, got, k, rate)
			}
		}
	}
}

// What is sent when, against the rates on the way: the rate is the slope of the
// rows over time, from the first to the last, whatever the shape.
func TestRateIsTheSlope(t *testing.T) {
	for _, shape := range []Shape{Trapezoid, Smooth} {
		p, err := Wish{Rows: 4001, Start: 50, Top: 900, Accel: 700, Decel: 1100, Shape: shape}.Plan()
		if err != nil {
			t.Fatal(err)
		}
		for k := int64(10); k < p.Rows-10; k++ { // a ramp's ends are too steep for a difference
			slope := 2 / (p.At(k+1) - p.At(k-1))
			if got := p.Rate(k); !(math.Abs(got/slope-1) <= 0.01) {
				t.Fatalf("%s: %v rows/s at row %d, its neighbours are sent at %v", shape, got, k, slope)
			}
		}
	}
}

func TestMovesThatCanNotBe(t *testing.T) {
	good := Wish{Rows: MostRows, Start: 1, Top: 100, Accel: 50}
	if _, err := good.Plan(); err != nil {
		t.Error(err)
	}
	for want, spoil := range map[string]func(*Wish){
		"numbers above zero": func(w *Wish) { w.Start = math.NaN() }, "have to be numbers": func(w *Wish) { w.Top = math.Inf(1) },
		"rates and accelerations": func(w *Wish) { w.Decel = -1 }, "a move of 0 rows": func(w *Wish) { w.Rows = 0 },
		"a move of 1099511627777 rows": func(w *Wish) { w.Rows = MostRows + 1 }, "a rate above zero": func(w *Wish) { w.Top = 0 },
		"from 1 to 100": func(w *Wish) { w.Accel = 0 }, "an acceleration above zero": func(w *Wish) { w.Accel, w.Decel = 0, 50 },
	} {
		w := good
		spoil(&w)
		if _, err := w.Plan(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", w, err, want)
		}
	}
}

// Broken off where it goes evenly, at 200 rows/s: (200² − 100²)/2·50 = 300 rows
// more in 2 s, down to the rate at which it may stop at once.
func TestStopToItsStartRate(t *testing.T) {
	p, err := Wish{Rows: 2001, Start: 100, Top: 200, Accel: 80, Decel: 50}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	s, err := p.Stop(1000)
	if err != nil {
		t.Fatal(err)
	}
	if s.Rows != 301 || !near(s.Seconds, 2, 1e-9) || !near(s.At(300), 2, 1e-9) || !near(s.Rate(0), 200, 1e-9) || !near(s.Rate(300), 100, 1e-9) || !near(s.Decel, 50, 1e-9) {
		t.Errorf("it stops with %+v", s)
	}
	for _, k := range []int64{0, 2000} {
		if s, err := p.Stop(k); err != nil || s.Rows != 1 || s.Seconds != 0 {
			t.Errorf("at its start rate it stops with %+v, %v", s, err)
		}
	}
}

// The recurrence over a whole move: as many intervals as the exact ones, each near
// its own but for the first and the last few, and none shorter than the rate that
// was asked for.
func TestRecurrenceOverAWholeMove(t *testing.T) {
	timer := Timer{Clock: 1e6, Bits: 32}
	for _, w := range []Wish{
		{Rows: 2001, Top: 600, Accel: 400},
		{Rows: 2001, Top: 600, Accel: 400, Decel: 1200},
		{Rows: 301, Top: 5000, Accel: 400, Decel: 800}, // turns before its rate: 200 rows up, 100 down
	} {
		p, err := w.Plan()
		if err != nil {
			t.Fatal(err)
		}
		exact, got := p.Intervals(timer), p.Recurrence(timer)
		if len(got) != len(exact) {
			t.Fatalf("%+v: %d intervals, want %d", w, len(got), len(exact))
		}
		if whole, _ := Apart(exact, got); whole > 0 || whole < -0.03 { // its first and last interval are shorter by a third
			t.Errorf("%+v: the whole is off by %.4f", w, whole)
		}
		for k, d := range got {
			if d < int64(1e6/w.Top) {
				t.Fatalf("%+v: interval %d is %d ticks, faster than %v rows/s", w, k, d, w.Top)
			}
			if part := float64(d)/float64(exact[k]) - 1; math.Abs(part) > 0.04 && 4 < k && k < len(got)-4 {
				t.Fatalf("%+v: interval %d is %d ticks, exactly %d", w, k, d, exact[k])
			}
		}
		if whole, worst := Apart(exact, exact); whole != 0 || worst != 0 {
			t.Errorf("a list is %v, %v from itself", whole, worst)
		}
	}
	one := Profile{Wish: Wish{Rows: 1, Top: 1, Accel: 1, Decel: 1}}
	if got := one.Recurrence(timer); got != nil {
		t.Errorf("one row has the intervals %v", got)
	}
}

func TestApart(t *testing.T) {
	for _, c := range []struct {
		exact, other []int64
		whole, worst float64
	}{
		{[]int64{100, 200}, []int64{110, 190}, 0, 0.1},
		{[]int64{100, 100}, []int64{150, 100}, 0.25, 0.5},
		{[]int64{100, 100}, []int64{50, 100}, -0.25, 0.5},
		{[]int64{100, 100, 100}, []int64{100}, 0, 0}, // the shorter list is all that can be told
		{[]int64{0, 0}, []int64{5, 0}, 0, 0},
		{nil, []int64{1}, 0, 0},
	} {
		if whole, worst := Apart(c.exact, c.other); whole != c.whole || worst != c.worst {
			t.Errorf("%v and %v are %v, %v apart, want %v, %v", c.exact, c.other, whole, worst, c.whole, c.worst)
		}
	}
}

// What a counter holds and what it makes of more: 2^16 ticks run over to 0.
func TestCountersAtTheirEnds(t *testing.T) {
	timer := Timer{Clock: 16e6, Bits: 16}
	const finer, more = "A faster clock, or a smaller prescale.", "Use a counter of more bits, count its overflows, or start faster."
	for _, c := range []struct {
		prescale  float64
		intervals []int64
		want      []Strain
	}{
		{0, nil, nil},
		{0, []int64{50, 65_535, 50}, nil},
		{0, []int64{60, 65_536, 65_536}, []Strain{{1, "The interval after row 2 is 65536 ticks; a counter of 16 bits holds 65535, and would run over to 0.", "Divide the clock by 2, use a counter of more bits, or start faster."}}},
		{1, []int64{131_071}, []Strain{{0, "The interval after row 1 is 131071 ticks; a counter of 16 bits holds 65535, and would run over to 65535.", "Divide the clock by 4, use a counter of more bits, or start faster."}}},
		{1, []int64{131_070}, []Strain{{0, "The interval after row 1 is 131070 ticks; a counter of 16 bits holds 65535, and would run over to 65534.", "Divide the clock by 2, use a counter of more bits, or start faster."}}},
		{1024, []int64{70_000}, []Strain{{0, "The interval after row 1 is 70000 ticks; a counter of 16 bits holds 65535, and would run over to 4464.", more}}},
		{0, []int64{100, 49, 100, 49}, []Strain{{1, "The shortest interval is 49 ticks: one tick more or less changes the rate by 2 %.", finer}}},
		{0, []int64{49, 100, 60}, []Strain{{0, "The shortest interval is 49 ticks: one tick more or less changes the rate by 2 %.", finer}}},
		{0, []int64{0}, []Strain{{0, "The shortest interval is 0 ticks: one tick more or less changes the rate by 100 %.", finer}}},
	} {
		timer.Prescale = c.prescale
		if got := timer.Fits(c.intervals); !reflect.DeepEqual(got, c.want) {
			t.Errorf("divided by %v, %v: %+v, want %+v", c.prescale, c.intervals, got, c.want)
		}
	}
	if got := []int64{Timer{Bits: 8}.Most(), Timer{Bits: 16}.Most(), Timer{Bits: 32}.Most()}; !reflect.DeepEqual(got, []int64{255, 65_535, 4_294_967_295}) {
		t.Errorf("counters hold %v", got)
	}
}

// A clock of a power of two is divided without a rounding, so an interval that just
// fills the counter at a prescale shows that it does.
func TestPrescaleThatJustHolds(t *testing.T) {
	timer := Timer{Clock: 1 << 24, Bits: 16}
	for d, want := range map[int64]string{2 * 65_535: "by 2,", 2*65_535 + 1: "by 4,", 256 * 65_535: "by 256,", 256*65_535 + 1: "by 1024,"} {
		if s := timer.Fits([]int64{d}); len(s) != 1 || !strings.Contains(s[0].Cure, want) {
			t.Errorf("an interval of %d ticks: %+v, want a clock divided %s", d, s, want)
		}
	}
}

func TestTimersThatCanNotBe(t *testing.T) {
	for _, c := range []struct {
		timer Timer
		want  string // "" where it can be
	}{
		{Timer{Clock: 1, Bits: 8}, ""}, {Timer{Clock: 1e10, Prescale: 1, Bits: 16}, ""}, {Timer{Clock: 16e6, Prescale: 1 << 20, Bits: 32}, ""},
		{Timer{Clock: 0.9, Bits: 8}, "a clock of 0.9 Hz"}, {Timer{Clock: 2e10, Bits: 8}, "a clock of 2e+10 Hz"}, {Timer{Clock: math.NaN(), Bits: 8}, "a clock of NaN Hz"},
		{Timer{Clock: 1e6, Prescale: 0.5, Bits: 8}, "not by 0.5"}, {Timer{Clock: 1e6, Prescale: 1<<20 + 1, Bits: 8}, "at most 1048576, not by"}, {Timer{Clock: 1e6, Prescale: -1, Bits: 8}, "not by -1"},
		{Timer{Clock: 1e6, Bits: 12}, "a counter of 12 bits"},
	} {
		err := c.timer.Check()
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.timer, err, c.want)
		}
	}
}

func TestListed(t *testing.T) {
	for most, want := range map[int]string{2: "1 20 …", 3: "1 20 300", 4: "1 20 300", 0: "…"} {
		if got := Listed([]int64{1, 20, 300}, most); got != want {
			t.Errorf("at most %d: %q, want %q", most, got, want)
		}
	}
}

// A train of 100 rows to a turn whose play is 3 rows: it is crossed on each
// reversal and on no other move, also when the move before is only told.
func TestPlayIsCrossedOnReversals(t *testing.T) {
	turn := func(m *Mover, hundredths int64, rows, play int64) {
		t.Helper()
		if s := m.Turn(big.NewRat(hundredths, 100)); s.Rows.Int64() != rows || s.Play.Int64() != play || s.Off.Sign() != 0 {
			t.Errorf("%d rows asked for: %s sent, %s of them for the play, %s off; want %d, %d", hundredths, s.Rows, s.Play, s.Off, rows, play)
		}
	}
	fresh := func() *Mover { return NewMover(big.NewRat(100, 1), big.NewRat(3, 100)) }
	m := fresh()
	turn(m, 10, 10, 0)
	turn(m, -10, -13, -3)
	turn(m, 0, 0, 0)
	turn(m, -10, -10, 0)
	turn(m, 10, 13, 3)
	m = fresh()
	m.After(sequence.Reverse)
	turn(m, -10, -10, 0)
	turn(m, 10, 13, 3)
	m.After(sequence.Forward)
	turn(m, 10, 10, 0)
	turn(m, -10, -13, -3)
	m = NewMover(big.NewRat(100, 1), nil)
	turn(m, 10, 10, 0)
	turn(m, -10, -10, 0)
}

// Halves go up, so 1/2 and −1/2 are a row apart, and a move of less than half a
// row is none and no reversal.
func TestHalvesOfARow(t *testing.T) {
	m := NewMover(big.NewRat(1, 1), big.NewRat(2, 1))
	for _, c := range []struct {
		num, den, rows, play int64
		off                  *big.Rat
	}{
		{1, 2, 1, 0, big.NewRat(1, 2)}, {-1, 4, -3, -2, big.NewRat(-1, 4)}, {-1, 8, 0, 0, big.NewRat(-1, 8)}, {-5, 8, 0, 0, big.NewRat(1, 2)}, {-1, 8, -1, 0, big.NewRat(-3, 8)},
	} {
		s := m.Turn(big.NewRat(c.num, c.den))
		if s.Rows.Int64() != c.rows || s.Play.Int64() != c.play || s.Off.Cmp(c.off) != 0 {
			t.Errorf("%d/%d of a row: %s sent, %s for the play, %s off; want %d, %d, %s", c.num, c.den, s.Rows, s.Play, s.Off, c.rows, c.play, c.off)
		}
	}
}

// The reckoning of firmware as it is told, line by line.
func TestBeliefsAreToldLineByLine(t *testing.T) {
	for _, c := range []struct {
		b             Belief
		wanted, exact float64
		delay         int64
		rate          float64
		stages        string
	}{
		{Belief{StepsPerTurn: 2048, RPM: 12, Unit: 1e-3, PerMinute: 60_000}, 409.6, 2.44140625, 2, 500, "60000 / 2048 = 29, / 12 = 2, in whole numbers"},
		{Belief{StepsPerTurn: 200, RPM: 100, Unit: 1e-3, PerMinute: 60_000, Twice: true}, 1000.0 / 3, 1.5, 1, 500, "60000 / 200 = 300, / 100 = 3, in whole numbers|3 / 2 = 1"},
		{Belief{StepsPerTurn: 200, RPM: 100, Unit: 1e-3, PerMinute: 60_000, Twice: true, Floating: true}, 1000.0 / 3, 1.5, 1, 500, "60000 / (200 × 100) / 2 = 1.5, cut to 1"},
		{Belief{StepsPerTurn: 200, RPM: 100, Unit: 1e-3, PerMinute: 60_000, Floating: true}, 1000.0 / 3, 3, 3, 1000.0 / 3, "60000 / (200 × 100) = 3, cut to 3"},
		{Belief{StepsPerTurn: 1, RPM: 1, Unit: 60, PerMinute: 1}, 1.0 / 60, 1, 1, 1.0 / 60, "1 / 1 = 1, / 1 = 1, in whole numbers"},
	} {
		r, err := c.b.Reckon()
		if err != nil || r.Delay != c.delay || !near(r.Wanted, c.wanted, 1e-12) || !near(r.Exact, c.exact, 1e-12) || !near(r.Rate, c.rate, 1e-12) || strings.Join(r.Stages, "|") != c.stages {
			t.Errorf("%+v: %+v, %v", c.b, r, err)
		}
	}
	for _, b := range []Belief{{RPM: 1, PerMinute: 1}, {StepsPerTurn: 1, PerMinute: 1}, {StepsPerTurn: 1, RPM: 1}, {StepsPerTurn: -1, RPM: 1, PerMinute: 1}} {
		if r, err := b.Reckon(); err == nil {
			t.Errorf("%+v reckons %+v", b, r)
		}
	}
}
