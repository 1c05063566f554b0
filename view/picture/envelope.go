package picture

// Envelope thins a curve to what so many columns can show, without losing a swing:
// of the points in each column it keeps the first, the least, the greatest and the
// last, in their order. X rises.
func Envelope(x, y []float64, columns int) (ex, ey []float64) {
	n := len(x)
	if n <= 4*columns || columns < 1 {
		return x, y
	}
	width := (x[n-1] - x[0]) / float64(columns)
	for from := 0; from < n; {
		column := min(int((x[from]-x[0])/width), columns-1)
		to, least, most := from, from, from
		for ; to < n && min(int((x[to]-x[0])/width), columns-1) == column; to++ {
			if y[to] < y[least] {
				least = to
			}
			if y[to] > y[most] {
				most = to
			}
		}
		last := -1
		for _, k := range [4]int{from, min(least, most), max(least, most), to - 1} {
			if k > last {
				ex, ey, last = append(ex, x[k]), append(ey, y[k]), k
			}
		}
		from = to
	}
	return ex, ey
}

// Span gives what a curve spans around each of so many columns: the least and the
// greatest within half a window to either side, up and down in turn, so that its
// edges are lines and what lies between is filled. It shows a swing that is too
// quick to be drawn by itself. X rises.
func Span(x, y []float64, columns int, window float64) (bx, by []float64) {
	n := len(x)
	if n < 2 || columns < 2 {
		return x, y
	}
	from, to := 0, 0
	for c := range columns {
		at := x[0] + (x[n-1]-x[0])*float64(c)/float64(columns-1)
		for from < n-1 && x[from] < at-window/2 {
			from++
		}
		for to < n && x[to] <= at+window/2 {
			to++
		}
		least, most := y[from], y[from]
		for _, v := range y[from:max(to, from)] {
			least, most = min(least, v), max(most, v)
		}
		if c%2 == 1 {
			least, most = most, least
		}
		bx, by = append(bx, at, at), append(by, least, most)
	}
	return bx, by
}
