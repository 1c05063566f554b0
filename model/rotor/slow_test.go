package rotor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// followed says whether a creeping rotor goes with an order for some cycles,
// under a constant load in T1.
func followed(t *testing.T, o sequence.Order, way int64, load float64) bool {
	t.Helper()
	p := heavily(spring(t))
	p.Load.Torque = load * 1e-3
	field, _ := o.Row(0).Field().Degrees()
	m := begun(&p, field, o.Row(0))
	const dwell = 0.25 // s, a hundred ring periods and more: it comes to rest, even near a crest
	before := advance(t, m, dwell)
	cycle := int64(o.Len())
	for k := int64(1); k <= 3*cycle; k++ {
		m.Energise(o.Row(way * k))
		advance(t, m, dwell*float64(k+1))
	}
	turned := m.State().Place.From(before.Place)
	return near(turned, float64(way)*3*360, 1)
}

// The load at which slow stepping fails is where the curves of neighbouring
// rows cross (the-crankshaft.info, "Step motor performance", Figs 5.51 and
// 5.52); for two sines 90° apart Th/√2, for half step at equal vector length
// cos 22.5° (references of common practice; computed). In T1: wave 1/√2, full
// step 1, half step 1 at equal coil current, which the one-phase rows limit, and
// cos 22.5° with two-phase rows cut to 1/√2.
func TestCrossingTorqueInTime(t *testing.T) {
	scaled := make([]sequence.Row, 8)
	for k := range scaled {
		scaled[k] = sequence.Half.Order().Row(int64(k))
		if k%2 == 1 {
			for e := range scaled[k] {
				scaled[k][e] /= math.Sqrt2
			}
		}
	}
	for _, c := range []struct {
		what     string
		order    sequence.Order
		crossing float64
	}{
		{"wave drive", sequence.Wave.Order(), 1 / math.Sqrt2},
		{"full step", sequence.Full.Order(), 1},
		{"half step", sequence.Half.Order(), 1},
		{"half step, scaled", sequence.Custom(scaled), math.Cos(math.Pi / 8)},
	} {
		for _, way := range []int64{1, -1} {
			for part, want := range map[float64]bool{0.5: true, 0.99: true, 1.01: false} {
				if got := followed(t, c.order, way, float64(way)*part*c.crossing); got != want {
					t.Errorf("%s, way %d, at %.2f of the crossing torque: followed is %v", c.what, way, part, got)
				}
			}
		}
	}
}

// A rotor that slips comes to rest a whole number of pole pitches away.
func TestLostStepsAreFours(t *testing.T) {
	p := spring(t)
	p.Damping = 0.3 * math.Sqrt(8*1e-3*2e-8)
	o := sequence.Full.Order()
	lost := 0
	for _, rate := range []float64{50, 200, 300, 400, 500, 700, 1000, 2000} {
		m := begun(&p, 45, o.Row(0))
		for k := range int64(100) {
			m.Energise(o.Row(k + 1))
			advance(t, m, float64(k+1)/rate)
		}
		rest, ok, err := m.Settle(o.Row(100), 5)
		if err != nil || !ok {
			t.Fatalf("%v rows/s: it never comes to rest, %v", rate, err)
		}
		steps := (total(rest) - 45) / 90
		if behind := (100 - steps) / 4; !near(behind, math.Round(behind), 1e-6) {
			t.Errorf("%v rows/s: %v steps of 100", rate, steps)
		} else if behind != 0 {
			lost++
			if rate == 50 {
				t.Errorf("it loses steps at 50 rows/s")
			}
		}
	}
	if lost == 0 {
		t.Error("it follows 2000 rows/s at once")
	}
}
