package travel

import (
	"context"
	"math"
	"math/big"
	"os"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

func near(got, want, part float64) bool { return math.Abs(got-want) <= part*math.Abs(want) }

// The intervals of an application note on linear speed control of stepper motors
// (2.3.1, appendix 5.1), worked out in double precision from its formulas for
// f = 1 MHz, 200 steps a turn, 10 rad/s²: α = 2π/200, so a = 10/α rows/s².
func TestPublishedRamp(t *testing.T) {
	accel := 10 / (2 * math.Pi / 200)
	p, err := Wish{Rows: 2000, Top: 600, Accel: accel}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	for n, want := range []float64{79266.5, 32833.3, 25193.9, 21239.4, 18712.3, 16917.2} {
		if got := 1e6 * (p.At(int64(n)+1) - p.At(int64(n))); math.Abs(got-want) > 0.06 {
			t.Errorf("interval %d is %.1f ticks, want %.1f", n, got, want)
		}
	}
	timer := Timer{Clock: 1e6, Bits: 32}
	for n, want := range []float64{53584.2, 32150.5, 25006.0, 21158.9, 18669.6, 16891.5} {
		if got := float64(p.Recurrence(timer)[n]); math.Abs(got-want) > 1.5 { // theirs is in whole ticks
			t.Errorf("the recurrence's interval %d is %.0f ticks, want %.1f", n, got, want)
		}
	}
	// And with 460.8 kHz, 400 steps a turn, 20 rad/s².
	p, err = Wish{Rows: 2000, Top: 600, Accel: 20 / (2 * math.Pi / 400)}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	for n, want := range []float64{12345.8, 7407.5, 5761.4, 4875.0, 4301.5, 3891.8} {
		if got := float64(p.Recurrence(Timer{Clock: 460_800, Bits: 16})[n]); math.Abs(got-want) > 1.5 {
			t.Errorf("460.8 kHz: the recurrence's interval %d is %.0f ticks, want %.1f", n, got, want)
		}
	}
}

// The recurrence's error at each step (D. Austin, "Generate stepper-motor speed
// profiles in real time", Table 1; recalled, and reproduced from its formulas).
func TestPublishedAccuracy(t *testing.T) {
	for _, c := range []struct {
		n      int64
		off, d float64
	}{{1, 0.4485, 1e-4}, {2, 0.0136, 1e-4}, {3, 0.00370, 1e-5}, {4, 0.00152, 1e-5}, {5, 7.66e-4, 1e-6}, {6, 4.41e-4, 1e-6}, {10, 9.42e-5, 1e-7}, {100, 9.38e-8, 1e-10}} {
		exact := (math.Sqrt(float64(c.n)+1) - math.Sqrt(float64(c.n))) / (math.Sqrt(float64(c.n)) - math.Sqrt(float64(c.n)-1))
		const large = int64(1) << 50 // so that whole numbers do not matter
		got, _ := next(large, 0, c.n)
		if off := float64(got)/float64(large)/exact - 1; math.Abs(off-c.off) > c.d {
			t.Errorf("at n = %d it is off by %.3g, want %.3g", c.n, off, c.off)
		}
	}
}

// A timer of 1 MHz at 300 rpm of 200 steps counts 1000 (Austin, introduction).
func TestPublishedTimer(t *testing.T) {
	p, err := Wish{Rows: 100, Start: 1000, Top: 1000}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	for k, d := range p.Intervals(Timer{Clock: 1e6, Bits: 16}) {
		if d != 1000 {
			t.Errorf("interval %d is %d ticks", k, d)
		}
	}
}

func anyWish(t *rapid.T) Wish {
	w := Wish{Rows: rapid.Int64Range(1, 5000).Draw(t, "rows"), Top: rapid.Float64Range(1, 20_000).Draw(t, "top"),
		Accel: rapid.Float64Range(1, 1e6).Draw(t, "accel"), Decel: rapid.Float64Range(1, 1e6).Draw(t, "decel"), Shape: Shape(rapid.IntRange(0, 1).Draw(t, "shape"))}
	if rapid.Bool().Draw(t, "starts at once") {
		w.Start = w.Top * rapid.Float64Range(0, 1.2).Draw(t, "start")
	}
	return w
}

// Whatever is asked: rows come one after another, no rate is above the one that
// was asked for, no acceleration above its limit, and the end is the beginning
// seen backwards where both limits are one.
func TestAnyProfile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWish(t)
		p, err := w.Plan()
		if err != nil {
			t.Fatal(err)
		}
		last, rate := 0.0, 0.0
		if p.At(0) != 0 || !near(p.At(p.Rows-1), p.Seconds, 1e-12) {
			t.Fatalf("from %v to %v, want 0 to %v", p.At(0), p.At(p.Rows-1), p.Seconds)
		}
		for k := int64(1); k < p.Rows; k++ {
			at := p.At(k)
			if at <= last {
				t.Fatalf("row %d is sent at %v, row %d at %v", k-1, last, k, at)
			}
			now := 1 / (at - last)
			if now > w.Top*(1+1e-6) {
				t.Fatalf("rate %v at row %d, above %v", now, k, w.Top)
			}
			if k > 1 { // between the middles of two intervals
				steep := (now - rate) / ((at - p.At(k-2)) / 2)
				if limit := max(w.Accel, w.Decel); math.Abs(steep) > limit*1.0001+1e-3*w.Top {
					t.Fatalf("it changes by %v rows/s² at row %d, the limit is %v", steep, k, limit)
				}
			}
			last, rate = at, now
		}
		if w.Accel == w.Decel {
			for k := range p.Rows {
				if got := p.Seconds - p.At(p.Rows-1-k); !near(got, p.At(k), 1e-9) && math.Abs(got-p.At(k)) > 1e-9 {
					t.Fatalf("row %d comes after %v, and %v before the end", k, p.At(k), got)
				}
			}
		}
	})
}

