package sequence

// Permutation says which coil end each of four outputs feeds: output k, from
// 0, feeds end p[k].
type Permutation [4]End

// Straight feeds the ends in field order.
var Straight = Permutation{APlus, BPlus, AMinus, BMinus}

// Permutations lists all 24, Straight first, in rising order.
func Permutations() []Permutation {
	var all []Permutation
	for _, a := range Ends {
		for _, b := range Ends {
			for _, c := range Ends {
				if a == b || b == c || a == c {
					continue
				}
				all = append(all, Permutation{a, b, c, 6 - a - b - c})
			}
		}
	}
	return all
}

// Valid says whether each end is fed exactly once.
func (p Permutation) Valid() bool {
	var seen [4]bool
	for _, e := range p {
		if e < 0 || int(e) >= len(seen) || seen[e] {
			return false
		}
		seen[e] = true
	}
	return true
}

// Inverse gives, for each end in field order, the output that feeds it.
func (p Permutation) Inverse() [4]int {
	var outputs [4]int
	for k, e := range p {
		outputs[e] = k
	}
	return outputs
}

// Swapped gives the permutation after the leads on outputs i and j, from 0,
// are exchanged.
func (p Permutation) Swapped(i, j int) Permutation {
	p[i], p[j] = p[j], p[i]
	return p
}

// Turns says what a forward order does when it is sent through p: of the 24,
// four turn forward, four back, and sixteen only shake the rotor (Standing).
// The eight are the symmetries of the ring A+ B+ A− B−.
func (p Permutation) Turns() Direction {
	step := (p[1] - p[0] + 4) % 4
	for k := range p {
		if (p[(k+1)%4]-p[k]+4)%4 != step {
			return Standing
		}
	}
	switch step {
	case 1:
		return Forward
	case 3:
		return Reverse
	}
	return Standing
}
