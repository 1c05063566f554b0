package report

import (
	"math"
	"testing"
)

func TestFixed(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{33.75, 1, "33.8"}, {math.Nextafter(33.75, 0), 1, "33.8"}, {math.Nextafter(33.75, 90), 1, "33.8"}, // a row of 1/16 step
		{-5.625, 2, "-5.63"}, {0.125, 2, "0.13"}, {33.7499, 1, "33.7"},
		{-0.0001, 2, "0.00"}, {0, 0, "0"}, {math.Inf(1), 1, "+Inf"},
	} {
		if got := Fixed(c.v, c.decimals); got != c.want {
			t.Errorf("%v to %d decimals: %s, want %s", c.v, c.decimals, got, c.want)
		}
	}
}