// Whole ticks add up to the exact time, however many rows: no row is more than
// half a tick off.
func TestTicksDoNotDrift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWish(t)
		timer := Timer{Clock: rapid.Float64Range(1e4, 1e8).Draw(t, "clock"), Prescale: 8, Bits: 32}
		p, err := w.Plan()
		if err != nil {
			t.Fatal(err)
		}
		sum := int64(0)
		for k, d := range p.Intervals(timer) {
			sum += d
			if off := float64(sum) - p.At(int64(k)+1)*timer.Ticks(); math.Abs(off) > 0.5+1e-6 {
				t.Fatalf("row %d is %v ticks off", k+1, off)
			}
		}
	})
}

// Broken off anywhere, it comes to its start rate within the limit, in the rows
// that it takes: v²/2a (the note's 2.3.2).
func TestStopAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWish(t)
		w.Start = 0
		p, err := w.Plan()
		if err != nil {
			t.Fatal(err)
		}
		k := rapid.Int64Range(0, p.Rows-1).Draw(t, "k")
		s, err := p.Stop(k)
		if err != nil {
			t.Fatal(err)
		}
		need := p.form() * p.Rate(k) * p.Rate(k) / (2 * p.Wish.Decel)
		if got := float64(s.Rows - 1); got < need-1e-6 || got > need+1+1e-6 {
			t.Fatalf("at %v rows/s it stops in %v rows, %v are needed", p.Rate(k), got, need)
		}
		for j := int64(2); j < s.Rows; j++ {
			if a, b := s.At(j-1)-s.At(j-2), s.At(j)-s.At(j-1); b < a*(1-1e-9) {
				t.Fatalf("interval %d is %v, the one before %v", j, b, a)
			}
		}
	})
}

// A million moves, there and back and on, of a third of a turn behind a train that
// closes with nothing: the shaft is never more than half a row off, and the play
// is taken up at each reversal and given back at the next.
func TestMillionMoves(t *testing.T) {
	perTurn, turns := big.NewRat(25792*64, 405), big.NewRat(1, 3)
	m := NewMover(perTurn, big.NewRat(7, 1000))
	half, rows, back := big.NewRat(1, 2), new(big.Int), new(big.Rat).Neg(turns)
	wanted := new(big.Rat)
	play := nearest(new(big.Rat).Mul(big.NewRat(7, 1000), perTurn))
	reversed := false
	moves := 1_000_000
	if os.Getenv("COILWALK_RACE") != "" {
		moves /= 20 // ten times as slow, and none the wiser
	}
	for k := range moves {
		by := turns
		if k%7 == 3 || k%7 == 4 {
			by = back
		}
		s := m.Turn(by)
		rows.Add(rows, s.Rows)
		wanted.Add(wanted, by)
		if new(big.Rat).Abs(s.Off).Cmp(half) > 0 {
			t.Fatalf("after move %d it is %s rows off", k, s.Off)
		}
		if turned := by == back; turned != reversed {
			if new(big.Int).Abs(s.Play).Cmp(play) != 0 {
				t.Fatalf("move %d takes up %s rows of play, want %s", k, s.Play, play)
			}
			reversed = turned
		} else if s.Play.Sign() != 0 {
			t.Fatalf("move %d takes up play without a reversal", k)
		}
	}
	all := new(big.Rat).Mul(wanted, perTurn)
	if got := new(big.Rat).Sub(new(big.Rat).SetInt(rows), all); new(big.Rat).Abs(got).Cmp(half) > 0 {
		t.Errorf("in the end %s rows too many", got)
	}
}

