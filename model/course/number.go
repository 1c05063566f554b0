package course

import "sort"

// Numbers says which rows of a course are rows of the energising order, and
// counts those from 1: the excursions of a glitch, and outputs that are off
// between runs, are none.
type Numbers struct {
	none []int // rows of the course that are none, rising
}

// Of gives the number of a row of the course, from 0; one that is none has the
// number of the last before it.
func (n Numbers) Of(row int) int64 {
	return int64(row + 1 - sort.SearchInts(n.none, row+1))
}

// None says that a row of the course is none of the order.
func (n Numbers) None(row int) bool {
	k := sort.SearchInts(n.none, row)
	return k < len(n.none) && n.none[k] == row
}

// Row gives the row of the course that has a number.
func (n Numbers) Row(number int64) int {
	// Every row that is none before it moves it by one.
	k := sort.Search(len(n.none), func(k int) bool { return int64(n.none[k]-k) >= number })
	return int(number) - 1 + k
}
