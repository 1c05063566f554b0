package wiring

// The kinds of two-phase motors by their leads, and what is none of them.
const (
	FourLead  = "4-lead"
	FiveLead  = "5-lead"
	SixLead   = "6-lead"
	EightLead = "8-lead"
	Other     = "other"
)

// Kinds lists them.
var Kinds = []string{FourLead, FiveLead, SixLead, EightLead, Other}

// layout is one way in which the named leads can sit on a winding. Every winding
// of these kinds is a tree of equal half-coils, so between two leads a meter
// sees a whole number of half-coils, or nothing.
type layout struct {
	kind    string
	coil    []int  // of each lead: its coil or phase; a 5-lead motor has one common for all
	inner   []bool // of each lead: it is a common or a tap
	missing int    // leads of such a motor that are not named
}

// apart says that two leads are not connected.
const apart = -1

// between gives the half-coils between two leads, or apart. In a 4- or 8-lead
// motor a coil counts as one.
func (l *layout) between(a, b int) int {
	if l.coil[a] != l.coil[b] {
		return apart
	}
	switch {
	case l.kind == FourLead || l.kind == EightLead:
		return 1
	case l.inner[a] && l.inner[b]:
		return 0 // a doubled common
	case l.inner[a] || l.inner[b]:
		return 1
	}
	return 2
}

// layouts lists all ways for n leads, each once.
func layouts(n int) []layout {
	var all []layout
	all = append(all, pairings(FourLead, n, 2)...)
	all = append(all, commons(n)...)
	all = append(all, tapped(n)...)
	return append(all, pairings(EightLead, n, 4)...)
}

// pairings puts n leads on at most so many coils of two leads each.
func pairings(kind string, n, coils int) (all []layout) {
	if n > 2*coils || n < 2 {
		return nil
	}
	coil, count := make([]int, n), make([]int, coils)
	var put func(lead, used int)
	put = func(lead, used int) {
		if lead == n {
			all = append(all, layout{kind: kind, coil: append([]int(nil), coil...), inner: make([]bool, n), missing: 2*coils - n})
			return
		}
		for c := 0; c < min(used+1, coils); c++ {
			if count[c] == 2 {
				continue
			}
			coil[lead] = c
			count[c]++
			put(lead+1, max(used, c+1))
			count[c]--
		}
	}
	put(0, 0)
	return all
}

// commons are the 5-lead motors: one lead is the common, or none of those named
// is, or two are (a doubled common).
func commons(n int) (all []layout) {
	add := func(inner ...int) {
		l := layout{kind: FiveLead, coil: make([]int, n), inner: make([]bool, n)}
		for _, i := range inner {
			l.inner[i] = true
		}
		if ends := n - len(inner); ends >= 1 && ends <= 4 {
			l.missing = 4 - ends
			if len(inner) == 0 {
				l.missing++
			}
			all = append(all, l)
		}
	}
	add()
	for i := range n {
		add(i)
		for k := i + 1; k < n; k++ {
			add(i, k)
		}
	}
	return all
}

// tapped are the 6-lead motors: two phases of two ends and a tap.
func tapped(n int) (all []layout) {
	if n > 6 || n < 2 {
		return nil
	}
	for mask := 0; mask < 1<<(n-1); mask++ { // the last lead is always in phase 0
		phase := make([]int, n)
		var members [2][]int
		for i := range n {
			phase[i] = mask >> i & 1
			members[phase[i]] = append(members[phase[i]], i)
		}
		if len(members[0]) > 3 || len(members[1]) > 3 {
			continue
		}
		for _, t0 := range tapsOf(members[0]) {
			for _, t1 := range tapsOf(members[1]) {
				l := layout{kind: SixLead, coil: phase, inner: make([]bool, n), missing: 6 - n}
				for _, t := range []int{t0, t1} {
					if t >= 0 {
						l.inner[t] = true
					}
				}
				all = append(all, l)
			}
		}
	}
	return all
}

// tapsOf lists which of a phase's named leads can be its tap; −1 for none.
func tapsOf(members []int) []int {
	if len(members) == 3 {
		return members
	}
	return append([]int{-1}, members...)
}
