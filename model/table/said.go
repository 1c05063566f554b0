package table

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"coilwalk/sequence"
)

// outputBit is a line that says which bit of a port an output has, as the head of
// what coilwalk writes does, and people's own comments: "output 1: PORTB bit 0".
var outputBit = regexp.MustCompile(`(?im)\boutput ([1-4])\b[^\n]*\bbit (\d{1,2})\b`)

// saidBits gives the bits that a text says outputs 1 to 4 have; nil where it does
// not name each of them once.
func saidBits(text string) []int {
	var bits [4]int
	var seen [4]bool
	for _, m := range outputBit.FindAllStringSubmatch(text, -1) {
		k := int(m[1][0] - '1')
		if seen[k] {
			return nil
		}
		bits[k], _ = strconv.Atoi(m[2]) // two digits at most
		seen[k] = true
	}
	if seen != [4]bool{true, true, true, true} {
		return nil
	}
	return bits[:]
}

// outputEnd is a line that says which coil end an output drives, as the head of what
// coilwalk writes does: "Output 2: lead GN, coil end A-".
var outputEnd = regexp.MustCompile(`(?im)\boutput ([1-4])\b[^\n]*\bcoil end ([AB][+-])`)

// saidEnds gives the coil ends that a text says outputs 1 to 4 drive; nil where it does
// not name each of them once.
func saidEnds(text string) *sequence.Permutation {
	found := outputEnd.FindAllStringSubmatch(text, -1)
	if len(found) != 4 {
		return nil
	}
	var ends sequence.Permutation
	for _, m := range found {
		ends[m[1][0]-'1'], _ = sequence.ParseEnd(strings.ToUpper(m[2]))
	}
	if !ends.Valid() {
		return nil
	}
	return &ends
}

// sameBits says whether the bits that move are those that are said.
func sameBits(moving, said []int) bool {
	if len(moving) != len(said) {
		return false
	}
	sorted := slices.Sorted(slices.Values(said))
	slices.Reverse(sorted)
	return slices.Equal(moving, sorted)
}
