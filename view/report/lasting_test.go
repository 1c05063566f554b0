package report

import "testing"

func TestLasting(t *testing.T) {
	for seconds, want := range map[float64]string{
		119: "119 s", 120: "2 min 0 s", 7199: "119 min 59 s", 7200: "2 h 0 min", 7259.9: "2 h 0 min", 7260: "2 h 1 min",
		4.99e8: "138611 h 6 min", 1e19: "2.78e+15 h", 1e20: "2.78e+16 h", // more than a whole number holds
	} {
		if got := Lasting(seconds); got != want {
			t.Errorf("%g: %s, want %s", seconds, got, want)
		}
	}
}
