package wiring

import (
	"math"
	"slices"
	"sort"
)

// defect is one electrical fault of a winding.
type defect struct {
	kind string // open-lead, shorted-coil, shorted-phases or lead-to-case
	a, b int    // the leads that it is told by
	left float64
}

// How much of its resistance a half-coil with shorted turns has left, as far as
// a meter can tell: a few turns can not be seen.
var shortedLeft = []float64{0.05, 0.3, 0.5, 0.7, 0.8}

// mostBases bounds the layouts that are tried with a fault, farOff (in ln of the
// odds) how much worse than the best they may be without it.
const (
	mostBases = 8
	farOff    = 60
)

// defects tries every single fault on the layouts that explain the readings best.
func (s *sitting) defects(guesses []guess) (found []guess) {
	bases := slices.DeleteFunc(slices.Clone(guesses), func(g guess) bool { return g.kind == Other })
	sort.SliceStable(bases, func(i, k int) bool { return bases[i].log > bases[k].log })
	if len(bases) == 0 || s.fitsAll(&bases[0]) {
		return nil // a fault would explain nothing
	}
	for i := range bases {
		if i >= mostBases || bases[i].log < bases[0].log-farOff {
			break
		}
		all := s.possible(&bases[i].layout)
		for k := range all {
			g := bases[i]
			g.defect = &all[k]
			halves := s.withFault(&g.layout, g.defect)
			g.log += math.Log(faulty[g.defect.kind]) + s.gain(&bases[i], halves)
			found = append(found, g)
		}
	}
	return found
}

// fitsAll says whether every reading fits a sound layout.
func (s *sitting) fitsAll(g *guess) bool {
	for k, r := range s.readings {
		h := float64(apart)
		if s.from[k] < len(s.leads) && s.to[k] < len(s.leads) {
			h = float64(g.between(s.from[k], s.to[k]))
		}
		if s.slipped(r, h, g) {
			return false
		}
	}
	return true
}

// gain compares the readings under a fault with those under the sound layout,
// about the resistances that suit the latter best.
func (s *sitting) gain(g *guess, halves [][]float64) float64 {
	best := math.Inf(-1)
	for _, scale := range []float64{0.94, 0.97, 1, 1.03, 1.06} {
		sum := 0.0
		for k, r := range s.readings {
			a, b := s.from[k], s.to[k]
			sound := float64(apart)
			if a < len(s.leads) && b < len(s.leads) {
				sound = float64(g.between(a, b))
			}
			sum += math.Log(chance(r, halves[a][b], scale*g.ohm, g.lead)) - math.Log(chance(r, sound, g.ohm, g.lead))
		}
		best = max(best, sum)
	}
	return best
}

// possible lists the single faults of a layout.
func (s *sitting) possible(l *layout) (all []defect) {
	n := len(s.leads)
	for a := range n {
		all = append(all, defect{kind: "open-lead", a: a, b: a}, defect{kind: "lead-to-case", a: a, b: a})
		if !l.inner[a] {
			for _, left := range shortedLeft {
				all = append(all, defect{kind: "shorted-coil", a: a, b: a, left: left})
			}
		}
		for b := a + 1; b < n; b++ {
			if l.coil[a] != l.coil[b] || l.kind == FiveLead && !l.inner[a] && !l.inner[b] {
				all = append(all, defect{kind: "shorted-phases", a: a, b: b})
			}
		}
	}
	return all
}

// withFault gives the half-coils between any two probe places (leads, and the
// case last) of a layout with a fault, as the resistance of the network.
func (s *sitting) withFault(l *layout, f *defect) [][]float64 {
	n := len(s.leads)
	net := network{nodes: n + 1}
	inner := map[int]int{} // of each coil: the node of its common or tap
	for i := range n {
		if l.inner[i] {
			if at, known := inner[l.coil[i]]; known {
				net.join(at, i, 0)
			} else {
				inner[l.coil[i]] = i
			}
		}
	}
	for i := range n {
		if l.inner[i] {
			continue
		}
		left := 1.0
		if f.kind == "shorted-coil" && f.a == i {
			left = f.left
		}
		if l.kind == FourLead || l.kind == EightLead {
			for k := i + 1; k < n; k++ {
				if l.coil[k] == l.coil[i] {
					if f.kind == "shorted-coil" && f.a == k {
						left = f.left
					}
					net.join(i, k, left)
				}
			}
			continue
		}
		at, known := inner[l.coil[i]]
		if !known {
			at = net.nodes
			net.nodes++
			inner[l.coil[i]] = at
		}
		net.join(i, at, left)
	}
	switch f.kind {
	case "open-lead":
		net.open = f.a + 1
	case "shorted-phases":
		net.join(f.a, f.b, 0)
	case "lead-to-case":
		net.join(f.a, n, 0)
	}
	return net.resistances(n + 1)
}
