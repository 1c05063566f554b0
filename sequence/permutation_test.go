package sequence

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// steps gives the steps of the field, round the cycle, past rows that set up
// none; dead counts those.
func steps(rows []Row) (all []float64, dead int) {
	var angles []float64
	for _, r := range rows {
		if deg, ok := r.Field().Degrees(); ok {
			angles = append(angles, deg)
		} else {
			dead++
		}
	}
	for i, a := range angles {
		all = append(all, Between(a, angles[(i+1)%len(angles)]))
	}
	return all, dead
}

func through(m Mode, p Permutation, way int64) []Row {
	rows := make([]Row, m.Rows())
	for k := range rows {
		rows[k] = m.Order().Row(way * int64(k)).Through(p)
	}
	return rows
}

// sameCycle says whether two lists are one cycle, begun at different places.
func sameCycle(a, b []float64) bool {
	for shift := range b {
		same := len(a) == len(b)
		for i := range a {
			same = same && a[i] == b[(i+shift)%len(b)]
		}
		if same {
			return true
		}
	}
	return false
}

// Of the 24 orders of four outputs 4 turn forward, 4 back, and each of the
// other 16 gives one and the same cycle of field steps forward and reversed
// (the symmetries of a ring of four, the dihedral group of order 8).
func TestTheTwentyFourOrders(t *testing.T) {
	count := map[Direction]int{}
	wrong := map[string]struct {
		cycle []float64
		dead  int
	}{
		"half": {[]float64{180, 45, 45, 180, -45, -45}, 2},
		"wave": {[]float64{180, 90, 180, -90}, 0},
		"full": {[]float64{180, 180}, 2},
	}
	for _, p := range Permutations() {
		count[p.Turns()]++
		for _, m := range Modes {
			forward, dead := steps(through(m, p, 1))
			back, _ := steps(through(m, p, -1))
			if p.Turns() != Standing {
				for _, s := range forward {
					if dead != 0 || s != float64(p.Turns())*90/float64(m.PerStep) {
						t.Errorf("%s through %v, which turns %s: steps %v", m.Name, p, p.Turns(), forward)
					}
				}
				continue
			}
			if want := wrong[m.Name]; dead != want.dead || !sameCycle(forward, want.cycle) || !sameCycle(back, want.cycle) {
				t.Errorf("%s through %v: %v forward, %v back, %d dead", m.Name, p, forward, back, dead)
			}
		}
	}
	if count[Forward] != 4 || count[Reverse] != 4 || count[Standing] != 16 {
		t.Errorf("%v", count)
	}
}

// Each wrong order has exactly two single-swap cures, one turning forward and
// one back; exchanging the two ends of one coil only reverses.
func TestSwaps(t *testing.T) {
	for _, p := range Permutations() {
		cures := map[Direction]int{}
		for i := range 4 {
			for k := i + 1; k < 4; k++ {
				after := p.Swapped(i, k).Turns()
				if p.Turns() == Standing {
					cures[after]++
				} else if oneCoil := p[i].Opposite() == p[k]; oneCoil && after != -p.Turns() || !oneCoil && after != Standing {
					t.Errorf("%v, which turns %s, with %d and %d exchanged turns %s", p, p.Turns(), i+1, k+1, after)
				}
			}
		}
		if p.Turns() == Standing && (cures[Forward] != 1 || cures[Reverse] != 1) {
			t.Errorf("%v: cures %v", p, cures)
		}
	}
}

func TestPermutationsAreAllThereAre(t *testing.T) {
	seen := map[Permutation]bool{}
	for _, p := range Permutations() {
		if !p.Valid() || seen[p] {
			t.Errorf("%v", p)
		}
		seen[p] = true
	}
	if len(seen) != 24 || Permutations()[0] != Straight {
		t.Errorf("%d", len(seen))
	}
	for _, p := range []Permutation{{0, 0, 1, 2}, {0, 1, 2, 4}, {-1, 1, 2, 3}} {
		if p.Valid() {
			t.Errorf("%v is told valid", p)
		}
	}
}

// A mapping there and back is the identity.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom(Permutations()).Draw(t, "p")
		var r Row
		for i := range r {
			r[i] = rapid.Float64Range(0, 1).Draw(t, fmt.Sprint(i))
		}
		var back Permutation
		for end, output := range p.Inverse() {
			back[end] = End(output)
		}
		if r.Through(p).Onto(p) != r {
			t.Fatalf("%v through %v and back is %v", r, p, r.Through(p).Onto(p))
		}
		if r.Through(p).Through(back) != r {
			t.Fatal("not what it was")
		}
		for k, v := range r {
			if r.Through(p)[p[k]] != v {
				t.Fatal("output k does not feed end p[k]")
			}
		}
	})
}

// Any stretch of any mode is recognised, with its direction and its place; with
// one row changed it is not that stretch.
func TestRecogniseAStretch(t *testing.T) {
	modes := everyMode(t)
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(modes).Draw(t, "mode")
		start := rapid.IntRange(0, m.Rows()-1).Draw(t, "start")
		way := rapid.SampledFrom([]Direction{Forward, Reverse}).Draw(t, "way")
		n := rapid.IntRange(3, 20).Draw(t, "n")
		rows := make([]Row, n)
		for k := range rows {
			rows[k] = m.Order().Row(int64(start) + int64(way)*int64(k))
		}
		s, ok := Recognise(rows)
		if !ok || s.Mode.Title != m.Title || s.Direction != way || s.Start != start {
			t.Fatalf("%s %s from %d: %v %s %s from %d", m.Title, way, start, ok, s.Mode.Title, s.Direction, s.Start)
		}
		i := rapid.IntRange(1, n-2).Draw(t, "i")
		broken := append([]Row(nil), rows...)
		switch rapid.IntRange(0, 2).Draw(t, "how") {
		case 0:
			broken[i] = Row{}
		case 1:
			broken[i] = rows[i-1]
		case 2:
			broken[i], broken[i+1] = rows[i+1], rows[i]
		}
		if s, ok := Recognise(broken); ok {
			t.Fatalf("%s with row %d spoilt is told to be %s", m.Title, i, s.Mode.Title)
		}
	})
	for _, rows := range [][]Row{nil, {{1, 0, 0, 0}}, {{}, {}}, {{1, 0, 1, 0}, {0, 1, 0, 0}}, {{1, 0, 0, 0}, {0, 0, 1, 0}}} {
		if s, ok := Recognise(rows); ok {
			t.Errorf("%v is told to be %s", rows, s.Mode.Title)
		}
	}
}
