package rotor

import (
	"math"
	"strings"
	"testing"

	"coilwalk/sequence"
)

// A motor that starts up to 500, again from 600 to 700, and is followed up to 1000:
// the ends of each band belong to what starts.
func TestVerdicts(t *testing.T) {
	holes := Rates{StartStop: 500, Windows: []Band{{600, 700}, {750, 800}}, Holes: []Band{{500, 600}, {700, 750}}, PullOut: 1000}
	for _, c := range []struct {
		r    Rates
		rate float64
		want Verdict
		from float64
	}{
		{holes, 100, Starts, 100}, {holes, 500, Starts, 500}, {holes, 501, InHole, 425}, {holes, 599, InHole, 425}, {holes, 600, StartsAbove, 600}, {holes, 700, StartsAbove, 700},
		{holes, 720, InHole, 425}, {holes, 800, StartsAbove, 800}, {holes, 801, NeedsRamp, 680}, {holes, 1000, NeedsRamp, 680}, {holes, 1001, NotFollowed, 425},
		{Rates{StartStop: 500, PullOut: 900}, 501, NeedsRamp, 425}, {Rates{StartStop: 500, PullOut: 900}, 901, NotFollowed, 425},
		{Rates{Windows: []Band{{600, 700}}, PullOut: 900}, 100, NeedsRamp, 595}, {Rates{}, 1, NotFollowed, 0},
	} {
		if v, from := c.r.For(c.rate); v != c.want || math.Abs(from-c.from) > 1e-9 {
			t.Errorf("%+v at %v: %d from %v, want %d from %v", c.r, c.rate, v, from, c.want, c.from)
		}
	}
}

// An edge is found from either side, and told on the side where it still holds.
func TestEdges(t *testing.T) {
	var trials Trials
	for _, at := range []float64{101, 149.9, 123.456} {
		asked := 0
		low := trials.edge(100, 150, 1.0/200, func(x float64) bool { asked++; return x <= at })
		high := trials.edge(150, 100, 1.0/200, func(x float64) bool { asked++; return x >= at })
		if low > at || at-low > low/200 || high < at || high-at > high/200 || asked > 16 {
			t.Errorf("the edge at %v was told as %v from below, %v from above, after %d trials", at, low, high, asked)
		}
	}
}

// A swing whose curve is known, 1 − e^(−t/τ)·cos(2πft): it first passes its rest
// after a quarter of a period, rings at f, overshoots where its slope is none,
// tan(2πft) = −1/(2πfτ), and is within a twentieth from the last peak above it on.
func TestResponseOfAKnownSwing(t *testing.T) {
	for _, step := range []float64{90, -45} {
		const f, tau = 50.0, 0.03
		r := Response{Step: step}
		for k := range 4000 {
			at := float64(k) * 1e-4
			r.Times = append(r.Times, at)
			r.Degrees = append(r.Degrees, step*(1-math.Exp(-at/tau)*math.Cos(2*math.Pi*f*at)))
		}
		r.read()
		peak := (math.Pi - math.Atan(1/(2*math.Pi*f*tau))) / (2 * math.Pi * f)
		overshoot := -math.Exp(-peak/tau) * math.Cos(2*math.Pi*f*peak)
		if math.Abs(r.Rise-0.005) > 1e-5 || math.Abs(r.RingHz-f) > 0.05 || math.Abs(r.Overshoot-overshoot) > 1e-3 {
			t.Errorf("%+v°: rises in %v, rings at %v, overshoots by %v; want 0.005, %v, %v", step, r.Rise, r.RingHz, r.Overshoot, f, overshoot)
		}
		settled := 0.0
		for at := 0.2; at > 0; at -= 1e-5 {
			if math.Exp(-at/tau)*math.Abs(math.Cos(2*math.Pi*f*at)) > 0.05 {
				settled = at
				break
			}
		}
		if math.Abs(r.Settling-settled) > 2e-4 {
			t.Errorf("%v°: settled after %v, want %v", step, r.Settling, settled)
		}
	}
	creep := Response{Step: 10}
	for k := range 1000 {
		creep.Times = append(creep.Times, float64(k)*1e-3)
		creep.Degrees = append(creep.Degrees, 10*(1-math.Exp(-float64(k)/100)))
	}
	creep.read() // e⁻³ is a twentieth, near enough: 0.2996 s
	if creep.Rise != 0 || creep.RingHz != 0 || creep.Overshoot != 0 || math.Abs(creep.Settling-0.2996) > 2e-3 {
		t.Errorf("a creep: %v, %v, %v, %v", creep.Rise, creep.RingHz, creep.Overshoot, creep.Settling)
	}
	never := Response{Step: 10, Times: []float64{0, 1, 2}, Degrees: []float64{0, 4, 8}}
	if never.read(); never.Settling != 0 {
		t.Errorf("it never settles, and yet in %v s", never.Settling)
	}
	none := Response{Step: 0.5, Times: []float64{0, 1}, Degrees: []float64{0, 3}}
	if none.read(); none.Overshoot != 0 || none.Settling != 0 {
		t.Errorf("no step overshoots by %v", none.Overshoot)
	}
}

