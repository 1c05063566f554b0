package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// locked keeps the rotor where it is, so that only the winding is left.
func locked(p Plant) *Plant {
	p.Friction = 1
	return &p
}

// rise is the closed form of an RL circuit: from i towards v/r with L/r.
func rise(i, v, r, l, t float64) float64 {
	return v/r + (i-v/r)*math.Exp(-r/l*t)
}

// The current of a coil rises as (V − V0)/R·(1 − exp(−R·t/L)) and falls the
// same way: through both switches, braked, and back into the supply, where it
// ends (the textbook RL circuit).
func TestRise(t *testing.T) {
	for _, c := range []struct {
		stage     string
		on, ron   float64 // what drives the current with the row on, and the resistance
		off, roff float64 // and with the row off
	}{
		{"ideal", 5, 50, 0, 50},
		{"mosfet-bridge", 5, 50.5, 0, 50.5},
		{"mosfet-bridge-fast", 5, 50.5, -5 - 1.6, 50.1},
		{"bridge", 5 - 1.4, 51.15, -0.7 - 0.9, 50 + 0.575 + 0.2},
		{"bridge-fast", 5 - 1.4, 51.15, -5 - 1.8, 50.4},
	} {
		p := smallMotor(t)
		p.Stage = stage(t, c.stage)
		m := begun(locked(p), 0, sequence.Row{1, 0, 0, 1})
		const l, row = 20e-3, 1e-3
		at := 0.0
		check := func(until, want float64) {
			t.Helper()
			s := advance(t, m, until)
			if !near(s.Currents[0], want, 1e-8) || !near(s.Currents[1], -want, 1e-8) {
				t.Errorf("%s at %g ms: %v, want %.9f and its negative", c.stage, until*1e3, s.Currents, want)
			}
			at = want
		}
		for k := 1.0; k <= 4; k++ {
			check(k*row/4, rise(0, c.on, c.ron, l, k*row/4))
		}
		peak := at
		m.Energise(sequence.Row{})
		for k := 1.0; k <= 8; k++ {
			check(row*(1+k/4), max(0, rise(peak, c.off, c.roff, l, k*row/4)))
		}
	}
}

// A current that a reversed row finds flows back into the supply through the
// diodes to zero, and then the other way through the switches.
func TestReversedRow(t *testing.T) {
	p := smallMotor(t)
	p.Stage = stage(t, "bridge")
	m := begun(locked(p), 0, aRow)
	peak := advance(t, m, 2e-3).Currents[0]
	m.Energise(sequence.Row{0, 0, 1, 0})
	const l, back, rBack, r = 20e-3, 5 + 1.8, 50.4, 51.15
	zero := -l / rBack * math.Log(back/rBack/(peak+back/rBack))
	for _, after := range []float64{zero / 2, zero + 1e-4, zero + 1e-3} {
		want := rise(peak, -back, rBack, l, after)
		if after > zero {
			want = rise(0, -(5 - 1.4), r, l, after-zero)
		}
		if got := advance(t, m, 2e-3+after).Currents[0]; !near(got, want, 1e-8) {
			t.Errorf("%g ms after: %.9f A, want %.9f", after*1e3, got, want)
		}
	}
}

// twin is the closed form of the two halves of a phase that both conduct, with
// equal resistances: sum and difference of the currents go by themselves, with
// leakage (1 − k)·L and with (1 + k)·L.
func twin(i, j, v, u, r, l, k, t float64) (float64, float64) {
	sum, dif := rise(i+j, v+u, r, l*(1-k), t), rise(i-j, v-u, r, l*(1+k), t)
	return (sum + dif) / 2, (sum - dif) / 2
}

// when bisects for the time at which f falls through zero.
func when(f func(float64) float64, from, to float64) float64 {
	for range 200 {
		if mid := from + (to-from)/2; f(mid) > 0 {
			from = mid
		} else {
			to = mid
		}
	}
	return to
}

