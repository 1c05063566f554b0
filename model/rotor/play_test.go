package rotor

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// playing is a rotor with a load behind a train of ratio 4 with 6 degrees of play
// at the shaft, which are 24 of the rotor and 384 electrical.
func playing(tb testing.TB) Plant {
	p := smallMotor(tb)
	p.Ratio, p.Play = 4, 6
	p.Load.Inertia = 16 * 3e-7 // half as much again as the rotor
	return p
}

// coasting lets a rotor run without currents from one end of the play.
func coasting(p *Plant, speed, lead, load float64) *Motion {
	m := NewMotion(p)
	m.Tolerance = 1e-10
	m.Start(State{Speed: speed, Lead: lead, LoadSpeed: load})
	return m
}

// A rotor that meets a load at rest goes on with it, and both have the momentum
// that one had: before the impact the one moves alone, after it they move together.
// By hand, without any loss or torque but the impact itself.
func TestAnImpactKeepsTheMomentum(t *testing.T) {
	plant := playing(t)
	plant.Stage, plant.Damping = stage(t, "current"), 0
	rapid.Check(t, func(t *rapid.T) {
		p := plant
		p.Load.Inertia = 16 * rapid.Float64Range(1e-9, 1e-5).Draw(t, "inertia")
		p.Play = rapid.Float64Range(0.01, 20).Draw(t, "play")
		half := p.Play / 2 * 4 * 16
		w := rapid.Float64Range(1, 200).Draw(t, "speed") * []float64{1, -1}[rapid.IntRange(0, 1).Draw(t, "way")]
		lead := rapid.Float64Range(-0.99, 0.99).Draw(t, "lead") * half
		load := w * rapid.Float64Range(-1, 0.9).Draw(t, "load")
		m := coasting(&p, w, lead, load)
		gap := half - lead
		if w < 0 {
			gap = half + lead
		}
		meets := gap * math.Pi / 180 / 16 / math.Abs(w-load)
		if err := m.Advance(0.999 * meets); err != nil {
			t.Fatal(err)
		}
		before := m.State()
		if math.Abs(before.Speed-w) > 1e-9*math.Abs(w) || math.Abs(before.LoadSpeed-load) > 1e-9*math.Abs(w) {
			t.Fatalf("before they meet: %g and %g rad/s", before.Speed, before.LoadSpeed)
		}
		if err := m.Advance(1.001 * meets); err != nil {
			t.Fatal(err)
		}
		after := m.State()
		mass := p.Load.Inertia / 16
		want := (p.Inertia*w + mass*load) / (p.Inertia + mass)
		if math.Abs(after.Speed-want) > 1e-7*math.Abs(w) || after.LoadSpeed != after.Speed || math.Abs(math.Abs(after.Lead)-half) > 1e-6*half {
			t.Fatalf("after it: %g and %g rad/s at a lead of %g°, want %g rad/s at %g°", after.Speed, after.LoadSpeed, after.Lead, want, math.Copysign(half, w))
		}
	})
}

// Drag brakes the rotor only. Where that pulls it off a load that runs on, it slows
// as e^(−B·t/J) by itself, and the load does not; where the load has to pull it along
// both slow as e^(−B·t/(J + J′)). What holds at the start needs no event. (The
// textbook decay, at the end of the play and off it.)
func TestDragPartsRotorAndLoad(t *testing.T) {
	for _, way := range []float64{1, -1} {
		p := playing(t)
		p.Stage = stage(t, "current")
		const w, seconds = 100.0, 1e-3
		half := p.Play / 2 * 4 * 16
		for _, c := range []struct{ side, load, inertia float64 }{{1, 1, p.Inertia}, {-1, math.Exp(-p.Damping * seconds / 5e-7), 5e-7}} {
			m := coasting(&p, way*w, way*c.side*half, way*w)
			s := advance(t, m, seconds)
			rotor := math.Exp(-p.Damping * seconds / c.inertia)
			if !near(s.Speed, way*w*rotor, 1e-8*w) || !near(s.LoadSpeed, way*w*c.load, 1e-8*w) || m.Work().Events != 0 {
				t.Errorf("from a lead of %g°: %.8f and %.8f rad/s after %d events, want %.8f and %.8f", way*c.side*half, s.Speed, s.LoadSpeed, m.Work().Events, way*w*rotor, way*w*c.load)
			}
		}
	}
}