// The ring with one phase on, by hand: √(p·(T1 + 4·Td)/(J + JL/n²)) with 16 pole
// pairs, 10 mN·m, a detent of 1 mN·m, 2e-7 and 16·1e-7/4² = 1e-7 kg·m².
func TestFitToARingByHand(t *testing.T) {
	for shift, stiff := range map[float64]float64{0: 10e-3 + 4e-3, 180: 10e-3 - 4e-3} {
		p := smallMotor(t)
		p.Detent, p.DetentShift, p.Ratio, p.Load.Inertia = 1e-3, shift, 4, 16e-7
		hz := math.Sqrt(16*stiff/3e-7) / (2 * math.Pi)
		p.Inertia = 1
		list, err := p.FitRing(hz, []Estimate{{Figure: "damping"}, {Figure: "inertia", Why: "a guess"}})
		if err != nil || math.Abs(p.Inertia/2e-7-1) > 1e-9 || len(list) != 2 || list[0].Figure != "damping" || !strings.Contains(list[1].Why, "fitted to a ring") {
			t.Errorf("detents at %v°: %v kg·m², %+v, %v", shift, p.Inertia, list, err)
		}
	}
	p := smallMotor(t)
	p.Load.Inertia = 1 // rings more slowly than that alone allows
	if _, err := p.FitRing(100, nil); err == nil || p.Inertia != 2e-7 {
		t.Errorf("%v kg·m², %v", p.Inertia, err)
	}
	if got, want := ResponseSeconds(smallMotor(t)), 20*2*math.Pi/math.Sqrt(16*10e-3/2e-7); math.Abs(got/want-1) > 1e-9 {
		t.Errorf("a response is watched for %v s, want twenty rings of %v", got, want/20)
	}
}

// Half the inertia starts faster, twice as much more slowly, each as the plant does
// that has it; a figure that is no estimate of the plant's is left out.
func TestSensitivityIsThatOfThePlant(t *testing.T) {
	p := plantOf(t, "hybrid-4", "bridge")
	list := Sensitivity(p, []Estimate{{Figure: "coupling"}, {Figure: "inertia", Value: p.Inertia}}, sequence.Half)
	if len(list) != 1 || list[0].Figure != "inertia" {
		t.Fatalf("%+v", list)
	}
	for factor, got := range map[float64]CurvePoint{0.5: list[0].Half, 2: list[0].Twice} {
		q := p
		q.Inertia *= factor
		want, _ := Curve(q, sequence.Half, []float64{0}, nil)
		if got != want[0] {
			t.Errorf("%v times the inertia: %+v, want %+v", factor, got, want[0])
		}
	}
	if list[0].Half.StartStop <= list[0].Twice.StartStop {
		t.Errorf("a lighter rotor starts more slowly: %+v", list[0])
	}
	// A curve that is called off is told so.
	asked := 0
	if _, ok := Curve(p, sequence.Half, []float64{0, 0.01, 0.02}, func(float64) bool { asked++; return asked < 2 }); ok || asked != 2 {
		t.Errorf("called off, and asked %d times, %v", asked, ok)
	}
	if loads := CurveLoads(smallMotor(t), 5); len(loads) != 5 || loads[0] != 0 || math.Abs(loads[2]-5e-3) > 1e-12 || math.Abs(loads[4]-10e-3) > 1e-12 {
		t.Errorf("loads %v, want 0 to 10 mN·m", loads)
	}
}