// What whole numbers do: 200/60 is 3, half a millisecond is none (confusions that
// recur; common practice, no source).
func TestBeliefs(t *testing.T) {
	for _, c := range []struct {
		b     Belief
		delay int64
		rate  float64
	}{
		{Belief{StepsPerTurn: 2048, RPM: 12, Unit: 1e-3, PerMinute: 60_000}, 2, 500},                      // 60000/2048 = 29, /12 = 2: 500 rows/s instead of 409.6
		{Belief{StepsPerTurn: 2048, RPM: 12, Unit: 1e-6, PerMinute: 60_000_000}, 2441, 409.668},           // in microseconds it is right
		{Belief{StepsPerTurn: 200, RPM: 300, Unit: 1e-3, PerMinute: 60_000, Twice: true}, 0, math.Inf(1)}, // half a millisecond is none
		{Belief{StepsPerTurn: 200, RPM: 100, Unit: 1e-3, PerMinute: 60_000, Twice: true}, 1, 500},         // 3 ms, halved to 1: 500 instead of 333
		{Belief{StepsPerTurn: 200, RPM: 100, Unit: 1e-3, PerMinute: 60_000}, 3, 1000.0 / 3},
		{Belief{StepsPerTurn: 4096, RPM: 7, Unit: 1e-3, PerMinute: 60_000, Floating: true}, 2, 500}, // 2.09, cut
	} {
		r, err := c.b.Reckon()
		if err != nil {
			t.Fatal(err)
		}
		if r.Delay != c.delay || !(r.Rate == c.rate || near(r.Rate, c.rate, 1e-4)) {
			t.Errorf("%+v: waits %d, %v rows/s; want %d, %v (%v)", c.b, r.Delay, r.Rate, c.delay, c.rate, r.Stages)
		}
	}
}

func TestTimersThatDoNotFit(t *testing.T) {
	p, err := Wish{Rows: 200, Top: 500, Accel: 300}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	wide := Timer{Clock: 16e6, Bits: 16}
	strains := wide.Fits(p.Intervals(wide))
	if len(strains) != 1 || strains[0].Row != 0 || strains[0].Cure != "Divide the clock by 32, use a counter of more bits, or start faster." {
		t.Errorf("16 MHz on 16 bits: %+v", strains)
	}
	wide.Prescale = 64
	if s := wide.Fits(p.Intervals(wide)); len(s) != 0 {
		t.Errorf("divided by 64: %+v", s)
	}
	slow := Timer{Clock: 10e3, Bits: 16}
	if s := slow.Fits(p.Intervals(slow)); len(s) != 1 || s[0].Row == 0 {
		t.Errorf("10 kHz: %+v", s)
	}
}

func plant(t *testing.T) rotor.Plant {
	t.Helper()
	m, _ := motor.BuiltIn("vent-flap")
	p, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What the trials of rates tell of starts and ramps, moves show as well.
func TestMovesThatAreFollowed(t *testing.T) {
	p := plant(t)
	trials := rotor.NewTrials(p, sequence.Half)
	s := rotor.Sweep{}
	if os.Getenv("COILWALK_RACE") != "" {
		s.Least, s.Edge = 400, 0.02 // nothing is done at once
	}
	found, _ := trials.Follow(s, nil)
	top := 0.5 * (found.StartStop + found.PullOut)
	micro, err := sequence.Micro(8, 0)
	if err != nil {
		t.Fatal(err)
	}
	if plan, err := (Wish{Rows: 1200, Start: 800, Top: 800}).Plan(); err != nil {
		t.Fatal(err)
	} else if f, err := plan.Follow(context.Background(), p, micro, sequence.Forward); err != nil || f.Kind != "" || f.Lost != 0 {
		t.Errorf("100 full steps a second in eighths: %+v, %v", f, err)
	}
	for _, c := range []struct {
		name string
		w    Wish
		way  sequence.Direction
		kind string
	}{
		{"at once, slowly", Wish{Rows: 300, Start: 0.8 * found.StartStop, Top: 0.8 * found.StartStop}, sequence.Forward, ""},
		{"at once, too fast", Wish{Rows: 300, Start: 1.3 * found.StartStop, Top: 1.3 * found.StartStop}, sequence.Forward, "fast-start"},
		{"ramped to a rate in the slew range", Wish{Rows: 1500, Start: 0.6 * found.StartStop, Top: top, Accel: 1500}, sequence.Reverse, ""},
		{"ramped too steeply", Wish{Rows: 600, Start: 0.8 * found.StartStop, Top: 0.95 * found.PullOut, Accel: 5e4}, sequence.Forward, "steep-ramp"},
		{"a long even middle", Wish{Rows: 50_000, Start: 0.5 * found.StartStop, Top: 0.8 * found.StartStop, Accel: 1000}, sequence.Forward, ""},
	} {
		plan, err := c.w.Plan()
		if err != nil {
			t.Fatal(err)
		}
		f, err := plan.Follow(context.Background(), p, sequence.Half, c.way)
		if err != nil {
			t.Fatal(err)
		}
		if f.Kind == "lost-steps" && c.kind == "steep-ramp" {
			f.Kind = c.kind // it falls out at the end of the ramp, or just after
		}
		if f.Kind != c.kind || (f.Lost != 0) != (c.kind != "") || f.Cut != (c.w.Rows > 5000) {
			t.Errorf("%s: %+v, want %q", c.name, f, c.kind)
		}
	}
}
