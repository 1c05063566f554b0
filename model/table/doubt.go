package table

import (
	"fmt"
	"math/bits"
	"strings"
)

// notRows says why a list of numbers is plainly no step table, as a clause; ""
// when it may be one.
func notRows(name string, literals []literal) string {
	if why := notByName(name); why != "" {
		return why
	}
	if !decimal(literals) {
		return "" // whoever names a base means bits
	}
	least, most, up, down, even := literals[0].value, literals[0].value, true, true, true
	seen := map[int64]bool{}
	for i, l := range literals {
		least, most = min(least, l.value), max(most, l.value)
		seen[l.value] = true
		if i > 0 {
			step := l.value - literals[i-1].value
			up, down = up && step > 0, down && step < 0
			even = even && step == literals[1].value-literals[0].value
		}
	}
	n := len(literals)
	runs := n > 2 && len(seen) == n && most-least == int64(n-1)
	switch {
	case runs && (least > 0 || up || down):
		// Two polarity lines in a number are 0 1 3 2, which is no count.
		return fmt.Sprintf("it holds each number from %d to %d once, as a list of pins does", least, most)
	case stepName(name):
		return ""
	case n <= 4 && most < 64 && scattered(literals):
		return "its bits do not stand together, as in numbers of pins"
	case n >= 4 && even && (up || down):
		return "its numbers grow evenly, as settings do"
	case n >= 5 && (up || down):
		return "its numbers only grow or only fall, and an order goes round"
	}
	return ""
}

// scattered says whether the bits that move in some numbers are far from each
// other, or other bits are on all the time: odd for outputs, usual for numbers
// that people count in.
func scattered(literals []literal) bool {
	all, common := uint64(0), ^uint64(0)
	for _, l := range literals {
		all, common = all|uint64(l.value), common&uint64(l.value)
	}
	moving := all &^ common
	if moving == 0 || bits.OnesCount64(moving) > 4 {
		return false // told otherwise
	}
	where := fourBits(moving)
	return where[0]-where[3] != 3 || common>>where[0] > 0 || common&(1<<where[3]-1) != 0
}

func decimal(literals []literal) bool {
	for _, l := range literals {
		if !l.valued || l.base != 10 {
			return false
		}
	}
	return true
}

// stepName says whether an array is a table by its name.
func stepName(name string) bool {
	return nameHas(name, "step", "seq", "sequence", "table", "phase", "coil", "order", "row", "wave", "half", "full", "pattern")
}

// notByName says why an array is no table by its name.
func notByName(name string) string {
	switch {
	case nameHas(name, "state", "pattern", "level"):
		return ""
	case nameHas(name, "pin", "gpio") || pinsAtEnd(name):
		return "by its name it holds the numbers of pins"
	case nameHas(name, "delay", "speed", "rpm", "wait", "ramp", "accel", "acceleration", "time", "duration", "period", "interval", "rate"):
		return "by its name it holds times or speeds"
	case nameHas(name, "sine", "sin", "cosine", "cos"):
		return "by its name it holds a curve"
	}
	return ""
}

// pinsAtEnd finds motorpins, but not spins.
func pinsAtEnd(name string) bool {
	s := strings.TrimRight(strings.ToLower(name), "0123456789[]_")
	return strings.HasSuffix(s, "pins") && !strings.HasSuffix(s, "spins")
}

// nameHas says whether one of the words is a word of the name, alone or in the
// plural: stepDelays is "step" and "delay".
func nameHas(name string, words ...string) bool {
	for _, part := range nameWords(name) {
		for _, w := range words {
			if part == w || part == w+"s" {
				return true
			}
		}
	}
	return false
}

// nameWords parts a name where its writer did: at marks, digits and capitals.
func nameWords(name string) []string {
	var words []string
	var word strings.Builder
	flush := func() {
		if word.Len() > 0 {
			words = append(words, strings.ToLower(word.String()))
			word.Reset()
		}
	}
	small := false
	for _, c := range name {
		capital := c >= 'A' && c <= 'Z'
		if !capital && !(c >= 'a' && c <= 'z') {
			flush()
			small = false
			continue
		}
		if capital && small {
			flush()
		}
		small = !capital
		word.WriteRune(c)
	}
	flush()
	return words
}
