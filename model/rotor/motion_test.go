package rotor

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

// reference is the two-phase motor of smallMotor by the classical Runge–Kutta
// method with small even steps, written down anew.
func reference(rows, steps int) (theta, omega, iA, iB float64) {
	const r, l, km, p, j, b, v = 50, 20e-3, 0.1, 16, 2e-7, 2e-5, 5
	type state [4]float64
	slope := func(y state, va, vb float64) state {
		s, c := math.Sincos(p * y[3])
		return state{(va - r*y[0] + km*y[2]*s) / l, (vb - r*y[1] - km*y[2]*c) / l, (-km*y[0]*s + km*y[1]*c - b*y[2]) / j, y[2]}
	}
	plus := func(y, k state, h float64) state {
		for i := range y {
			y[i] += h * k[i]
		}
		return y
	}
	var y state
	h := 0.01 / float64(steps)
	signs := [4][2]float64{{v, v}, {-v, v}, {-v, -v}, {v, -v}}
	for row := range rows {
		va, vb := signs[row%4][0], signs[row%4][1]
		for range steps {
			k1 := slope(y, va, vb)
			k2 := slope(plus(y, k1, h/2), va, vb)
			k3 := slope(plus(y, k2, h/2), va, vb)
			k4 := slope(plus(y, k3, h), va, vb)
			for i := range y {
				y[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
			}
		}
	}
	return y[3], y[2], y[0], y[1]
}

// A second of full steps at 100 a second ends where the reference does, which
// two engines of SciPy 1.10.1 (solve_ivp, LSODA at rtol 1e-10 and DOP853 at
// 1e-11) put to 9.768386615 rad.
func TestOneSecondOfFullSteps(t *testing.T) {
	p := smallMotor(t)
	theta, omega, iA, iB := reference(100, 2000)
	if !near(theta, 9.768386615, 1e-9) {
		t.Fatalf("the reference ends at %.10f rad", theta)
	}
	for tolerance, within := range map[float64]float64{DefaultTolerance: 3e-9, 1e-10: 3e-10} {
		m := NewMotion(&p)
		m.Tolerance = tolerance
		m.Start(State{})
		if err := fullSteps(m, 100); err != nil {
			t.Fatal(err)
		}
		s := m.State()
		if got := total(s.Place) / 16 * math.Pi / 180; !near(got, theta, within) {
			t.Errorf("tolerance %g: %.12f rad, want %.12f", tolerance, got, theta)
		}
		if !near(s.Speed, omega, 1e3*within) || !near(s.Currents[0], iA, within) || !near(s.Currents[1], iB, within) {
			t.Errorf("tolerance %g: %+v, want %g rad/s, %g and %g A", tolerance, s, omega, iA, iB)
		}
	}
}

// script is a plant and what is done to it.
type script struct {
	plant Plant
	start State
	rows  []sequence.Row
	dwell float64
}

// anyScript gives one far from chaos: well damped, some rows.
func anyScript(tb testing.TB, r *rand.Rand) script {
	c := powerCases[r.IntN(len(powerCases))]
	p := everything(tb, c.stage, c.drive)
	p.Damping, p.Load.Gravity = 1e-4, p.Load.Gravity*float64(r.IntN(2))
	if r.IntN(2) == 0 {
		p.Friction, p.Load.Friction = 0, 0
	}
	s := script{plant: p, start: State{Place: Position{Pitch: int64(r.IntN(5)) - 2, Deg: 360 * r.Float64()}}, dwell: 2e-3 + 8e-3*r.Float64()}
	for k, n := r.IntN(8), 2+r.IntN(8); n > 0; k, n = k+1, n-1 {
		s.rows = append(s.rows, sequence.Half.Order().Row(int64(k)))
	}
	return s
}

// play runs a script and gives where it stands after each row; cut puts more
// ends of Advance in between.
func (s script) play(tb rapid.TB, tolerance float64, cut func(from, to float64) []float64) []State {
	m := NewMotion(&s.plant)
	m.Tolerance = tolerance
	m.Start(s.start)
	var all []State
	for k, row := range s.rows {
		m.Energise(row)
		from, to := m.State().Seconds, s.start.Seconds+float64(k+1)*s.dwell
		for _, until := range append(cut(from, to), to) {
			if err := m.Advance(until); err != nil {
				tb.Fatal(err)
			}
		}
		all = append(all, m.State())
	}
	return all
}

func whole(float64, float64) []float64 { return nil }

// How a run is cut into pieces does not matter, nor from which pitch it starts.
func TestPiecesDoNotMatter(t *testing.T) {
	tb := t
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		s := anyScript(tb, r)
		want := s.play(t, 1e-10, whole)
		got := s.play(t, 1e-10, func(from, to float64) (cuts []float64) {
			for at := from; at < to; at += (to - from) * r.Float64() * 0.4 {
				cuts = append(cuts, at)
			}
			return cuts
		})
		for k := range want {
			if d := apart(&s.plant, got[k], want[k]); d > 3e-6 || got[k].Seconds != want[k].Seconds {
				t.Fatalf("%s, row %d: %+v in pieces, %+v whole, %g apart", s.plant.Stage.Name, k, got[k], want[k], d)
			}
		}
		if s.plant.Load.Gravity != 0 {
			return // it knows the shaft angle
		}
		far := s
		far.start.Place.Pitch += 1 << 50
		for k, state := range far.play(t, 1e-10, whole) {
			state.Place.Pitch -= 1 << 50
			if state != want[k] {
				t.Fatalf("far away, row %d: %+v, want %+v", k, state, want[k])
			}
		}
	})
}

