package rotor

import "testing"

// A swing is taken over twenty-four full steps at a time, and compared with the one
// before: it takes two of these to see that it dies out, and one that stays or grows
// is never calm, however small.
func TestCalmTakesTwoSwings(t *testing.T) {
	for _, c := range []struct {
		name  string
		swing func(window int) float64 // from end to end, electrical degrees
		want  int                      // windows until it is calm; 0 for never
	}{
		{"none at all", func(int) float64 { return 0 }, 2},
		{"as small as the tolerance", func(int) float64 { return 0.0015 }, 2},
		{"dies out", func(n int) float64 { return []float64{0.2, 0.1, 0.05}[min(n, 2)] }, 2},
		{"dies out from far", func(n int) float64 { return []float64{4, 1, 0.24, 0.2}[min(n, 3)] }, 3},
		{"dies out too slowly", func(n int) float64 { return []float64{0.2, 0.19, 0.18, 0.175}[min(n, 3)] }, 0},
		{"stays", func(int) float64 { return 0.1 }, 0},
		{"grows", func(n int) float64 { return 0.01 * float64(n+1) }, 0},
	} {
		var calm Calm
		calls, got := 0, 0
		for n := 0; n < 6 && got == 0; n++ {
			for k := range calmSteps {
				calls++
				off := c.swing(n) / 2
				if k%2 == 1 {
					off = -off
				}
				if calm.See(20 + off) {
					got = calls
					break
				}
			}
		}
		if got != c.want*calmSteps {
			t.Errorf("a swing that %s: calm after %d steps, want %d", c.name, got, c.want*calmSteps)
		}
	}
}
