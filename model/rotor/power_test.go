package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// everything is a plant in which all that can take power does, for a stage.
func everything(tb testing.TB, name string, drive sequence.Drive) Plant {
	p := smallMotor(tb)
	if drive == sequence.Unipolar {
		p = unipolarMotor(tb)
	}
	p.Stage = stage(tb, name)
	p.Detent, p.DetentShift, p.Friction, p.Ratio = 4e-4, 30, 3e-4, 3
	p.Load = Load{Torque: 6e-4, Gravity: 9e-4, GravityDeg: 20, Friction: 3e-4, Inertia: 4e-7}
	return p
}

var powerCases = []struct {
	stage string
	drive sequence.Drive
}{
	{"darlington", sequence.Unipolar}, {"mosfet", sequence.Unipolar}, {"ideal", sequence.Unipolar}, {"current", sequence.Unipolar},
	{"bridge", sequence.Bipolar}, {"bridge-fast", sequence.Bipolar}, {"mosfet-bridge", sequence.Bipolar}, {"mosfet-bridge-fast", sequence.Bipolar},
	{"chopper", sequence.Bipolar}, {"current", sequence.Bipolar}, {"ideal", sequence.Bipolar},
}

// halfSteps runs half steps of 4 ms, with microstep levels and idle rows among
// them, and gives every sample and the row that it lies under.
func halfSteps(t *testing.T, m *Motion, rows int, every float64, see func(State)) {
	t.Helper()
	order := []sequence.Row{{1, 0, 0, 0}, {1, 1, 0, 0}, {0, 1, 0, 0}, {0, 0.6, 0.8, 0}, {}, {0, 0, 1, 1}, {0, 0, 0, 1}, {1, 0, 0, 1}}
	for k := range rows {
		m.Energise(order[k%len(order)])
		m.Watch(every, see)
		advance(t, m, float64(k+1)*4e-3)
	}
}

// At every instant what comes in goes somewhere, for every stage; and each part
// is what its name says, worked out anew.
func TestPowerBalances(t *testing.T) {
	for _, c := range powerCases {
		p := everything(t, c.stage, c.drive)
		m := begun(&p, 10, sequence.Row{})
		var worst, most float64
		samples, moved := 0, 0
		halfSteps(t, m, 40, 5e-5, func(s State) {
			w := m.Power(s)
			samples++
			if s.Speed != 0 {
				moved++
			}
			out := w.Copper + w.Switch + w.Clamp + w.Viscous + w.Dry + w.Load + w.Storing
			worst, most = max(worst, math.Abs(w.Supply-out)), max(most, math.Abs(w.Supply), w.Copper)
			copper := 0.0
			for _, i := range s.Currents {
				copper += 50 * i * i
			}
			shaft := s.Speed / 3
			load := (6e-4 + 9e-4*math.Sin(total(s.Place)/16/3*math.Pi/180+20*math.Pi/180)) * shaft
			for what, parts := range map[string][2]float64{
				"copper": {w.Copper, copper}, "viscous": {w.Viscous, 2e-5 * s.Speed * s.Speed},
				"dry": {w.Dry, (3e-4 + 1e-4) * math.Abs(s.Speed)}, "load": {w.Load, load},
			} {
				if !near(parts[0], parts[1], 1e-9) {
					t.Fatalf("%s: %s %g W, want %g", c.stage, what, parts[0], parts[1])
				}
			}
			if w.Switch < 0 || w.Clamp < 0 {
				t.Fatalf("%s: switch %g W, clamp %g W", c.stage, w.Switch, w.Clamp)
			}
		})
		if worst > 1e-9*most || samples < 3000 || moved < 1000 {
			t.Errorf("%s: off by %g of %g W, in %d samples, %d of them moving", c.stage, worst, most, samples, moved)
		}
	}
}

// Over time the energy stored is what came in less what was lost: the balance
// is true of the motion, not of the formula only. Simpson's rule over samples;
// current sources put energy in at the row itself, and are left out.
func TestEnergyAddsUp(t *testing.T) {
	for _, c := range powerCases {
		if c.stage == "current" {
			continue
		}
		p := everything(t, c.stage, c.drive)
		m := begun(&p, 10, sequence.Row{})
		first := m.Stored(m.State())
		const every = 2e-6
		var in, through, last float64
		started := false
		halfSteps(t, m, 9, every, func(s State) {
			w := m.Power(s)
			net := w.Supply - w.Copper - w.Switch - w.Clamp - w.Viscous - w.Dry - w.Load
			if started && math.Mod(s.Seconds+every/2, 4e-3) > every { // not over a row's edge
				in += (net + last) / 2 * every
			}
			through += math.Abs(w.Supply) * every
			last, started = net, true
		})
		if got := m.Stored(m.State()) - first; !near(got, in, 2e-4*through) || through < 1e-4 {
			t.Errorf("%s: %g J stored, %g J came in net of losses, of %g J", c.stage, got, in, through)
		}
	}
}

// In words of the bench: a sink that is on takes V·i from the supply and loses
// its drop; at hand-over the old half's current returns what it takes, and burns
// its energy in copper, clamp and the other half.
func TestPowerByHand(t *testing.T) {
	p := unipolarMotor(t)
	m := begun(locked(p), 0, aRow)
	s := advance(t, m, 0.05)
	w, i := m.Power(s), 4.1/50.5
	if !near(w.Supply, 5*i, 1e-6) || !near(w.Switch, 0.9*i+0.5*i*i, 1e-6) || w.Clamp != 0 || !near(w.Copper, 50*i*i, 1e-6) {
		t.Errorf("steady: %+v", w)
	}
	m.Energise(sequence.Row{})
	s = advance(t, m, 0.05+1e-6)
	i = s.Currents[0]
	w = m.Power(s)
	if !near(w.Supply, 0, 1e-12) || !near(w.Clamp, 0.8*i+0.5*i*i, 1e-9) || w.Switch != 0 || i < 0.07 {
		t.Errorf("clamped: %+v", w)
	}
	if field := 20e-3 * i * i / 2; !near(m.Stored(s), field, 1e-12) {
		t.Errorf("%g J in the coil, want %g", m.Stored(s), field)
	}

	b := smallMotor(t) // a chopper takes no more than it burns, though its supply is high
	b.Stage, b.Supply = stage(t, "chopper"), 24
	m = begun(locked(b), 0, aRow)
	w = m.Power(advance(t, m, 0.05))
	if !near(w.Supply, 0.505, 1e-9) || !near(w.Copper, 0.5, 1e-9) || !near(w.Switch, 0.005, 1e-9) || !near(w.Storing, 0, 1e-9) {
		t.Errorf("chopper: %+v", w)
	}
}