// The figures that a machine can not have, each at its edge.
func TestPlantsThatCanNotBe(t *testing.T) {
	good := unipolarMotor(t)
	good.Play, good.Load.Inertia, good.Coupling = 1, 1e-7, 0.9999
	if err := good.Check(); err != nil {
		t.Fatal(err)
	}
	for want, spoil := range map[string]func(*Plant){
		"the pole pairs can not be 0": func(p *Plant) { p.PolePairs = 0 }, "the ratio of the train can not be 0": func(p *Plant) { p.Ratio = 0 }, "the flux constant can not be -1": func(p *Plant) { p.FluxConstant = -1 },
		"the phase current can not be 0": func(p *Plant) { p.Current = 0 }, "the rotor inertia can not be 0": func(p *Plant) { p.Inertia = 0 }, "the resistance can not be 0": func(p *Plant) { p.Resistance = 0 },
		"the inductance can not be 0": func(p *Plant) { p.Inductance = 0 }, "the supply voltage can not be -1": func(p *Plant) { p.Supply = -1 }, "the damping can not be -1": func(p *Plant) { p.Damping = -1 },
		"the friction can not be -1": func(p *Plant) { p.Friction = -1 }, "the detent torque can not be -1": func(p *Plant) { p.Detent = -1 }, "the load friction can not be -1": func(p *Plant) { p.Load.Friction = -1 },
		"the load inertia can not be -1": func(p *Plant) { p.Load.Inertia = -1 }, "the play can not be -1": func(p *Plant) { p.Play = -1 }, "a load without inertia": func(p *Plant) { p.Load.Inertia = 0 },
		"can not be coupled by 1": func(p *Plant) { p.Coupling = 1 }, "can not be coupled by -0.1": func(p *Plant) { p.Coupling = -0.1 }, "is no number": func(p *Plant) { p.Load.Gravity = math.NaN() }, "has to be finite": func(p *Plant) { p.DetentShift = math.Inf(-1) },
	} {
		p := good
		spoil(&p)
		if err := p.Check(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	for _, free := range []func(*Plant){func(p *Plant) { p.Supply = 0 }, func(p *Plant) { p.Damping = 0 }, func(p *Plant) { p.Play, p.Load.Inertia = 0, 0 }, func(p *Plant) { p.Coupling = 0 }} {
		p := good
		if free(&p); p.Check() != nil {
			t.Error(p.Check())
		}
	}
	if p := spring(t); p.Check() != nil { // a current source needs no coil
		t.Error(p.Check())
	}
}

// A rotor is at rest when what it can still swing by, ½·p·J·ω² and ½·T1·δ² together,
// is not worth telling; by hand for one that hangs on A+ with 8 pole pairs, 1 mN·m
// and 2e-8 kg·m², of a quarter and of three quarters in either.
func TestRestIsOfSpeedAndPlace(t *testing.T) {
	p := spring(t)
	fast, far := math.Sqrt(2*atRest*1e-3/(8*2e-8)), math.Sqrt(2*atRest)*180/math.Pi
	for _, c := range []struct {
		speed, place float64 // shares of what may be left
		calm         bool
	}{
		{0, 0, true}, {0.99, 0, true}, {1.01, 0, false}, {0, 0.99, true}, {0, 1.01, false}, {0.24, 0.75, true}, {0.26, 0.75, false}, {0.75, 0.26, false}, {0.75, 0.24, true},
	} {
		m := NewMotion(&p)
		m.Start(State{Place: position(math.Sqrt(c.place) * far), Speed: math.Sqrt(c.speed) * fast})
		m.Energise(aRow)
		if err := m.Advance(1e-9); err != nil {
			t.Fatal(err)
		}
		if _, calm := m.calm(p.Machine(), aPlus); calm != c.calm {
			t.Errorf("with %v of the speed and %v of the way it is at rest: %v", c.speed, c.place, calm)
		}
	}
}