// With clamps to the tap supply, switching half A+ on makes the idle half A-
// carry current at once, by transformer action, until it has died away; at
// hand-over A- starts at zero and stays there while A+ falls, until A+'s voltage
// no longer holds it off. All in closed form, from
// vj = R·ij + L·dij/dt − k·L·dij′/dt.
func TestHalvesOfAPhase(t *testing.T) {
	for _, k := range []float64{0.5, 0.9, 0.98} {
		p := unipolarMotor(t)
		p.Coupling = k
		const l, r, on, clamp = 20e-3, 50.5, 5 - 0.9, 0.8
		m := begun(locked(p), 0, aRow)
		check := func(at, plus, minus float64) {
			t.Helper()
			if s := advance(t, m, at); !near(s.Currents[0], plus, 2e-8) || !near(s.Currents[2], minus, 2e-8) || s.Currents[1] != 0 || s.Currents[3] != 0 {
				t.Errorf("k = %g at %.4f ms: %v A, want A+ %.9f and A- %.9f", k, at*1e3, s.Currents, plus, minus)
			}
		}
		// A- conducts through its clamp as soon as k·(V − V0) exceeds the drop.
		out := when(func(at float64) float64 { _, i := twin(0, 0, on, -clamp, r, l, k, at); return i }, 1e-9, 0.1)
		atOut, _ := twin(0, 0, on, -clamp, r, l, k, out)
		for _, part := range []float64{0.01, 0.1, 0.3, 0.6, 0.999} {
			plus, minus := twin(0, 0, on, -clamp, r, l, k, part*out)
			check(part*out, plus, minus)
			if part == 0.3 && minus < 0.1*plus {
				t.Errorf("k = %g: the idle half carries next to nothing, %g of %g A", k, minus, plus)
			}
		}
		peak := 0.0
		for _, after := range []float64{1e-4, 1e-3} {
			peak = rise(atOut, on, r, l, after)
			check(out+after, peak, 0)
		}
		m.Energise(sequence.Row{0, 0, 1, 0})
		start := out + 1e-3
		// blocked: the other half's L·di/dt = −(clamp + r·i) is k-fold against V − V0
		free := when(func(at float64) float64 { return k*(clamp+r*rise(peak, -clamp, r, l, at)) - on }, 0, 0.1)
		if free < 1e-6 && k > 0.9 {
			t.Fatalf("k = %g: nothing holds the new half off", k)
		}
		check(start+free/2, rise(peak, -clamp, r, l, free/2), 0)
		check(start+free*0.999, rise(peak, -clamp, r, l, free*0.999), 0)
		left := rise(peak, -clamp, r, l, free)
		gone := when(func(at float64) float64 { i, _ := twin(left, 0, -clamp, on, r, l, k, at); return i }, 0, 0.1)
		for _, part := range []float64{0.1, 0.5, 0.99} {
			plus, minus := twin(left, 0, -clamp, on, r, l, k, part*gone)
			check(start+free+part*gone, plus, minus)
		}
		_, carried := twin(left, 0, -clamp, on, r, l, k, gone)
		check(start+free+gone+1e-3, 0, rise(carried, on, r, l, 1e-3))
	}
}

// A half that is switched off with a great current pulls the other's end below
// ground, and the diode there takes over its part, as a current the other way:
// in closed form as above.
func TestHalfBelowGround(t *testing.T) {
	p := unipolarMotor(t)
	m := NewMotion(locked(p))
	m.Start(State{Currents: [4]float64{0, 0.15}})
	m.Energise(sequence.Row{})
	gone := when(func(at float64) float64 { _, j := twin(0.15, 0, -0.8, 5.8, 50.5, 20e-3, 0.98, at); return -j }, 1e-9, 1)
	for _, part := range []float64{0.01, 0.2, 0.6, 0.99} {
		i, j := twin(0.15, 0, -0.8, 5.8, 50.5, 20e-3, 0.98, part*gone)
		if s := advance(t, m, part*gone); !near(s.Currents[1], i, 2e-8) || !near(s.Currents[3], j, 2e-8) || part == 0.2 && j > -0.01 {
			t.Errorf("at %g ms: %v, want %.9f and %.9f", part*gone*1e3, s.Currents, i, j)
		}
	}
	if s := advance(t, m, gone*1.01); s.Currents[3] != 0 {
		t.Errorf("after %g ms: %v", gone*1e3, s.Currents)
	}
}

// Both halves of a phase on: only the leakage limits the rise (the equation
// above with both voltages alike).
func TestBothHalvesOn(t *testing.T) {
	p := unipolarMotor(t)
	m := begun(locked(p), 0, sequence.Row{1, 0, 1, 0})
	for _, at := range []float64{1e-6, 4e-6, 2e-5, 1e-3} {
		want := rise(0, 4.1, 50.5, 20e-3*0.02, at)
		if s := advance(t, m, at); !near(s.Currents[0], want, 1e-8) || !near(s.Currents[2], want, 1e-8) {
			t.Errorf("at %g µs: %v, want %.9f in both", at*1e6, s.Currents, want)
		}
	}
}

