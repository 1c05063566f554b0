package course

import (
	"context"
	"slices"
	"testing"
)

// A wrong row in the table makes any motor stumble. Whether it starts too fast besides
// is told as well, and only where that is so: by what the trials of rates say.
func TestAWrongRowHidesNoStartTooFast(t *testing.T) {
	m := machine(t, "vent-flap")
	rate := flapRates().StartStop
	for _, c := range []struct {
		part float64
		bad  int // the row of the table that is wrong, from 0
		want []string
	}{
		{0.5, 4, []string{"both-ends-on"}},
		{1.3, 4, []string{"both-ends-on", "fast-start"}},
		{1.3, 2, []string{"both-ends-on", "fast-start"}},
	} {
		course := lasting(even(100, 1e6/(c.part*rate)))
		for i := range course.n {
			if i%8 == c.bad {
				course.chunks[i>>chunkBits][i&(chunkRows-1)].Levels = 0b1010
			}
		}
		with, err := Judge(course, [4]string{"1", "2", "3", "4"}, Question{}).Hold(context.Background(), m, false)
		if err != nil {
			t.Fatal(err)
		}
		var kinds []string
		for _, f := range with.Faults {
			if !slices.Contains(kinds, f.Kind) {
				kinds = append(kinds, f.Kind)
			}
		}
		slices.Sort(kinds)
		if !slices.Equal(kinds, c.want) {
			t.Errorf("at %v of the start–stop rate, row %d wrong: %v, want %v", c.part, c.bad, with.Faults, c.want)
		}
	}
}
