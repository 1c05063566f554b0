package wiring

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/motor"
)

// Topology is what is known of a motor's leads before the shaft is watched:
// which can be energised, and which lie on one coil.
type Topology struct {
	Leads  []motor.Lead // that can be energised, in the order in which they were named
	Common motor.Lead   // 5 leads
	Taps   []motor.Lead // 6 leads: of the first and of the second phase
	Geared bool         // a single tick of the shaft can not be seen
	Steps  int          // full steps to a turn of the rotor; 0 where that is not known
	Ratio  float64      // turns of the rotor to one of the shaft; 0 where that is not known
	Play   float64      // of the train, degrees at the shaft; 0 where it was not measured
	other  []int        // of each lead: the other end of its coil or half; −1 where that is not known
	halves bool         // 8 leads: four halves, of which it is not known which are one phase
}

// Energise says how a lead is energised, in words.
func (t *Topology) Energise(l motor.Lead) string {
	if i := slices.Index(t.Leads, l); i >= 0 && t.untapped() {
		return fmt.Sprintf("%s to + and %s to −, all else open", l, t.Leads[t.other[i]])
	}
	return fmt.Sprintf("%s to the supply, %s sunk", t.supply(), l)
}

// untapped says whether no lead goes to the supply for good: then a lead is
// energised against the other end of its own coil, and both can not be at once.
func (t *Topology) untapped() bool { return t.Common == "" && t.Taps == nil }

func (t *Topology) supply() string {
	if t.Common != "" {
		return "common " + string(t.Common)
	}
	return "taps " + string(t.Taps[0]) + " and " + string(t.Taps[1])
}

// Kind names the kind of motor.
func (t *Topology) Kind() string {
	switch {
	case t.Common != "":
		return FiveLead
	case t.Taps != nil:
		return SixLead
	case t.halves:
		return EightLead
	}
	return FourLead
}

// OfFive is a motor of which only the common is known.
func OfFive(ends []motor.Lead, common motor.Lead) (*Topology, error) {
	t := &Topology{Leads: ends, Common: common, other: []int{-1, -1, -1, -1}}
	return t, t.check(4, common)
}

// OfSix is a motor whose phases and taps are known: two ends and a tap each.
func OfSix(first, second [2]motor.Lead, taps [2]motor.Lead) (*Topology, error) {
	t := &Topology{Leads: []motor.Lead{first[0], second[0], first[1], second[1]}, Taps: taps[:], other: []int{2, 3, 0, 1}}
	return t, t.check(4, taps[:]...)
}

// OfCoils is a motor of two coils, or of four halves.
func OfCoils(coils [][2]motor.Lead) (*Topology, error) {
	t := &Topology{halves: len(coils) == 4}
	if len(coils) != 2 && len(coils) != 4 {
		return t, fmt.Errorf("%d coils are given; two are wanted for 4 leads, four for 8", len(coils))
	}
	for side := range 2 {
		for _, c := range coils {
			t.Leads = append(t.Leads, c[side])
		}
	}
	n := len(coils)
	for i := range t.Leads {
		t.other = append(t.other, (i+n)%(2*n))
	}
	return t, t.check(2 * n)
}

func (t *Topology) check(n int, more ...motor.Lead) error {
	all := append(slices.Clone(t.Leads), more...)
	if len(t.Leads) != n {
		return fmt.Errorf("%d leads are given where %d are wanted", len(t.Leads), n)
	}
	seen := map[string]bool{}
	for _, l := range all {
		if seen[strings.ToLower(string(l))] {
			return fmt.Errorf("%s stands twice; each lead is one end", l)
		}
		seen[strings.ToLower(string(l))] = true
	}
	return nil
}

// OfMotor takes from a motor what ohms would tell of it, and no more: its
// assignment of leads to coil ends is what is asked about.
func OfMotor(m motor.Motor) *Topology {
	var t *Topology
	switch len(m.Leads()) {
	case 5:
		t, _ = OfFive(m.Ends[:], m.Common)
	case 6:
		t, _ = OfSix([2]motor.Lead{m.Ends[0], m.Ends[2]}, [2]motor.Lead{m.Ends[1], m.Ends[3]}, m.Taps)
	case 8:
		t, _ = OfCoils([][2]motor.Lead{{m.Ends[0], m.Inner[0]}, {m.Ends[1], m.Inner[1]}, {m.Ends[2], m.Inner[2]}, {m.Ends[3], m.Inner[3]}})
	default:
		t, _ = OfCoils([][2]motor.Lead{{m.Ends[0], m.Ends[2]}, {m.Ends[1], m.Ends[3]}})
	}
	t.Know(m)
	return t
}

// OfAnswer takes what readings told; ok is false before they settle it.
func OfAnswer(a Answer) (t *Topology, ok bool) {
	w, ok := a.Winding()
	if !ok {
		return nil, false
	}
	return OfMotor(motor.Motor{Winding: w}), true
}

// mapping is one way in which leads can sit on coil ends: for each lead of a
// topology the field that it makes, in quarters of an electrical turn. The first
// lead is at 0: where an order starts can not be told.
type mapping []int

// mappings lists all that a topology allows, each once. For 5 leads the other
// three ends have 90°, 180° and 270° in any order: 6. Where the coils are known
// only the sense of the second is open: 2. Four halves: which other half is of
// the first one's phase (3), its polarity (2), and the polarities of the two
// others (2 × 2): 24.
func (t *Topology) mappings() (all []mapping) {
	switch {
	case t.Common != "":
		for _, p := range [][3]int{{1, 2, 3}, {1, 3, 2}, {2, 1, 3}, {2, 3, 1}, {3, 1, 2}, {3, 2, 1}} {
			all = append(all, mapping{0, p[0], p[1], p[2]})
		}
	case t.halves:
		for partner := 1; partner < 4; partner++ {
			for sense := range 8 {
				m := make(mapping, 8)
				bit := 1
				for h := 1; h < 4; h++ {
					base := 1
					if h == partner {
						base = 0
					}
					m[h] = base
					if sense&bit != 0 {
						m[h] += 2
					}
					bit <<= 1
				}
				for h := range 4 {
					m[h+4] = (m[h] + 2) % 4
				}
				all = append(all, m)
			}
		}
	default:
		for _, b := range []int{1, 3} {
			all = append(all, mapping{0, b, 2, (b + 2) % 4})
		}
	}
	return all
}
