package rotor

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"

	"coilwalk/sequence"
)

// Without losses and switching the energy stays, over ten thousand periods. It
// is written down anew, and measured from the foot of the swing.
func TestEnergyStays(t *testing.T) {
	p := spring(t)
	const t1, amplitude = 1e-3, 0.1
	energy := func(s State) float64 {
		deg := math.Pi / 180 * total(s.Place)
		return p.Inertia/2*s.Speed*s.Speed + t1/8*2*math.Pow(math.Sin(deg/2), 2) // 1 − cos without its cancellation
	}
	m := NewMotion(&p)
	m.Tolerance = 1e-14
	m.Start(State{Place: position(amplitude * 180 / math.Pi)})
	m.Energise(aRow)
	first := energy(m.State())
	if want := t1 / 8 * (1 - math.Cos(amplitude)); !near(first, want, 1e-9*want) {
		t.Fatalf("it starts with %g J, want %g", first, want)
	}
	period := 2 * math.Pi * math.Sqrt(p.Inertia/(8*t1))
	worst, turns, last := 0.0, 0, 0.0
	m.Watch(period/7, func(s State) {
		worst = max(worst, math.Abs(energy(s)/first-1))
		if s.Speed > 0 && last <= 0 {
			turns++
		}
		last = s.Speed
	})
	advance(t, m, 1e4*period)
	if worst > 1e-9 {
		t.Errorf("the energy goes off by %.1e", worst)
	}
	if turns < 9990 || turns > 10010 {
		t.Errorf("it swung %d times, want some 10000", turns)
	}
	t.Logf("energy off by %.1e after 10000 periods, %+v", worst, m.Work())
}

// swingsWith checks that a swing about a rest has a period: back at its start
// after one and after a hundred, through the middle after a quarter.
func swingsWith(t *testing.T, what string, p *Plant, row sequence.Row, middle, amplitudeRad, period, within float64) {
	t.Helper()
	amplitude := amplitudeRad * 180 / math.Pi
	m := NewMotion(p)
	m.Tolerance = 1e-11
	m.Start(State{Place: position(middle + amplitude)})
	m.Energise(row)
	for _, c := range []struct{ periods, want float64 }{{0.25, 0}, {0.5, -1}, {0.75, 0}, {1, 1}, {100, 1}, {100.25, 0}} {
		s := advance(t, m, c.periods*period)
		if off := (total(s.Place) - middle) / amplitude; !near(off, c.want, within) {
			t.Errorf("%s: after %g periods at %.9f of the amplitude, want %g", what, c.periods, off, c.want)
		}
		if c.want == 0 && s.Speed*(math.Mod(c.periods, 1)-0.5) <= 0 {
			t.Errorf("%s: after %g periods it moves the wrong way", what, c.periods)
		}
	}
}

// The small swing has ω = √(p·Th/J) (Jones, "Stepping Motor Physics", Resonance:
// f = √(k/µ)/2π with k = p·Th), the large one the period of a pendulum,
// 4·K(sin²(a/2))/ω, a the amplitude: the same equation.
func TestPeriod(t *testing.T) {
	p := spring(t)
	omega := math.Sqrt(8 * 1e-3 / 2e-8)
	swingsWith(t, "small", &p, aRow, 0, 1e-4, 2*math.Pi/omega, 1e-5)
	swingsWith(t, "small, two phases", &p, abRow, 45, 1e-4, 2*math.Pi/(omega*math.Pow(2, 0.25)), 1e-5)
	swingsWith(t, "small, behind B+", &p, bRow, 90, 1e-4, 2*math.Pi/omega, 1e-5)
	for _, a := range []float64{0.5, 1.5, 2.5, 3, 3.1} {
		k := math.Sin(a / 2)
		swingsWith(t, "pendulum", &p, aRow, 0, a, 4*mathext.CompleteK(k*k)/omega, 1e-4)
	}
}

