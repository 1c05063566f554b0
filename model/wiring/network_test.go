package wiring

import (
	"math"
	"testing"

	"coilwalk/model/motor"
)

// Circuits whose resistances stand in any textbook: series, parallel, the balanced
// bridge, and the cube of twelve equal resistors (5/6 along a diagonal through it,
// 3/4 across a face, 7/12 along an edge).
func TestPublishedCircuits(t *testing.T) {
	type want map[[2]int]float64
	cube := network{nodes: 8}
	for a := range 8 {
		for _, bit := range []int{1, 2, 4} {
			if a&bit == 0 {
				cube.join(a, a|bit, 1)
			}
		}
	}
	for _, c := range []struct {
		name string
		net  network
		want want
	}{
		{"series", network{nodes: 3, links: []link{{0, 1, 2}, {1, 2, 3}}}, want{{0, 1}: 2, {1, 2}: 3, {0, 2}: 5}},
		{"parallel", network{nodes: 2, links: []link{{0, 1, 3}, {1, 0, 6}}}, want{{0, 1}: 2}},
		{"a triangle", network{nodes: 3, links: []link{{0, 1, 1}, {1, 2, 1}, {2, 0, 2}}}, want{{0, 1}: 0.75, {0, 2}: 1, {1, 2}: 0.75}},
		{"a balanced bridge", network{nodes: 4, links: []link{{0, 1, 1}, {1, 3, 2}, {0, 2, 2}, {2, 3, 4}, {1, 2, 7}}}, want{{0, 3}: 2}},
		{"two parts", network{nodes: 4, links: []link{{0, 2, 5}, {1, 3, 7}}}, want{{0, 2}: 5, {1, 3}: 7, {0, 1}: apart, {2, 3}: apart, {0, 3}: apart}},
		{"a lead broken off", network{nodes: 3, links: []link{{0, 1, 2}, {1, 2, 3}}, open: 2}, want{{0, 1}: apart, {1, 2}: apart, {0, 2}: 5}},
		{"a cube", cube, want{{0, 7}: 5.0 / 6, {0, 3}: 3.0 / 4, {0, 1}: 7.0 / 12, {5, 2}: 5.0 / 6}},
	} {
		got := c.net.resistances(c.net.nodes)
		for at, r := range c.want {
			if a, b := got[at[0]][at[1]], got[at[1]][at[0]]; math.Abs(a-r) > 1e-9 || math.Abs(b-r) > 1e-9 {
				t.Errorf("%s: %v ohm from %d to %d, %v back, want %v", c.name, a, at[0], at[1], b, r)
			}
		}
	}
}

// What a meter shows of a winding with one fault, in half-coils, by hand. Leads 0
// and 1 are the ends of phase A with the tap 2, 3 and 4 those of B with the tap 5;
// of a 5-lead motor 0 to 3 are the ends and 4 the common; of a 4-lead one 0 and 1,
// and 2 and 3, are a coil. Last comes the case.
func TestFaultyWindings(t *testing.T) {
	six := layout{kind: SixLead, coil: []int{0, 0, 0, 1, 1, 1}, inner: []bool{false, false, true, false, false, true}}
	five := layout{kind: FiveLead, coil: make([]int, 5), inner: []bool{false, false, false, false, true}}
	four := layout{kind: FourLead, coil: []int{0, 0, 1, 1}, inner: make([]bool, 4)}
	noTap := layout{kind: SixLead, coil: []int{0, 0, 1, 1}, inner: make([]bool, 4)}
	doubled := layout{kind: FiveLead, coil: make([]int, 4), inner: []bool{false, false, true, true}}
	type want map[[2]int]float64
	for _, c := range []struct {
		name string
		l    layout
		f    defect
		want want
	}{
		{"sound", six, defect{}, want{{0, 1}: 2, {0, 2}: 1, {1, 2}: 1, {3, 4}: 2, {0, 3}: apart, {2, 5}: apart, {0, 6}: apart}},
		{"sound, the taps not named", noTap, defect{}, want{{0, 1}: 2, {2, 3}: 2, {0, 2}: apart}},
		{"sound, the common doubled", doubled, defect{}, want{{0, 1}: 2, {0, 2}: 1, {0, 3}: 1, {2, 3}: 0}},
		{"an end open", six, defect{kind: "open-lead", a: 0}, want{{0, 1}: apart, {0, 2}: apart, {1, 2}: 1}},
		{"a tap open", six, defect{kind: "open-lead", a: 2}, want{{0, 1}: 2, {0, 2}: apart, {1, 2}: apart}},
		{"half of the turns shorted", six, defect{kind: "shorted-coil", a: 0, left: 0.5}, want{{0, 1}: 1.5, {0, 2}: 0.5, {1, 2}: 1, {3, 4}: 2}},
		{"of a coil, told by its first end", four, defect{kind: "shorted-coil", a: 0, left: 0.3}, want{{0, 1}: 0.3, {2, 3}: 1}},
		{"or its second", four, defect{kind: "shorted-coil", a: 3, left: 0.3}, want{{0, 1}: 1, {2, 3}: 0.3}},
		{"phases shorted at their ends", six, defect{kind: "shorted-phases", a: 0, b: 3}, want{{0, 3}: 0, {0, 1}: 2, {1, 4}: 4, {2, 5}: 2}},
		{"ends of one common shorted", five, defect{kind: "shorted-phases", a: 0, b: 1}, want{{0, 1}: 0, {0, 4}: 0.5, {0, 2}: 1.5, {2, 3}: 2}},
		{"an end on the case", six, defect{kind: "lead-to-case", a: 1}, want{{1, 6}: 0, {2, 6}: 1, {0, 6}: 2, {3, 6}: apart}},
	} {
		s := sitting{leads: make([]motor.Lead, len(c.l.coil))}
		got := s.withFault(&c.l, &c.f)
		for at, r := range c.want {
			if v := got[at[0]][at[1]]; math.Abs(v-r) > 1e-3 { // a joint is 1e-4
				t.Errorf("%s: %v half-coils from %d to %d, want %v", c.name, v, at[0], at[1], r)
			}
		}
	}
}

