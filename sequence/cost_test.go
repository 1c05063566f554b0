package sequence

import "testing"

var kept Row // so that no call is left out

// A step of 10¹⁵ costs what a step of 1 costs.
func BenchmarkRow(b *testing.B) {
	o := Half.Order()
	for _, c := range []struct {
		name string
		step int64
	}{{"step1", 1}, {"step1e15", far}, {"step-1e15", -far}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				kept = o.Row(c.step)
			}
		})
	}
}

func TestRowAllocatesNothing(t *testing.T) {
	for _, m := range []Mode{Wave, Half, mustMicro(t, 7, 0)} {
		o := m.Order()
		for _, step := range []int64{1, -1, far, -far} {
			if n := testing.AllocsPerRun(1000, func() { kept = o.Row(step) }); n != 0 {
				t.Errorf("%s, step %d: %v allocations", m.Title, step, n)
			}
		}
	}
}
