package picture

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// In each column the thinned curve has the extremes of the whole, the points are
// some of its own in their order, and four a column at most.
func TestEnvelopeKeepsTheSwings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 3000).Draw(t, "points")
		columns := rapid.IntRange(1, 80).Draw(t, "columns")
		swings := rapid.Float64Range(0, 200).Draw(t, "swings")
		var x, y []float64
		for i := range n {
			at := float64(i) / float64(n-1)
			x, y = append(x, at), append(y, math.Exp(-2*at)*math.Sin(2*math.Pi*swings*at))
		}
		ex, ey := Envelope(x, y, columns)
		if len(ex) > max(4*columns, n) || n > 4*columns && len(ex) > 4*columns || !slices.IsSorted(ex) {
			t.Fatalf("%d of %d points in %d columns", len(ex), n, columns)
		}
		column := func(v float64) int { return min(int((v-x[0])/((x[n-1]-x[0])/float64(columns))), columns-1) }
		type span struct{ least, most float64 }
		spans := func(x, y []float64) map[int]span {
			all := map[int]span{}
			for i := range x {
				s, known := all[column(x[i])]
				if !known {
					s = span{y[i], y[i]}
				}
				all[column(x[i])] = span{min(s.least, y[i]), max(s.most, y[i])}
			}
			return all
		}
		whole, thinned := spans(x, y), spans(ex, ey)
		for c, s := range whole {
			if thinned[c] != s {
				t.Fatalf("column %d spans %v, of %v", c, thinned[c], s)
			}
		}
		for i := range ex {
			if k, found := slices.BinarySearch(x, ex[i]); !found || y[k] != ey[i] {
				t.Fatalf("%v, %v is no point of the curve", ex[i], ey[i])
			}
		}
	})
}

// The span of a swing that dies out is what its envelope spans, ±e^(−t), from the
// first whole swing to the last.
func TestSpanIsTheEnvelope(t *testing.T) {
	var x, y []float64
	const swings, columns = 40, 60
	for i := range 4001 {
		at := float64(i) / 4000
		x, y = append(x, at), append(y, math.Exp(-2*at)*math.Sin(2*math.Pi*swings*at))
	}
	bx, by := Span(x, y, columns, 1.0/swings)
	if len(bx) != 2*columns || len(by) != 2*columns {
		t.Fatalf("%d and %d points", len(bx), len(by))
	}
	for c := 2; c < columns-2; c++ {
		least, most := min(by[2*c], by[2*c+1]), max(by[2*c], by[2*c+1])
		want := math.Exp(-2 * bx[2*c])
		if bx[2*c] != bx[2*c+1] || math.Abs(most-want) > 0.04*want || math.Abs(least+want) > 0.04*want {
			t.Errorf("at %.3f it spans %.3f to %.3f, want ±%.3f", bx[2*c], least, most, want)
		}
		if (by[2*c] < by[2*c+1]) == (by[2*c+2] < by[2*c+3]) {
			t.Error("two columns run the same way")
		}
	}
}
