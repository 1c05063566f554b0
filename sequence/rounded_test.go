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
