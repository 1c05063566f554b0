package sequence

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// Reverse is the mirror of forward: as many rows back as on, row by row the
// same but for the ends of coil B exchanged; in full step, which begins between
// the coils, but for the coils exchanged.
func TestReverseIsTheMirror(t *testing.T) {
	for _, m := range everyMode(t) {
		mirror := Straight.Swapped(1, 3)
		if m.FirstAt == 45 {
			mirror = Straight.Swapped(0, 1).Swapped(2, 3)
		}
		o := m.Order()
		for k := range int64(o.Len()) {
			if o.Row(-k) != o.Row(k).Through(mirror) {
				t.Fatalf("%s, %d rows back: %v, on: %v", m.Title, k, o.Row(-k), o.Row(k))
			}
		}
	}
}

// A whole number of turns and the ends of the range of steps.
func TestPlacesOfAnyStep(t *testing.T) {
	modes := everyMode(t)
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(modes).Draw(t, "mode")
		step := rapid.OneOf(rapid.Int64(), rapid.SampledFrom([]int64{math.MinInt64, math.MaxInt64, 0, far, -far})).Draw(t, "step")
		want := new(big.Int).Mod(big.NewInt(step), big.NewInt(int64(m.Rows()))).Int64()
		if got := m.Order().Index(step); int64(got) != want {
			t.Fatalf("%s, step %d: place %d, want %d", m.Title, step, got, want)
		}
		// The angle less that of the place is whole cycles of 360°.
		cycles := new(big.Rat).Sub(m.Order().Degrees(step), m.Order().Degrees(want))
		if cycles.Quo(cycles, big.NewRat(360, 1)); !cycles.IsInt() {
			t.Fatalf("%s, step %d: %v cycles from its place", m.Title, step, cycles)
		}
	})
}

// Figures that a reader can work out on paper.
func TestDegreesByHand(t *testing.T) {
	seventh := mustMicro(t, 7, 0)
	for _, c := range []struct {
		mode Mode
		step int64
		want string
	}{
		{Wave, far, "90000000000000000"}, {Full, 1, "135"}, {Full, -far, "-89999999999999955"},
		{Half, -1, "-45"}, {Half, far, "45000000000000000"},
		{seventh, -1, "-90/7"}, {seventh, far, "90000000000000000/7"}, {seventh, -far, "-90000000000000000/7"},
		{mustMicro(t, 256, 0), 1, "45/128"}, {mustMicro(t, 256, 3), 1, "45/128"},
	} {
		if got := c.mode.Order().Degrees(c.step).RatString(); got != c.want {
			t.Errorf("%s, step %d: %s°, want %s°", c.mode.Title, c.step, got, c.want)
		}
	}
}

// Off a row by less than half the way to the next, that row is still nearest.
func TestNearestOffTheRow(t *testing.T) {
	modes := everyMode(t)
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(modes).Draw(t, "mode")
		k := rapid.IntRange(0, m.Rows()-1).Draw(t, "k")
		off := rapid.Float64Range(-0.499, 0.499).Draw(t, "off") * 90 / float64(m.PerStep)
		cycles := rapid.IntRange(-3, 3).Draw(t, "cycles")
		deg, _ := m.Order().Row(int64(k)).Field().Degrees()
		if got := m.Order().Nearest(deg + off + 360*float64(cycles)); got != k {
			t.Fatalf("%s: %v° off row %d it is row %d", m.Title, off, k, got)
		}
	})
	for _, c := range []struct {
		deg  float64
		want int
	}{{45, 0}, {135, 1}, {315, 0}, {-45, 0}} { // midway the first of the two in the cycle
		if got := Wave.Order().Nearest(c.deg); got != c.want {
			t.Errorf("%v°: row %d, want %d", c.deg, got, c.want)
		}
	}
	if got := Custom([]Row{{}, {1, 0, 1, 0}, {0, 1, 0, 0}, {0, 1, 0, 0}}).Nearest(-90); got != 2 {
		t.Errorf("the only rows with a field are 3 and 4, not %d", got+1)
	}
}

// No row of any mode has a negative current, a negative zero, or both ends of a
// phase on.
func TestRowsAreFitToBeSent(t *testing.T) {
	modes := append(everyMode(t), mustMicro(t, 2, 1), mustMicro(t, 16, 7))
	for _, m := range modes {
		for k, r := range ring(m, 0, Forward) {
			for _, v := range r {
				if math.Signbit(v) || v > 1 {
					t.Fatalf("%s row %d: %v", m.Title, k, r)
				}
			}
			if r.BothOn(0) || r.BothOn(1) || r.Field().None() {
				t.Fatalf("%s row %d: %v", m.Title, k, r)
			}
		}
	}
}

// Rows of one's own repeat both ways, command no angle and stay as they were
// given.
func TestRowsOfOnesOwn(t *testing.T) {
	rows := []Row{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}}
	o := Custom(rows)
	rows[0] = Row{}
	for step, want := range map[int64]int{0: 0, 2: 2, 3: 0, -1: 2, -far: 2, far: 1} { // 10¹⁵ = 3·333…333 + 1
		if o.Index(step) != want || o.Row(step).On()[0] != End(want) {
			t.Errorf("step %d: place %d, %v", step, o.Index(step), o.Row(step))
		}
	}
	if _, ok := o.Mode(); ok || o.Degrees(1) != nil || o.Len() != 3 {
		t.Errorf("mode %v, angle %v, %d rows", ok, o.Degrees(1), o.Len())
	}
	if none := Custom(nil); none.Len() != 1 || none.Row(-far) != (Row{}) || none.Nearest(0) != 0 {
		t.Errorf("no rows at all: %d", none.Len())
	}
	if m, ok := Full.Order().Mode(); !ok || m.Name != "full" {
		t.Errorf("full step is told to be %v %q", ok, m.Name)
	}
}