// A load thrown up in the gap comes down as a stone does, v − T/J·t, and turning
// round is no event where no friction could hold it. (Free fall; by hand, all of it
// at the rotor: 4e-4 N·m on 3e-7 kg·m².)
func TestALoadThrownUpComesDown(t *testing.T) {
	p := playing(t)
	p.Load.Torque = 4 * 4e-4
	const fall = 4e-4 / 3e-7
	m := coasting(&p, 0, 50, 2)
	for _, at := range []float64{0.5e-3, 1.5e-3, 2.5e-3} {
		s := advance(t, m, at)
		up := (2*at - fall*at*at/2) * 16 * 180 / math.Pi
		if !near(s.LoadSpeed, 2-fall*at, 1e-9) || !near(s.Lead, 50-up, 1e-7) || s.Speed != 0 {
			t.Errorf("after %g s: %.9f rad/s, %.7f° behind", at, s.LoadSpeed, s.Lead)
		}
	}
	if n := m.Work().Events; n != 0 {
		t.Errorf("%d events", n)
	}
}

// A rotor at its rest has not come to rest while a load is on its way through the
// gap to strike it; with one that floats there it has.
func TestALoadOnItsWayIsNoRest(t *testing.T) {
	p := playing(t)
	p.Stage = stage(t, "current")
	for load, rests := range map[float64]bool{0: true, 1: false, -1: false} {
		m := coasting(&p, 0, 0, load)
		m.Energise(aRow)
		if _, ok, err := m.Settle(aRow, 1e-3); ok != rests || err != nil {
			t.Errorf("a load at %g rad/s: at rest %t, %v", load, ok, err)
		}
	}
}

// stepped is the two bodies once more, in small even steps: each pushed by its own
// torque, made one at a contact, and parted when it pulls. No currents: a spring of
// the detent and loads are what moves them.
func stepped(p *Plant, s State, seconds float64) (rotor, load, w, v float64) {
	const h = 2e-8
	mass, half := p.Load.Inertia/p.Ratio/p.Ratio, p.Play/2*p.Ratio*float64(p.PolePairs)*math.Pi/180
	rotor = s.Place.Deg * math.Pi / 180
	load, w, v = rotor-s.Lead*math.Pi/180, s.Speed, s.LoadSpeed
	drag := func(speed, pull, dry float64) float64 { // pull less dry friction
		switch {
		case speed != 0:
			return pull - math.Copysign(dry, speed)
		case math.Abs(pull) <= dry:
			return 0
		}
		return pull - math.Copysign(dry, pull)
	}
	keeps := func(old, speed float64) float64 { // friction stops, it does not turn round
		if old*speed < 0 {
			return 0
		}
		return speed
	}
	for range int(seconds / h) {
		mine := -p.Detent*math.Sin(4*rotor) - p.Damping*w
		its := -p.Load.Torque/p.Ratio - p.Load.Gravity/p.Ratio*math.Sin(load/float64(p.PolePairs)/p.Ratio)
		a := drag(w, mine, p.Friction) / p.Inertia
		b := drag(v, its, p.Load.Friction/p.Ratio) / mass
		if side := math.Copysign(1, rotor-load); math.Abs(rotor-load) >= half && side*(w-v) >= 0 {
			if w != v {
				w = (p.Inertia*w + mass*v) / (p.Inertia + mass)
				v = w
			}
			if both := drag(w, mine+its, p.Friction+p.Load.Friction/p.Ratio) / (p.Inertia + mass); side*(a-b) >= 0 {
				a, b = both, both
			}
		}
		w, v = keeps(w, w+h*a), keeps(v, v+h*b)
		rotor, load = rotor+h*float64(p.PolePairs)*w, load+h*float64(p.PolePairs)*v
	}
	return rotor, load, w, v
}

