package rotor

import (
	"fmt"
	"math"
	"testing"

	"coilwalk/sequence"
)

// The load angle asin(TL/Th)/p of a rotor with p = 50: the formula is in
// Acarnley, "Stepping Motors: A Guide to Theory and Practice", ch. 3 (from
// memory); the values are computed from it, in degrees of the rotor.
func TestLoadAngle(t *testing.T) {
	for _, c := range []struct{ load, angle float64 }{
		{0, 0}, {0.1, 0.1148}, {0.2, 0.2307}, {0.5, 0.6000}, {0.7071, 0.9000}, {0.9, 1.2832},
	} {
		for name, f := range map[string]sequence.Field{"one phase": aPlus, "two phases": both} {
			m := Machine{PolePairs: 50, Load: c.load * f.Strength()} // TL over Th, whatever Th is
			field, _ := f.Degrees()
			for _, from := range []float64{field, field + 60, field + 170} {
				to, balance := restFrom(t, m, f, from)
				if got := (field - to) / 50; !near(got, c.angle, 6e-5) || balance != Held {
					t.Errorf("%s, load %v, from %v°: rests %.4f° behind, balance %d; want %.4f°", name, c.load, from, got, balance, c.angle)
				}
			}
			m.Load = -m.Load // that pulls on: the rotor rests ahead
			if to, _ := restFrom(t, m, f, field); !near((to-field)/50, c.angle, 6e-5) {
				t.Errorf("%s, load %v pulling on: rests %.4f° ahead, want %.4f°", name, c.load, (to-field)/50, c.angle)
			}
		}
	}
}

// At the holding torque the rotor is one full step behind, 1.8° with p = 50
// (same formula); a shade beyond it is not held at all.
func TestLoadAngleAtTheHoldingTorque(t *testing.T) {
	to, _ := restFrom(t, Machine{PolePairs: 50, Load: 1 - 1e-9}, aPlus, 0)
	if got := -to / 50; !near(got, 1.8, 1e-3) {
		t.Errorf("rests %.4f° behind, want 1.8°", got)
	}
	for from := -180.0; from < 180; from += 7 {
		if places, balance := (Machine{PolePairs: 50, Load: 1 + 1e-6}).Rest(aPlus, position(from)); balance != Adrift || len(places) != 0 {
			t.Errorf("from %v° under more than the holding torque: %v, balance %d", from, places, balance)
		}
	}
}

// Two phases hold √2 times what one does (Jones, "Stepping Motor Physics",
// Half-Stepping and Microstepping): the greatest load that is held.
func TestTwoPhasesHoldRootTwo(t *testing.T) {
	held := func(f sequence.Field) float64 {
		least, most := 0.0, 4.0
		for range 40 {
			mid := (least + most) / 2
			deg, _ := f.Degrees()
			if _, balance := (Machine{PolePairs: 8, Load: mid}).Rest(f, position(deg)); balance == Adrift {
				most = mid
			} else {
				least = mid
			}
		}
		return least
	}
	one, two := held(aPlus), held(both)
	if !near(one, 1, 1e-4) || !near(two, math.Sqrt2, 1e-4) {
		t.Errorf("one phase holds %.6f, two hold %.6f; want 1 and √2", one, two)
	}
	for _, f := range []sequence.Field{bPlus, aMinus, bMinus} {
		if h := held(f); !near(h, one, 1e-6) {
			t.Errorf("%v holds %.6f, A+ alone %.6f", f, h, one)
		}
	}
}

// The load's error does not add up over steps (Acarnley, ch. 3, opening: it
// depends on the load torque only).
func TestLoadAngleDoesNotAddUp(t *testing.T) {
	m, o := Machine{PolePairs: 50, Load: 0.5}, sequence.Wave.Order()
	w := At(Position{})
	for k := range int64(1000) {
		w, _ = m.Follow(w, o.Row(k).Field())
		p, ok := w.Known()
		if want := 90*float64(k) - 30; !ok || !near(total(p), want, tenth) {
			t.Fatalf("after %d steps at %v°, known %v; want %v°", k, total(p), ok, want)
		}
	}
}

// Rows turn the rotor the way the field goes: A+, A+B+, B+ and so on rest at
// 0°, 45°, 90° (the usual model's own consequences, computed).
func TestRotorFollowsTheField(t *testing.T) {
	o, m := sequence.Half.Order(), Machine{PolePairs: 8}
	var w Whereabouts
	for _, step := range []int64{1, -1} {
		for k := range int64(33) {
			w, _ = m.Follow(At(position(float64(45*step*k))), o.Row(step*(k+1)).Field())
			if p, ok := w.Known(); !ok || !near(total(p), float64(45*step*(k+1)), tenth) {
				t.Fatalf("row %d: %v", step*(k+1), w)
			}
		}
	}
}

func micro(t *testing.T, divide int) sequence.Mode {
	t.Helper()
	m, err := sequence.Micro(divide, 0)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// inStep walks rows slowly, and says whether the rotor stays within reach of
// the field all the way.
func inStep(mode sequence.Mode, way int64, load float64) bool {
	o, m := mode.Order(), Machine{PolePairs: 8, Load: load}
	first := o.Row(0).Field()
	deg, _ := first.Degrees()
	w, _ := m.Follow(At(position(deg)), first)
	for k := range int64(10 * mode.Rows()) {
		w, _ = m.Follow(w, o.Row(way*(k+1)).Field())
		commanded, _ := o.Degrees(way * (k + 1)).Float64()
		if p, ok := w.Known(); !ok || math.Abs(total(p)-commanded) > 91 {
			return false
		}
	}
	return true
}

// The most that slow stepping carries is where the curves of neighbouring rows
// cross ("Step motor performance", Figs 5.51 and 5.52, has the rule; the values
// are computed, in the torque of one phase on).
func TestCrossingTorque(t *testing.T) {
	const shade = 1e-4
	for _, c := range []struct {
		mode sequence.Mode
		want float64
	}{
		{sequence.Wave, 1 / math.Sqrt2},
		{sequence.Full, 1},
		{sequence.Half, 1},
		{micro(t, 2), math.Cos(22.5 * math.Pi / 180)},
		{micro(t, 4), math.Cos(11.25 * math.Pi / 180)},
		{micro(t, 16), math.Cos(90.0 / 32 * math.Pi / 180)},
	} {
		name := fmt.Sprintf("%s, %.4f", c.mode.Title, c.want)
		if !inStep(c.mode, 1, c.want-shade) {
			t.Errorf("%s: just below it the rotor falls out of step", name)
		}
		if inStep(c.mode, 1, c.want+shade) {
			t.Errorf("%s: just above it the rotor still follows", name)
		}
		if !inStep(c.mode, -1, -c.want+shade) || inStep(c.mode, -1, -c.want-shade) {
			t.Errorf("%s: it is another one backwards, against a load that pulls on", name)
		}
	}
}

// Giving way to the load, wave drive carries all that it holds.
func TestLoweringALoad(t *testing.T) {
	if !inStep(sequence.Wave, -1, 0.999) {
		t.Error("the rotor falls out of step going with the load")
	}
}