// With detent the small-signal stiffness is T1 + 4Td with one phase on and
// T2 − 4Td with two; the other way about with detents at the two-phase
// positions (the slope of the usual torque formula; computed from it).
func TestPeriodWithDetent(t *testing.T) {
	for _, c := range []struct {
		shift float64
		row   sequence.Row
		mid   float64
		k     float64 // mN·m
	}{
		{0, aRow, 0, 1 + 4*0.1}, {0, bRow, 90, 1 + 4*0.1}, {0, abRow, 45, math.Sqrt2 - 4*0.1},
		{180, aRow, 0, 1 - 4*0.1}, {180, abRow, 45, math.Sqrt2 + 4*0.1},
	} {
		p := spring(t)
		p.Detent, p.DetentShift = 0.1e-3, c.shift
		swingsWith(t, "detent", &p, c.row, c.mid, 1e-4, 2*math.Pi/math.Sqrt(8*c.k*1e-3/2e-8), 1e-4)
	}
}

// 0.32 N·cm at 0.3° make 0.611 N·m/rad, and with 48 g·cm² 357 rad/s or 56.8 Hz
// (industrialmonitordirect.com, "Stepper Motor Natural Frequency: Correct
// Formula and Unit Conversion"). A hybrid of 0.40 N·m, 54 g·cm² and 50 pole
// pairs has 306.29 Hz, computed with the formula of TestPeriod.
func TestNaturalFrequencyExamples(t *testing.T) {
	for _, c := range []struct{ k, j, hertz, within float64 }{
		{0.32e-2 / (0.3 * math.Pi / 180), 48e-7, 56.8, 0.03},
		{50 * 0.40, 54e-7, 306.29, 0.006},
	} {
		p := Plant{PolePairs: 50, Drive: sequence.Bipolar, Stage: stage(t, "current"), Current: 1, FluxConstant: c.k / (50 * 50),
			Inertia: c.j, Ratio: 1}
		m := NewMotion(&p)
		m.Tolerance = 1e-11
		last := State{Place: position(0.1)}
		m.Start(last)
		m.Energise(aRow)
		var crossings []float64
		m.Watch(1/(64*c.hertz), func(s State) {
			if a, b := total(last.Place), total(s.Place); a > 0 != (b > 0) {
				crossings = append(crossings, last.Seconds+(s.Seconds-last.Seconds)*a/(a-b))
			}
			last = s
		})
		advance(t, m, 40/c.hertz)
		n := len(crossings) - 1
		if n < 70 {
			t.Fatalf("%d crossings in 40 periods", n+1)
		}
		if hertz := float64(n) / 2 / (crossings[n] - crossings[0]); !near(hertz, c.hertz, c.within) {
			t.Errorf("%.4f Hz, want %g", hertz, c.hertz)
		}
	}
}

// A load that hangs on the shaft, and no field: a pendulum of √(G/J) behind a
// train, G the gravity-like torque, J the load's inertia and the rotor's times
// the ratio squared, both at the shaft. A third of its turn makes it end upside
// down if the shaft angle loses count at a pole pitch.
func TestHangingLoad(t *testing.T) {
	p := spring(t)
	p.Ratio, p.Load = 2.5, Load{Gravity: 0.02, GravityDeg: -30, Inertia: 1e-6}
	j := 1e-6 + 2e-8*2.5*2.5
	const a = 2.5 // rad at the shaft
	period := 4 * mathext.CompleteK(math.Pow(math.Sin(a/2), 2)) / math.Sqrt(0.02/j)
	electrical := 8 * 2.5 * 180 / math.Pi // degrees to a shaft radian
	foot := 30 * math.Pi / 180
	m := begun(&p, (foot+a)*electrical, sequence.Row{})
	for _, c := range []struct{ periods, want float64 }{{0.25, foot}, {0.5, foot - a}, {1, foot + a}, {7.5, foot - a}} {
		s := advance(t, m, c.periods*period)
		if got := total(s.Place) / electrical; !near(got, c.want, 1e-4) {
			t.Errorf("after %g periods at %.6f rad, want %.6f", c.periods, got, c.want)
		}
	}
}