// Both bodies against the small steps, over several impacts: on a hanging load, on
// one that is dragged, and on one that is only heavy.
func TestPlayAgainstSmallSteps(t *testing.T) {
	for name, c := range map[string]struct {
		load     Load
		friction float64
	}{
		"free":    {Load{Inertia: 16 * 3e-7}, 0},
		"dragged": {Load{Inertia: 16 * 3e-7, Friction: 4 * 3e-4}, 2e-4},
		"hangs":   {Load{Inertia: 16 * 8e-7, Gravity: 4 * 2e-3}, 0},
		"pulled":  {Load{Inertia: 16 * 3e-7, Torque: 4 * 4e-4, Friction: 4 * 1e-4}, 1e-4},
	} {
		p := playing(t)
		p.Stage, p.Detent, p.Damping, p.Friction, p.Play = stage(t, "current"), 3e-3, 2e-6, c.friction, 0.3
		p.Load = c.load
		s := State{Speed: 25, LoadSpeed: -10, Lead: 3}
		m := NewMotion(&p)
		m.Tolerance = 1e-9
		m.Start(s)
		met := 0
		for _, seconds := range []float64{0.002, 0.005, 0.01} {
			got := advance(t, m, seconds)
			met = m.Work().Events
			rotor, load, w, v := stepped(&p, s, seconds)
			at := total(got.Place)
			if math.Abs(at-rotor*180/math.Pi) > 0.1 || math.Abs(at-got.Lead-load*180/math.Pi) > 0.1 || math.Abs(got.Speed-w) > 0.1 || math.Abs(got.LoadSpeed-v) > 0.1 {
				t.Errorf("%s at %g s: rotor %.3f° %.3f rad/s, load %.3f° %.3f rad/s; in small steps %.3f° %.3f, %.3f° %.3f", name, seconds,
					at, got.Speed, at-got.Lead, got.LoadSpeed, rotor*180/math.Pi, w, load*180/math.Pi, v)
			}
		}
		if met < 2 {
			t.Errorf("%s: %d events", name, met)
		}
	}
}

// A load that is always pressed against the train moves as if there were no play.
func TestAPressedLoadHasNoPlay(t *testing.T) {
	p := unipolarMotor(t)
	p.Ratio = 4
	p.Load = Load{Inertia: 16 * 2e-8, Torque: 4 * 5e-3}
	rigid := p
	p.Play = 3
	half := p.Play / 2 * 4 * 16
	a, b := NewMotion(&p), NewMotion(&rigid)
	a.Start(State{Lead: half})
	b.Start(State{})
	o := sequence.Half.Order()
	for k := range 60 {
		a.Energise(o.Row(int64(k)))
		b.Energise(o.Row(int64(k)))
		x, y := advance(t, a, float64(k+1)*5e-3), advance(t, b, float64(k+1)*5e-3)
		if off := math.Abs(x.Place.From(y.Place)); off > 1e-3 || math.Abs(x.Lead-half) > 1e-6 {
			t.Fatalf("row %d: %g° from the rigid train, at a lead of %g°", k+1, off, x.Lead)
		}
	}
}

// The balance of power holds between impacts, and an impact only loses energy.
func TestPowerBalancesWithPlay(t *testing.T) {
	for _, c := range powerCases {
		p := everything(t, c.stage, c.drive)
		p.Play = 2
		m := begun(&p, 10, sequence.Row{})
		worst, most, loose, touching := 0.0, 0.0, 0, 0
		for k := range 40 {
			m.Energise(fieldRows[k%len(fieldRows)])
			for i := range 40 {
				s := advance(t, m, float64(k)*4e-3+float64(i+1)*1e-4)
				if m.loose {
					loose++
				} else {
					touching++
				}
				w := m.Power(s)
				out := w.Copper + w.Switch + w.Clamp + w.Viscous + w.Dry + w.Load + w.Storing
				worst, most = max(worst, math.Abs(w.Supply-out)), max(most, math.Abs(w.Supply), w.Copper)
			}
		}
		if worst > 1e-9*most || loose < 50 || touching < 50 {
			t.Errorf("%s: off by %g of %g W; %d times loose, %d touching", c.stage, worst, most, loose, touching)
		}
	}
}

var fieldRows = []sequence.Row{{1, 0, 0, 0}, {1, 1, 0, 0}, {0, 1, 0, 0}, {}, {0, 0, 1, 1}, {0, 0, 0, 1}, {0, 0, 1, 0}, {0, 1, 1, 0}}

// A load that friction holds stays while the rotor steps within the play.
func TestALoadStaysWithinThePlay(t *testing.T) {
	p := playing(t)
	p.Load.Friction = 4 * 1e-3
	m := NewMotion(&p)
	m.Start(State{Lead: -100})
	o := sequence.Full.Order()
	for k := range 9 { // to and fro by a row, from 45° on
		m.Energise(o.Row(int64(k % 2)))
		s := advance(t, m, float64(k+1)*0.02)
		if s.LoadSpeed != 0 || math.Abs(total(s.Place)-s.Lead-100) > 1e-6 {
			t.Fatalf("row %d: the load has moved to %g°, at %g rad/s", k, total(s.Place)-s.Lead, s.LoadSpeed)
		}
	}
}

