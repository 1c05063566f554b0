package recording

import (
	"bytes"
	"fmt"
	"io"
)

// csv is the lines of levels below the head.
type csv struct {
	*window
	reader  *Reader
	by      byte  // what parts the columns
	width   int   // columns of a line
	columns []int // those that are channels
	time    int   // the column of the time, or −1
	count   int   // the column that only counts samples, or −1
	power   int   // of ten: a tick in the unit of the time column

	commented float64 // Hz: the rate of samples in a comment; 0 without

	volts        bool
	above, below float64 // V: higher is high, lower is low, between them it stays

	places []int8 // of each column: the bit of the samples, or −1
	fields [][]byte
	sample Sample
	last   Sample // as given last
	begun  bool   // a line has been read
	given  bool   // a sample has been given
	over   error
}

func (c *csv) watch(channels []int) {
	was := make([]int8, len(channels))
	for k, n := range channels {
		was[k] = c.places[c.columns[n]]
	}
	for i := range c.places {
		c.places[i] = -1
	}
	for k, n := range channels {
		c.places[c.columns[n]] = int8(k)
	}
	c.sample, c.last = c.sample.as(was), c.last.as(was)
}

func (c *csv) until() int64 { return c.sample.At }

func (c *csv) next(into []Sample) (n int, err error) {
	for n < len(into) && c.over == nil {
		if c.at == c.end {
			if c.over = c.fill(); c.over == io.EOF && c.changed() {
				into[n] = c.take()
				n++
			}
			continue
		}
		line := c.line()
		if trimmed := bytes.TrimSpace(line); len(trimmed) > 0 && !c.remark(trimmed) {
			at, whole, err := c.split(line)
			if err != nil {
				c.over = err
				break
			}
			if whole && at > c.sample.At && c.changed() { // the lines of one time are one moment
				into[n] = c.take()
				n++
			}
			if whole {
				if c.over = c.read(at); c.over != nil {
					break
				}
			}
		}
		c.at += c.lineLength()
	}
	if c.over == io.EOF && !c.begun {
		c.over = c.complaint(c.at, "no line of levels stands below the names", "a line for each moment is wanted")
	}
	if n < len(into) {
		return n, c.over
	}
	return n, nil
}

func (c *csv) changed() bool {
	return c.begun && (c.sample.High != c.last.High || c.sample.Unknown != c.last.Unknown || !c.given)
}

func (c *csv) take() Sample {
	c.last, c.given = c.sample, true
	return c.sample
}

// remark is a line of comment among the others.
func (c *csv) remark(line []byte) bool {
	return line[0] == '#' || line[0] == ';' && c.by != ';' || line[0] == '%' || bytes.HasPrefix(line, []byte("//"))
}

// split parts a line into its cells, and reads its time. whole is false for the
// last line of a file that was cut off.
func (c *csv) split(line []byte) (at int64, whole bool, err error) {
	c.fields = split(c.fields, line, c.by)
	if len(c.fields) != c.width {
		if c.cut(c.at + len(line)) {
			c.reader.note("The file ends in the middle of a line: the recording was cut off there. What stands before it was read.")
			return 0, false, nil
		}
		return 0, false, c.complaint(c.at, fmt.Sprintf("this line has %d columns where the first has %d", len(c.fields), c.width), "a cell for each channel is wanted; an empty one says that the level stays")
	}
	if c.time < 0 {
		if !c.begun {
			return 0, true, nil
		}
		return c.sample.At + 1, true, nil
	}
	at, ok := decimal(c.fields[c.time], c.power)
	if !ok {
		return 0, false, c.wrong(c.time, "is no time", "a number is wanted")
	}
	if c.begun && at < c.sample.At {
		return 0, false, c.wrong(c.time, "goes back in time", "the times of a recording rise")
	}
	return at, true, nil
}

// read takes the levels of a line's cells. An empty one is a level that stays.
func (c *csv) read(at int64) error {
	c.sample.At, c.begun = at, true
	for _, i := range c.columns {
		if c.places[i] < 0 || len(c.fields[i]) == 0 {
			continue
		}
		if err := c.level(i); err != nil {
			return err
		}
	}
	return nil
}

// level takes the level of a column's cell.
func (c *csv) level(i int) error {
	bit, field := uint32(1)<<c.places[i], c.fields[i]
	high := false
	switch {
	case len(field) == 1 && (field[0]|0x20 == 'x' || field[0]|0x20 == 'z'):
		c.sample.High, c.sample.Unknown = c.sample.High&^bit, c.sample.Unknown|bit
		return nil
	case c.volts:
		micro, ok := decimal(field, -6)
		if !ok {
			return c.wrong(i, "is no voltage", "a number is wanted")
		}
		v := float64(micro) / 1e6
		if v <= c.above && v >= c.below && c.sample.Unknown&bit == 0 {
			return nil // within the band the level stays
		}
		high = v > (c.above+c.below)/2
	case len(field) == 1 && (field[0] == '0' || field[0] == '1'):
		high = field[0] == '1'
	default:
		n, ok := decimal(field, 0)
		if tenths, _ := decimal(field, -1); !ok || n != 0 && n != 1 || tenths != 10*n {
			return c.wrong(i, "is no level", "0 or 1 is wanted; where the cells are voltages give --threshold, as 1.5V")
		}
		high = n == 1
	}
	c.sample.Unknown &^= bit
	c.sample.High &^= bit
	if high {
		c.sample.High |= bit
	}
	return nil
}

// wrong is the complaint about a cell.
func (c *csv) wrong(column int, what, right string) error {
	at := c.at
	for range column {
		at += outside(c.buf[at:], c.by) + 1
	}
	for c.buf[at] == ' ' {
		at++
	}
	return c.complaint(at, fmt.Sprintf("%q %s", c.fields[column], what), right)
}
