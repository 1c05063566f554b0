package course

// Positions is where the commanded field has come to, over a whole course: a sum
// of the shortest ways from one field to the next. It is kept at the beginning of
// each chunk, so that any row is found at once.
type Positions struct {
	course *Course
	codes  codes
	at     []place // at the beginning of each chunk
}

// place is a field on its way.
type place struct {
	eighths int64 // from the first field on
	field   int8
	way     int8 // of the last step: a jump right across goes on that way
	began   bool
}

func (p *place) pass(field int8) {
	if field >= eighths {
		return
	}
	if p.began {
		s := step(p.field, field)
		if s == 4 && p.way < 0 {
			s = -4
		}
		if s != 0 {
			p.way = s
		}
		p.eighths += int64(s)
	}
	p.field, p.began = field, true
}

// positions goes through a course once.
func positions(c *Course, of codes) *Positions {
	p := &Positions{course: c, codes: of}
	var at place
	for k, chunk := range c.chunks {
		p.at = append(p.at, at)
		for i := range chunk[:min(len(chunk), c.n-k*chunkRows)] {
			at.pass(of.of(chunk[i]))
		}
	}
	p.at = append(p.at, at)
	return p
}

// Steps gives the commanded position in a row, in full steps from the first row.
func (p *Positions) Steps(row int) float64 {
	if row < 0 || p.course.n == 0 {
		return 0
	}
	row = min(row, p.course.n-1)
	at := p.at[row>>chunkBits]
	for i := row &^ (chunkRows - 1); i <= row; i++ {
		at.pass(p.codes.of(p.course.Row(i)))
	}
	return float64(at.eighths) / 2
}
