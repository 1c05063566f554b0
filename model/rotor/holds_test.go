package rotor

import (
	"math"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// steppedOn brings a motor from a rate to another over 600 rows, lets it go on for
// so many full steps, and gives the row after those at which it is a cycle behind;
// −1 where it is not. It is a run of its own: nothing of Trials is in it.
func steppedOn(t *testing.T, p Plant, mode sequence.Mode, from, rate float64, steps int) int {
	t.Helper()
	const up = 600
	order, per := mode.Order(), 90/float64(mode.PerStep)
	m := NewMotion(&p)
	m.Tolerance = 1e-6
	deg, _ := order.Row(0).Field().Degrees()
	m.Start(State{Place: Position{Deg: deg}})
	m.Energise(order.Row(0))
	if _, _, err := m.Settle(order.Row(0), 2); err != nil {
		t.Fatal(err)
	}
	begin := m.State()
	now := begin.Seconds
	for k := range up + steps*mode.PerStep {
		m.Energise(order.Row(int64(k + 1)))
		now += 1 / (from + (rate-from)*min(1, float64(k)/up))
		if err := m.Advance(now); err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(k+1)*per-m.State().Place.From(begin.Place)) > 360 {
			return k - up
		}
	}
	return -1
}

// twelveVolts is a motor of six leads as it is measured at the bench: 60 ohm a
// half, 12 V. Close below where it falls out at once a swing grows for hundreds of
// rows.
func twelveVolts(t *testing.T) Plant {
	t.Helper()
	m, _ := motor.BuiltIn("hybrid-6")
	m.Figures = motor.Figures{}
	for _, set := range []struct {
		q    interface{ Set(string) error }
		text string
	}{{&m.Figures.Resistance, "59.8 ohm"}, {&m.Figures.Voltage, "12 V"}, {&m.Figures.HoldingTorque, "250 mN.m"}} {
		if err := set.q.Set(set.text); err != nil {
			t.Fatal(err)
		}
	}
	p, _, err := PlantOf(m, stage(t, "darlington"), quantity.Voltage{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What is told to be followed is still followed thousands of rows later, for more
// than twice as long as a trial watches; a rate a few parts in a hundred above is
// not: a swing that grows is waited for.
func TestWhatIsFollowedGoesOn(t *testing.T) {
	for name, p := range map[string]Plant{"twelve volts": twelveVolts(t), "hybrid-6": plantOf(t, "hybrid-6", "darlington"), "vent-flap": plantOf(t, "vent-flap", "darlington")} {
		s := Sweep{Least: p.RingRadians(1) / (2 * math.Pi)} // what lies far below is another test's
		r, ok := NewTrials(p, sequence.Half).Follow(s, nil)
		if !ok || r.StartStop == 0 {
			t.Fatalf("%s: %+v, %t", name, r, ok)
		}
		from := 0.8 * r.StartStop
		if at := steppedOn(t, p, sequence.Half, from, r.PullOut/1.005, 5*LongestWatch/2); at != -1 {
			t.Errorf("%s: follows %.0f rows/s, and falls out of step after %d rows there", name, r.PullOut, at)
		}
		if at := steppedOn(t, p, sequence.Half, from, 1.04*r.PullOut, 5*LongestWatch/2); at == -1 {
			t.Errorf("%s: follows %.0f rows/s, and goes on at a 25th more", name, r.PullOut)
		}
		points, ok := Curve(p, sequence.Half, []float64{0}, nil)
		if off := points[0].PullOut / r.PullOut; !ok || math.Abs(off-1) > 0.03 {
			t.Errorf("%s: the curve's is %.0f rows/s, the sweep's %.0f", name, points[0].PullOut, r.PullOut)
		}
	}
}

// A swing counts as died out only where it gets smaller, or is none.
func TestWhatIsCalm(t *testing.T) {
	for name, c := range map[string]struct {
		behind func(step float64) float64
		even   bool
	}{
		"a swing that dies out":         {func(s float64) float64 { return 20 * math.Exp(-s/40) * math.Sin(s) }, true},
		"one that grows from nothing":   {func(s float64) float64 { return 1e-3 * math.Exp(s/60) * math.Sin(s) }, false},
		"one that stays":                {func(s float64) float64 { return 0.4 * math.Sin(s) }, false},
		"a small one that hardly falls": {func(s float64) float64 { return 0.4 * math.Exp(-s/2000) * math.Sin(s) }, false},
		"rest":                          {func(float64) float64 { return 57 }, true},
		"what the tolerance does":       {func(s float64) float64 { return 5e-4 * math.Sin(s*s) }, true},
		"a rotor that slips":            {func(s float64) float64 { return 3 * s }, false},
	} {
		var calm Calm
		even := false
		for s := range LongestWatch {
			even = even || calm.See(c.behind(float64(s)))
		}
		if even != c.even {
			t.Errorf("%s: even %t", name, even)
		}
	}
}