// How many single faults each kind of motor can have, counted by hand: an open
// lead, one on the case, five degrees of shorted turns at each end, and a short
// between any two leads that are of two coils (or two ends of a common).
func TestEverySingleFault(t *testing.T) {
	for _, c := range []struct {
		l    layout
		want int
	}{
		{layout{kind: FourLead, coil: []int{0, 0, 1, 1}, inner: make([]bool, 4)}, 4 + 4 + 4*5 + 4},
		{layout{kind: FiveLead, coil: make([]int, 5), inner: []bool{false, false, false, false, true}}, 5 + 5 + 4*5 + 6},
		{layout{kind: SixLead, coil: []int{0, 0, 0, 1, 1, 1}, inner: []bool{false, false, true, false, false, true}}, 6 + 6 + 4*5 + 9},
		{layout{kind: EightLead, coil: []int{0, 0, 1, 1, 2, 2, 3, 3}, inner: make([]bool, 8)}, 8 + 8 + 8*5 + 24},
	} {
		s := sitting{leads: make([]motor.Lead, len(c.l.coil))}
		all := s.possible(&c.l)
		seen := map[defect]bool{}
		for _, f := range all {
			seen[f] = true
		}
		if len(all) != c.want || len(seen) != c.want {
			t.Errorf("%s: %d faults, %d different, want %d", c.l.kind, len(all), len(seen), c.want)
		}
	}
}

// All ways in which leads can sit, counted by hand. 4 leads in pairs: 3; 8 on four
// coils: 7·5·3 = 105; 5 on four: pair them or not, 26 ways, but not all five alone; 5 on a
// common: 5 ways, and 10 with two of them; 4 of a 5-lead motor: none is the common,
// or one of 4, or two of them; 6 with a tap each: 10 ways to part them in three and
// three, and 3·3 taps.
func TestEveryLayout(t *testing.T) {
	for _, c := range []struct {
		n    int
		want map[string]int
	}{
		{1, map[string]int{FiveLead: 1}},
		{2, map[string]int{FourLead: 2, FiveLead: 1 + 2, SixLead: 3 + 4, EightLead: 2}},
		{4, map[string]int{FourLead: 3, FiveLead: 1 + 4 + 6, EightLead: 10}},
		{5, map[string]int{FiveLead: 5 + 10, EightLead: 26 - 1}},
		{6, map[string]int{FiveLead: 15, SixLead: 10 * 9}},
		{7, map[string]int{EightLead: 105}},
		{8, map[string]int{EightLead: 105}},
		{9, map[string]int{}},
	} {
		count := map[string]int{}
		for _, l := range layouts(c.n) {
			count[l.kind]++
			if ends := c.n + l.missing; l.kind == FourLead && ends != 4 || l.kind == SixLead && ends != 6 || l.kind == EightLead && ends != 8 {
				t.Errorf("%d leads: %d of a %s motor are missing", c.n, l.missing, l.kind)
			}
		}
		for kind, want := range c.want {
			if count[kind] != want {
				t.Errorf("%d leads: %d ways as a %s motor, want %d", c.n, count[kind], kind, want)
			}
		}
		if len(c.want) == 0 && len(count) != 0 {
			t.Errorf("%d leads: %v", c.n, count)
		}
	}
}