// Tighter tolerances come nearer, so that what is found is the motion and not
// the method.
func TestToleranceIsKept(t *testing.T) {
	tb := t
	rapid.Check(t, func(t *rapid.T) {
		s := anyScript(tb, random(t))
		fine := s.play(t, 1e-12, whole)
		for tolerance, within := range map[float64]float64{1e-6: 1e-3, 1e-9: 1e-6} {
			for k, state := range s.play(t, tolerance, whole) {
				if d := apart(&s.plant, state, fine[k]); d > within {
					t.Fatalf("%s at %g, row %d: %g apart", s.plant.Stage.Name, tolerance, k, d)
				}
			}
		}
	})
}

// Mirrored rows (B+ and B- exchanged), start and load make the mirrored motion.
func TestMirrorInTime(t *testing.T) {
	tb := t
	rapid.Check(t, func(t *rapid.T) {
		s := anyScript(tb, random(t))
		s.plant.DetentShift, s.plant.Load.GravityDeg = 0, 0
		s.plant.Load.Torque = 0 // a mirrored load pulls the other way
		p := s.start.Place
		mirrored := s
		mirrored.start.Place = Position{}.moved(-p.Deg)
		mirrored.start.Place.Pitch -= p.Pitch
		mirrored.rows = nil
		for _, row := range s.rows {
			mirrored.rows = append(mirrored.rows, sequence.Row{row[0], row[3], row[2], row[1]})
		}
		want, got := s.play(t, 1e-10, whole), mirrored.play(t, 1e-10, whole)
		for k := range want {
			g, w := got[k], want[k]
			g.Speed, g.Place = -g.Speed, Position{}.moved(-g.Place.Deg)
			g.Place.Pitch -= got[k].Place.Pitch
			if s.plant.Drive == sequence.Bipolar {
				g.Currents[1] = -g.Currents[1]
			} else {
				g.Currents[1], g.Currents[3] = g.Currents[3], g.Currents[1]
			}
			if d := apart(&s.plant, g, w); d > 1e-6 {
				t.Fatalf("%s, row %d: %+v mirrored, want %+v, %g apart", s.plant.Stage.Name, k, g, w, d)
			}
		}
	})
}

// The inner loop and all around it allocate nothing.
func TestNoAllocation(t *testing.T) {
	for _, c := range powerCases {
		p := everything(t, c.stage, c.drive)
		m := NewMotion(&p)
		o := sequence.Half.Order()
		rows := [8]sequence.Row{}
		for k := range rows {
			rows[k] = o.Row(int64(k))
		}
		seen := 0
		see := func(State) { seen++ }
		n := testing.AllocsPerRun(5, func() {
			m.Start(State{})
			m.Watch(1e-3, see)
			for k, row := range rows {
				m.Energise(row)
				if m.Advance(float64(k+1)*5e-3) != nil {
					t.Error("it fails")
				}
			}
		})
		if n != 0 || m.Work().Steps < 50 || seen < 200 {
			t.Errorf("%s: %g allocations in %d steps", c.stage, n, m.Work().Steps)
		}
	}
}