// A rotor that is turned by hand, fast, with all outputs off: its back-EMF goes
// to the supply while it exceeds that and both diodes, and only then. Between
// its crests nothing flows.
func TestSpunByHand(t *testing.T) {
	p := smallMotor(t)
	p.Stage, p.Supply, p.Damping, p.Inertia = stage(t, "bridge-fast"), 5, 0, 1
	for _, c := range []struct {
		volts float64 // crest of the back-EMF
		flows bool
	}{{6.7, false}, {6.9, true}, {12, true}} {
		m := NewMotion(&p)
		m.Tolerance = 1e-5
		m.Start(State{Speed: c.volts / 0.1})
		m.Energise(sequence.Row{})
		pitch := 2 * math.Pi / (16 * c.volts / 0.1)
		var peaks, last [2]float64
		var pulses [2]int
		m.Watch(pitch/200, func(s State) {
			for j := range peaks {
				peaks[j] = max(peaks[j], math.Abs(s.Currents[j]))
				if s.Currents[j] != 0 && last[j] == 0 {
					pulses[j]++
				}
				last[j] = s.Currents[j]
			}
		})
		advance(t, m, 50*pitch)
		for j, n := range pulses { // two crests to a pitch
			if c.flows && (n < 99 || n > 101) || !c.flows && n > 0 {
				t.Errorf("%g V against 6.8: %d pulses of current in phase %d", c.volts, n, j)
			}
		}
		if c.flows && !near(peaks[0], peaks[1], 0.02*peaks[0]) {
			t.Errorf("%g V: %v A in the two phases", c.volts, peaks)
		}
	}
}

// A chopper puts all its supply across the coil until the current is right, and
// keeps it there to the last bit; a current source has it at once. A chopper
// whose supply the back-EMF eats up can not hold it.
func TestChopper(t *testing.T) {
	p := smallMotor(t)
	p.Stage, p.Supply = stage(t, "chopper"), 24
	full := -20e-3 / 50.5 * math.Log(1-0.1*50.5/24)
	m := begun(locked(p), 0, sequence.Row{1, 0, 0, 0.5})
	if s := advance(t, m, full*0.999); !near(s.Currents[0], rise(0, 24, 50.5, 20e-3, full*0.999), 1e-8) || s.Currents[1] != -0.05 {
		t.Errorf("shortly before: %v", s.Currents)
	}
	if s := advance(t, m, full*1.001); s.Currents[0] != 0.1 {
		t.Errorf("shortly after: %v", s.Currents)
	}
	if s := advance(t, m, 1); s.Currents != [4]float64{0.1, -0.05} {
		t.Errorf("after a second: %v", s.Currents)
	}
	m.Energise(sequence.Row{0, 0, 1, 0})
	turned := -20e-3 / 50.5 * math.Log((24/50.5-0.1)/(24/50.5+0.1))
	if s := advance(t, m, 1+turned*0.999); !near(s.Currents[0], rise(0.1, -24, 50.5, 20e-3, turned*0.999), 1e-8) || s.Currents[1] != 0 {
		t.Errorf("on the way over: %v", s.Currents)
	}
	if s := advance(t, m, 1+turned*1.001); s.Currents[0] != -0.1 {
		t.Errorf("the other way: %v", s.Currents)
	}

	p.Stage = stage(t, "current")
	if s := begun(&p, 0, sequence.Row{1, 0, 0, 0.5}).State(); s.Currents != [4]float64{0.1, -0.05} {
		t.Errorf("current source: %v", s.Currents)
	}

	// 0.1 A needs 5 V and 24 V are there: past 19 V of back-EMF it falls off.
	p.Stage, p.Inertia, p.Damping = stage(t, "chopper"), 1, 0
	for volts, holds := range map[float64]bool{17: true, 40: false} {
		m := NewMotion(&p)
		m.Start(State{Speed: volts / 0.1, Currents: [4]float64{0.1, 0}})
		m.Energise(aRow)
		lowest := 0.1
		m.Watch(2e-6, func(s State) { lowest = min(lowest, s.Currents[0]) })
		advance(t, m, 0.1)
		if (lowest == 0.1) != holds {
			t.Errorf("against %g V the current falls to %g A", volts, lowest)
		}
	}
}
