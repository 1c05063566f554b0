package sequence

import (
	"math"
	"testing"
)

// A tiny negative angle is 0°, not 360°: [0, 360) is promised.
func TestDegreesStayBelowACircle(t *testing.T) {
	if deg, _ := (Row{1, 0.3, 0, 0.1 + 0.2 + 1e-17}).Field().Degrees(); deg >= 360 {
		t.Errorf("%v°", deg)
	}
	if deg, _ := (Field{A: 1, B: -5.5e-17}).Degrees(); deg >= 360 {
		t.Errorf("%v°", deg)
	}
}

// Currents printed to three digits are recognised in every divisor.
func TestMicrostepsPrintedToThreeDigits(t *testing.T) {
	for _, divide := range []int{8, 16, 32, 64, 128, 256} {
		m, _ := Micro(divide, 0)
		bad := 0
		for start := range m.Rows() {
			var rows []Row
			for k := range m.Rows() {
				r := m.Order().Row(int64(start + k))
				for e := range r {
					r[e] = math.Round(r[e]*1000) / 1000
				}
				rows = append(rows, r)
			}
			if s, ok := Recognise(rows); !ok || s.Mode.PerStep != divide || s.Start != start {
				bad++
			}
			if start > 12 || raced && start > 1 {
				break
			}
		}
		if bad > 0 {
			t.Errorf("1/%d: not recognised from %d starts", divide, bad)
		}
	}
}

// A few microsteps printed to three digits leave their divisor blurred, one way or
// the other; that they are microsteps, and go forward, is not.
func TestAFewMicrostepsPrintedToThreeDigits(t *testing.T) {
	for _, c := range []struct{ divide, rows, start int }{
		{47, 3, 14}, {54, 3, 32}, {60, 3, 54}, // the step seems that of a divisor one off
		{82, 3, 72}, {89, 3, 13}, {88, 4, 52}, // two off
	} {
		m, _ := Micro(c.divide, 0)
		var rows []Row
		for k := range c.rows {
			r := m.Order().Row(int64(c.start + k))
			for e := range r {
				r[e] = math.Round(r[e]*1000) / 1000
			}
			rows = append(rows, r)
		}
		s, ok := Recognise(rows)
		if !ok || s.Direction != Forward || s.Mode.PerStep < c.divide-2 || s.Mode.PerStep > c.divide+2 {
			t.Errorf("1/%d from %d: %v 1/%d %s", c.divide, c.start, ok, s.Mode.PerStep, s.Direction)
		}
	}
}

// Currents that are off by the tolerance are the same still, by more they are not.
func TestHowAlikeCurrentsAre(t *testing.T) {
	for _, c := range []struct {
		off  float64
		same bool
	}{{alike, true}, {1.01 * alike, false}} {
		for _, f := range []Field{{A: c.off}, {A: -c.off}, {B: c.off}, {B: -c.off}} {
			if sameField(f, Field{}) != c.same || sameField(Field{}, f) != c.same {
				t.Errorf("%v and none are the same: %v", f, !c.same)
			}
		}
	}
}