func TestPlayAllocatesNothing(t *testing.T) {
	p := everything(t, "darlington", sequence.Unipolar)
	p.Play = 2
	m := begun(&p, 10, sequence.Row{})
	var at float64
	if n := testing.AllocsPerRun(5, func() {
		for k := range 16 {
			m.Energise(fieldRows[k%len(fieldRows)])
			at += 4e-3
			if m.Advance(at) != nil {
				t.Fatal("it does not run")
			}
		}
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// At the face of the train the rotor drags the load's friction forward and is free
// of it backward: a row back takes it to its field, while the load stays.
func TestTheRotorLeavesTheLoadByItself(t *testing.T) {
	p := playing(t)
	p.Damping, p.Load.Friction = 4e-5, 4*5e-3 // half of what one phase holds
	m := NewMotion(&p)
	m.Start(State{Lead: 192})
	o := sequence.Half.Order()
	settled := func(row int64) (rotor, load float64) {
		m.Energise(o.Row(row))
		if _, ok, err := m.Settle(o.Row(row), 1); err != nil || !ok {
			t.Fatal(ok, err)
		}
		s := m.State()
		return total(s.Place), total(s.Place) - s.Lead
	}
	for row := int64(0); row <= 8; row++ {
		settled(row)
	}
	if rotor, _ := settled(8); rotor > 355 || rotor < 320 {
		t.Errorf("forward it drags the load and rests at %.2f° of 360°", rotor)
	}
	_, load := settled(8)
	for row := int64(7); row >= 2; row-- {
		if rotor, now := settled(row); math.Abs(rotor-45*float64(row)) > 1 || math.Abs(now-load) > 1e-9 {
			t.Errorf("row %d: the rotor rests at %.2f°, the load has gone by %g°", row, rotor, now-load)
		}
	}
}

// Whatever hangs behind the play, it runs, the rotor stays within it, and what
// touches has one speed.
func TestAnyLoadRunsInThePlay(t *testing.T) {
	plants := []Plant{playing(t), everything(t, "darlington", sequence.Unipolar), everything(t, "chopper", sequence.Bipolar), everything(t, "current", sequence.Bipolar)}
	rapid.Check(t, func(t *rapid.T) {
		p := plants[rapid.IntRange(0, len(plants)-1).Draw(t, "plant")]
		some := func(name string, most float64) float64 { // none at all as often as some
			if rapid.Bool().Draw(t, "no "+name) {
				return 0
			}
			return rapid.Float64Range(0, most).Draw(t, name)
		}
		p.Play = rapid.Float64Range(0.001, 10).Draw(t, "play")
		p.Friction, p.Detent = some("friction", 2e-3), some("detent", 2e-3)
		p.Load = Load{Torque: p.Ratio * (some("load", 3e-3) - some("load back", 3e-3)), Friction: p.Ratio * some("load friction", 3e-3),
			Gravity: p.Ratio * some("gravity", 3e-3), Inertia: p.Ratio * p.Ratio * p.Inertia * math.Exp(rapid.Float64Range(-6, 4).Draw(t, "inertia"))}
		half := p.Play / 2 * p.Ratio * float64(p.PolePairs)
		m := NewMotion(&p)
		m.Tolerance = 1e-5
		m.Start(State{Lead: rapid.Float64Range(-1, 1).Draw(t, "lead") * half})
		at := 0.0
		for range rapid.IntRange(1, 30).Draw(t, "rows") {
			m.Energise(fieldRows[rapid.IntRange(0, len(fieldRows)-1).Draw(t, "row")])
			at += rapid.Float64Range(1e-4, 2e-2).Draw(t, "seconds")
			if err := m.Advance(at); err != nil {
				t.Fatalf("%v; %+v", err, p)
			}
			s := m.State()
			if math.Abs(s.Lead) > half*(1+1e-6) || math.IsNaN(s.Speed) || !m.loose && s.LoadSpeed != s.Speed {
				t.Fatalf("%+v, half of the play %g", s, half)
			}
		}
	})
}