// Watch gives each multiple of the interval once, in order, on the motion.
func TestWatch(t *testing.T) {
	p := smallMotor(t)
	var seen []State
	m := begun(&p, 0, bRow)
	m.Watch(3e-4, func(s State) { seen = append(seen, s) })
	for _, until := range []float64{1e-3, 1.1e-3, 0.01} {
		advance(t, m, until)
	}
	if len(seen) != 34 {
		t.Fatalf("%d samples in 10 ms, every 0.3 ms from 0; want 34", len(seen))
	}
	for k, s := range seen {
		want := advance(t, begun(&p, 0, bRow), 3e-4*float64(k))
		if !near(s.Seconds, 3e-4*float64(k), 1e-12) || apart(&p, s, want) > 1e-5 {
			t.Errorf("sample %d: %+v, want %+v", k, s, want)
		}
	}
	m.Watch(0, func(State) { t.Error("it watches without an interval") })
	advance(t, m, 0.02)
}

// What may be evaluated is not gone beyond by a step: with nothing left the motion
// stands, and with a little it ends before its time.
func TestALimitEndsTheMotion(t *testing.T) {
	p := smallMotor(t)
	m := begun(&p, 0, bRow)
	before := m.State()
	m.Limit(0)
	if s := advance(t, m, 0.01); s != before {
		t.Errorf("without any work it went on to %+v", s)
	}
	if _, ok, err := m.Settle(bRow, 1); ok || err != nil || m.State() != before {
		t.Errorf("without any work it settles: %t, %v, %+v", ok, err, m.State())
	}
	done := m.Work().Evaluations
	m.Limit(30)
	if s := advance(t, m, 0.01); s.Seconds <= 0 || s.Seconds >= 0.01 || m.Work().Evaluations-done > 30+15 { // a step and its interpolant
		t.Errorf("with 30 evaluations it went on to %g s with %d", s.Seconds, m.Work().Evaluations-done)
	}
	m.Start(State{})
	m.Energise(bRow)
	if s := advance(t, m, 0.01); s.Seconds != 0.01 {
		t.Errorf("started anew it ends at %g s", s.Seconds)
	}
}

// The longest step is less than a period of the fastest swing that there can be,
// whatever row is on and wherever the rotor is, and more than half of one: with a
// detent as strong as the field that stiffens the swing most.
func TestTheLongestStepIsWithinASwing(t *testing.T) {
	for _, detent := range []float64{0, 0.2, 1, 5} {
		p := smallMotor(t)
		p.Detent, p.DetentShift = detent*p.OnePhase(), 180
		stiffest := 0.0
		for k := range int64(8) {
			for deg := range 360 {
				stiffest = max(stiffest, p.Machine().Stiffness(sequence.Half.Order().Row(k).Field(), float64(deg)))
			}
		}
		period := 2 * math.Pi / p.RingRadians(stiffest)
		if m := NewMotion(&p); m.calmest >= period || m.calmest <= period/2 {
			t.Errorf("a detent of %g T1: steps of up to %g s, and a period of %g s", detent, m.calmest, period)
		}
	}
}

// A plant that can not be is said so by Advance and Settle.
func TestUnfitPlant(t *testing.T) {
	p := smallMotor(t)
	p.Inertia = 0
	m := begun(&p, 0, aRow)
	_, _, err := m.Settle(aRow, 1)
	for _, err := range []error{m.Advance(1), err} {
		var c *files.Complaint
		if !errors.As(err, &c) {
			t.Errorf("%v is no complaint", err)
		}
	}
	if s := m.State(); s.Place != (Position{}) || m.Power(s) != (Power{}) || m.Stored(s) != 0 {
		t.Errorf("it has a state: %+v", s)
	}
	m.Start(State{Speed: math.NaN()})
	good := smallMotor(t)
	m.Use(&good)
	m.Start(State{})
	m.Energise(bRow)
	if s := advance(t, m, 0.1); !near(total(s.Place), 90, 1) {
		t.Errorf("with a good plant it goes to %v°", total(s.Place))
	}
	m.Start(State{Speed: math.NaN()})
	if m.Advance(1) == nil {
		t.Error("it follows a speed that is no number")
	}
}
