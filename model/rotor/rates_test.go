package rotor

import (
	"math"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

func plantOf(t testing.TB, name, stage string) Plant {
	t.Helper()
	m, ok := motor.BuiltIn(name)
	if !ok {
		t.Fatal(name)
	}
	s, err := driver.Named(stage)
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := PlantOf(m, s, quantity.Voltage{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A lightly damped hybrid shows holes in its start–stop rates: 40 N·cm, 54 g·cm²,
// 50 pole pairs, damping ratio 0.05, current held, no detent: good to about 210
// full steps a second, failing about 225 to 270 and 330, good again above
// (figures worked out for this project with another solver; no published source).
// A plain bisection would not see them.
func TestHolesInTheStartStopRates(t *testing.T) {
	p := plantOf(t, "hybrid-4", "current")
	p.Detent = 0
	p.Damping = 2 * 0.05 * p.TotalInertia() * p.RingRadians(math.Sqrt2)
	r, ok := NewTrials(p, sequence.Full).Follow(Sweep{Least: 40, Most: 700}, nil)
	if !ok {
		t.Fatal("not swept to its end")
	}
	t.Logf("%+v", r)
	if r.StartStop < 195 || r.StartStop > 228 {
		t.Errorf("good to %.0f", r.StartStop)
	}
	if len(r.Holes) == 0 || r.Holes[0].From > 230 || r.Holes[0].To < 245 {
		t.Errorf("holes %v", r.Holes)
	}
	if n := len(r.Windows); n == 0 || r.Windows[n-1].To < 600 {
		t.Errorf("not good again above: %v", r.Windows)
	}
}

// A geared can motor's sheet: start–stop above 600 and pull-out above 1000 half
// steps a second without load (a one-page distributor data sheet for this kind of
// motor). The built-in one has its friction and holding torque chosen rounded;
// inertia, inductance, detent and damping are estimates.
func TestGearedCanMeetsItsSheet(t *testing.T) {
	p := plantOf(t, "geared-can", "darlington")
	s := Sweep{}
	if raced {
		s.Least, s.Edge = 400, 0.02 // what lies far below is swept in full without the race detector
	}
	r, ok := NewTrials(p, sequence.Half).Follow(s, nil)
	if !ok || r.StartStop < 600 || r.PullOut < 1000 || r.PullOut < r.StartStop {
		t.Errorf("%+v, %v", r, ok)
	}
}

// More load, lower rates; more inertia, lower start–stop rates (definitions:
// Nippon Pulse, "Reading our specs": fs drops with load inertia; Design World,
// pull-in torque falls with rate).
func TestLoadAndInertiaLowerTheRates(t *testing.T) {
	p := plantOf(t, "vent-flap", "darlington")
	full := p.OnePhase() * p.Ratio
	points, ok := Curve(p, sequence.Half, []float64{0, 0.2 * full, 0.4 * full, 0.6 * full, 1.5 * full}, nil)
	if !ok {
		t.Fatal("stopped")
	}
	for i := 1; i < len(points); i++ {
		if points[i].StartStop > points[i-1].StartStop*1.02 || points[i].PullOut > points[i-1].PullOut*1.02 {
			t.Errorf("with more load it follows more: %+v", points)
		}
	}
	if last := points[4]; last.StartStop != 0 || last.PullOut != 0 {
		t.Errorf("a load that no row holds is started: %+v", last)
	}
	if points[0].PullOut < points[0].StartStop || points[0].StartStop < 100 {
		t.Errorf("%+v", points[0])
	}
	heavy := p
	heavy.Load.Inertia = 3 * p.Inertia * p.Ratio * p.Ratio // three rotors more, at the shaft
	light, _ := Curve(p, sequence.Half, []float64{0}, nil)
	slow, _ := Curve(heavy, sequence.Half, []float64{0}, nil)
	if slow[0].StartStop > 0.75*light[0].StartStop {
		t.Errorf("with four times the inertia %.0f, without %.0f", slow[0].StartStop, light[0].StartStop)
	}
}

// The curve's point at no load is the sweep's, within what each is found to.
func TestCurveAgreesWithTheSweep(t *testing.T) {
	p := plantOf(t, "geared-can", "darlington")
	points, _ := Curve(p, sequence.Half, []float64{0}, nil)
	r, _ := NewTrials(p, sequence.Half).Follow(Sweep{Least: 200}, nil)
	if math.Abs(points[0].StartStop/r.StartStop-1) > 0.03 || math.Abs(points[0].PullOut/r.PullOut-1) > 0.08 {
		t.Errorf("curve %+v, sweep %+v", points[0], r)
	}
}

// Over the holes of a resonance rates start again, and a turning motor follows at
// least those: the curve looks there too.
func TestCurveGoesOverTheHoles(t *testing.T) {
	p := plantOf(t, "hybrid-4", "current")
	p.Detent = 0
	p.Damping = 2 * 0.05 * p.TotalInertia() * p.RingRadians(math.Sqrt2)
	points, ok := Curve(p, sequence.Full, []float64{0}, nil)
	if !ok || points[0].StartStop < 195 || points[0].StartStop > 275 || points[0].PullOut < 600 {
		t.Errorf("%+v, %t", points, ok)
	}
}

// A motor that can not be starts at no rate, and runs at none.
func TestTrialsOfAPlantThatCanNotBe(t *testing.T) {
	p := smallMotor(t)
	p.Inertia = 0
	trials := NewTrials(p, sequence.Half)
	if trials.Err() == nil || trials.Start(10) || trials.Count != 0 {
		t.Errorf("without inertia it starts: %v, %d trials", trials.Err(), trials.Count)
	}
	if _, ok := trials.Running(10); ok {
		t.Error("without inertia it runs")
	}
}

// A start is given up where the rotor is more than a cycle and a half behind: one
// that has no time to move is with the 13th half step, 585°.
func TestAHopelessStartIsGivenUp(t *testing.T) {
	trials := NewTrials(smallMotor(t), sequence.Half)
	if trials.Start(1e6) {
		t.Fatal("it starts at a million rows a second")
	}
	if at := trials.motion.State().Seconds; !near(at, 13e-6, 1e-12) {
		t.Errorf("given up after %g s", at)
	}
}

// A start is tried from each row of the first quarter cycle, and each counts; so
// does each change of rate.
func TestTrialsAreCounted(t *testing.T) {
	trials := NewTrials(smallMotor(t), sequence.Half)
	if !trials.Start(50) || trials.Count != 2 {
		t.Errorf("%d trials for a start from two rows", trials.Count)
	}
	run, ok := trials.Running(50)
	if _, follows := trials.To(run, 60); !ok || !follows || trials.Count != 4 {
		t.Errorf("%d trials with a run and a change of rate, %t", trials.Count, ok)
	}
}

func TestSweepCanBeStopped(t *testing.T) {
	asked := 0
	r, ok := NewTrials(plantOf(t, "vent-flap", "darlington"), sequence.Half).Follow(Sweep{}, func(float64) bool { asked++; return asked < 5 })
	if ok || asked != 5 || r.Trials == 0 {
		t.Errorf("%+v, %v after %d", r, ok, asked)
	}
}

// One row from rest: the rotor overshoots, rings at the small-signal frequency
// √(p(T2−4Td)/J)/2π of two phases on (Jones, "Resonance"; with detent the
// stiffness of the design), and settles; heavily damped it does neither.
func TestResponseToOneRow(t *testing.T) {
	p := plantOf(t, "hybrid-4", "current")
	p.Detent = 0
	order := sequence.Full.Order()
	r, err := Respond(p, order.Row(0), order.Row(1), 0.3)
	if err != nil {
		t.Fatal(err)
	}
	want := p.RingRadians(math.Sqrt2) / (2 * math.Pi)
	if math.Abs(r.RingHz/want-1) > 0.01 || r.Overshoot < 0.5 || r.Overshoot > 1 || r.Settling <= r.Rise || math.Abs(r.Step-90) > 0.1 {
		t.Errorf("rings at %.2f Hz, %.2f expected; %+v", r.RingHz, want, [4]float64{r.Overshoot, r.Rise, r.Settling, r.Step})
	}
	// The envelope falls as exp(−ζωt): to a twentieth of the step after ln(20·…)/ζω,
	// within a swing either way.
	zeta := p.Damping / (2 * p.TotalInertia() * p.RingRadians(math.Sqrt2))
	about := math.Log(1/within) / (zeta * p.RingRadians(math.Sqrt2))
	if r.Settling < 0.7*about || r.Settling > 1.3*about {
		t.Errorf("settles after %.4f s, about %.4f expected", r.Settling, about)
	}
	p.Damping *= 40
	if r, err = Respond(p, order.Row(0), order.Row(1), 0.3); err != nil || r.Overshoot > 0.01 || r.RingHz != 0 {
		t.Errorf("overdamped it swings: %.3f, %.1f Hz, %v", r.Overshoot, r.RingHz, err)
	}
}

// What the motor can not hold at all is told at once: run in time, the load would
// spin it up to any speed, and take as long as one cares to look (500 N·m took a
// minute). A load just below is run, and held.
func TestLoadBeyondTheHold(t *testing.T) {
	half := sequence.Half.Order()
	for _, share := range []float64{0.6, 1.01, -1.01, 5e4} {
		p := plantOf(t, "vent-flap", "darlington")
		p.Detent, p.Friction, p.Load.Torque = 0, 0, share*p.OnePhase()*p.Field(half.Row(0)).Strength()*p.Ratio
		adrift := math.Abs(share) > 1
		r, err := Respond(p, half.Row(0), half.Row(1), ResponseSeconds(p))
		if err != nil || r.Adrift != adrift || (len(r.Times) == 0) != adrift {
			t.Errorf("%g of the hold: adrift %t, %d points, %v", share, r.Adrift, len(r.Times), err)
		}
		trials := NewTrials(p, sequence.Half)
		if held := trials.held[0].Seconds >= 0; held == adrift || trials.Err() != nil {
			t.Errorf("%g of the hold: its first row holds it: %t, %v", share, held, trials.Err())
		}
		if !adrift {
			continue
		}
		if rates, ok := trials.Follow(Sweep{}, nil); !ok || rates.StartStop != 0 || rates.PullOut != 0 {
			t.Errorf("%g of the hold: it follows %+v", share, rates)
		}
		if r, err := Reverse(p, 1, sequence.Half, 500); err != nil || !r.Before {
			t.Errorf("%g of the hold: it is turned round: %+v, %v", share, r, err)
		}
	}
}

// Pull-in and pull-out over 16 loads of the motor that the explorer opens on: at
// most 1 s.
func BenchmarkBudgetCurve16(b *testing.B) {
	p := plantOf(b, "vent-flap", "darlington")
	loads := make([]float64, 16)
	for i := range loads {
		loads[i] = p.OnePhase() * p.Ratio * float64(i) / 16
	}
	for b.Loop() {
		Curve(p, sequence.Half, loads, nil)
	}
	b.ReportMetric(1e9, "allowed-ns")
}
