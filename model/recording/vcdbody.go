package recording

import (
	"bytes"
	"fmt"
	"io"
	"strings"
)

// vcd is the value changes of a dump, IEEE 1364 clause 18.2.1 and 18.2.3.
type vcd struct {
	*window
	reader    *Reader
	ids       map[string]int32 // the variable of an identifier code
	variables []variable
	places    []int8 // of each channel: the bit of the samples, or −1

	// What an identifier of one letter, or of two, stands for: nearly all
	// changes of a recording are of such, and a map would cost more than the
	// rest. The value is that of slots.
	one [256]uint8
	two [1 << 16]uint8

	sample  Sample // levels as they are now
	told    Sample // as they were at the last sample given
	known   bool   // a sample has been given
	hasTime bool
	comment bool   // within a $comment
	value   []byte // a vector's digits, whose identifier comes next
	vector  bool
	over    error

	pieces []piece  // of the window
	queue  []Sample // read, and not yet given
	given  int      // of the queue
}

// variable is a declared variable: size channels from first on, its highest bit
// first.
type variable struct{ first, size int }

const (
	noVariable = int32(-1)           // an identifier whose changes are of no interest
	unwatched  = uint8(MostChannels) // the slot of a line that nobody watches
	notOne     = uint8(63)           // no line of one bit has this identifier: look further
)

func (v *vcd) prepare(channels int) {
	v.places = make([]int8, channels)
	for i := range v.places {
		v.places[i] = -1
	}
	v.index()
}

// watch takes what was read ahead along: levels that are not told yet, and samples
// that are not given.
func (v *vcd) watch(channels []int) {
	was := make([]int8, len(channels))
	for k, c := range channels {
		was[k] = v.places[c]
	}
	v.prepare(len(v.places))
	for k, c := range channels {
		v.places[c] = int8(k)
	}
	v.index()
	v.sample, v.told = v.sample.as(was), v.told.as(was)
	left := v.queue[:0]
	for _, s := range v.queue[v.given:] {
		s = s.as(was)
		if n := len(left); n == 0 || s.High != left[n-1].High || s.Unknown != left[n-1].Unknown {
			left = append(left, s)
		}
	}
	v.queue, v.given = left, 0
}

// index fills the short cuts to lines of one bit.
func (v *vcd) index() {
	for i := range v.one {
		v.one[i] = notOne
	}
	for i := range v.two {
		v.two[i] = notOne
	}
	for id, n := range v.ids {
		slot := unwatched
		if n != noVariable {
			if v.variables[n].size != 1 {
				continue
			}
			if place := v.places[v.variables[n].first]; place >= 0 {
				slot = uint8(place)
			}
		}
		switch len(id) {
		case 1:
			v.one[id[0]] = slot
		case 2:
			v.two[uint16(id[0])<<8|uint16(id[1])] = slot
		}
	}
}

// next gives samples until there is no room or no more of them.
func (v *vcd) next(into []Sample) (n int, err error) {
	for {
		k := copy(into[n:], v.queue[v.given:])
		n, v.given = n+k, v.given+k
		if n == len(into) {
			return n, nil
		}
		v.queue, v.given = v.queue[:0], 0
		if v.over != nil {
			return n, v.over
		}
		if v.over = v.window.fill(); v.over == nil {
			v.over = v.fast()
		}
		if v.over == io.EOF {
			v.finish()
		}
	}
}

// finish gives what came after the last time.
func (v *vcd) finish() {
	if v.comment || v.vector {
		v.cutOff()
	}
	if v.changed() || !v.known && v.hasTime {
		v.queue = append(v.queue, v.take())
	}
	if !v.hasTime {
		v.over = v.complaint(v.at, "no time stands in the whole file", "levels are wanted below times, as #1250")
	}
}

func (v *vcd) until() int64 { return v.sample.At }

func (v *vcd) changed() bool {
	return v.sample.High != v.told.High || v.sample.Unknown != v.told.Unknown
}

func (v *vcd) take() Sample {
	v.told, v.known = v.sample, true
	return v.sample
}

// scan goes through the lines in the window until a sample has no room, and
// gives how many there are then. Changes belong to the time above them, so a
// sample is complete when the next time comes.
func (v *vcd) scan(into []Sample, n int) (int, error) {
	buf, i, end := v.buf, v.at, v.end
	for i < end {
		c := buf[i]
		if c <= ' ' {
			if c == 0 {
				if err := v.zeros(i); err != nil {
					return n, err
				}
				i = end // there is nothing but zeros, so they are looked at once
				continue
			}
			i++
			continue
		}
		if v.comment || v.vector {
			var err error
			if i, err = v.second(i); err != nil {
				return n, err
			}
			continue
		}
		switch {
		case c == '#':
			at, from := int64(0), i
			for i++; i < end && buf[i]-'0' <= 9; i++ {
				at = at*10 + int64(buf[i]-'0')
			}
			if i == from+1 || i-from > 1+mostDigits || i < end && buf[i] > ' ' || v.hasTime && at < v.sample.At {
				if next, err := v.oddTime(from, at); err != nil {
					return n, err
				} else if next > 0 {
					i = next
					continue
				}
			}
			if v.hasTime && at > v.sample.At && (v.changed() || !v.known) {
				into[n] = v.take()
				if n++; n == len(into) {
					v.at, v.hasTime, v.sample.At = i, true, at
					return n, nil
				}
			}
			v.hasTime, v.sample.At = true, at
		case c == '0' || c == '1':
			slot, from := notOne, i
			switch {
			case i+2 < end && buf[i+2] <= ' ':
				slot = v.one[buf[i+1]]
				i += 2
			case i+3 < end && buf[i+3] <= ' ':
				slot = v.two[uint16(buf[i+1])<<8|uint16(buf[i+2])]
				i += 3
			}
			if slot < MostChannels {
				bit := uint32(1) << slot
				v.sample.Unknown &^= bit
				v.sample.High = v.sample.High&^bit | uint32(c&1)<<slot
			} else if slot == notOne {
				var err error
				if i, err = v.odd(from); err != nil {
					return n, err
				}
			}
		default:
			var err error
			if i, err = v.odd(i); err != nil {
				return n, err
			}
		}
	}
	v.at = i
	return n, nil
}

// zeros is a zero byte: at the end of a file they are what a crash leaves, in the
// middle it is no text.
func (v *vcd) zeros(i int) error {
	if rest := bytes.TrimLeft(v.buf[i:v.filled], "\x00"); len(rest) > 0 {
		return v.complaint(i, "zero bytes stand here", "the file is damaged; record it anew, or cut it off before this place")
	}
	v.reader.note("The file ends in zero bytes: the recorder did not end it well. What stands before them was read.")
	return nil
}

func (v *vcd) wordEnd(i int) int {
	for i < v.end && v.buf[i] > ' ' {
		i++
	}
	return i
}

// oddTime is a time that is not one, or that goes back. A last line that is cut
// off is passed over, and where it ends given; 0 says that the time is good.
func (v *vcd) oddTime(from int, at int64) (next int, err error) {
	end := v.wordEnd(from)
	word := string(v.buf[from:end])
	notDigits := strings.Trim(word[1:], "0123456789") != ""
	great := len(word) > 1+mostDigits // then at means nothing
	back := v.hasTime && at < v.sample.At && !great
	switch {
	case v.cut(end) && (len(word) == 1 || notDigits || back):
		v.cutOff()
		return end, nil
	case len(word) == 1 || notDigits:
		return 0, v.complaint(from, fmt.Sprintf("%q is no time", word), "# and a whole number are wanted")
	case great:
		return 0, v.complaint(from, fmt.Sprintf("the time %s is too great", word), "at most 18 digits are read")
	case back:
		return 0, v.complaint(from, fmt.Sprintf("time goes back, from #%d to %s", v.sample.At, word), "the times of a recording rise")
	}
	return 0, nil
}

// mostDigits of a time fit 63 bits whatever they are.
const mostDigits = 18

func (v *vcd) cutOff() {
	v.reader.note("The file ends in the middle of a line: the recording was cut off there. What stands before it was read.")
}

// odd is everything but times and the changes of short identifiers.
func (v *vcd) odd(i int) (next int, err error) {
	end := v.wordEnd(i)
	word := v.buf[i:end]
	switch c := word[0]; c {
	case '0', '1', 'x', 'X', 'z', 'Z', 'u', 'U', 'w', 'W', 'l', 'L', 'h', 'H', '-':
		if len(word) == 1 && !v.cut(end) {
			return 0, v.complaint(i, fmt.Sprintf("%q has no identifier behind it", word), "a level is written together with the identifier of its line, as 1!")
		}
		v.value = append(v.value[:0], c)
		return end, v.change(i, word[1:], end)
	case 'b', 'B':
		v.value, v.vector = append(v.value[:0], word[1:]...), true
		if at := bytes.IndexFunc(v.value, notLevel); at >= 0 || len(v.value) == 0 {
			return v.unless(end, i, fmt.Sprintf("%q is no value of a variable", word), "b and the digits 0, 1, x and z are wanted")
		}
		return end, nil
	case 'r', 'R', 's', 'S':
		v.value, v.vector = append(v.value[:0], 'r'), true
		return end, nil
	case '$':
		switch string(word) {
		case "$dumpvars", "$dumpall", "$dumpon", "$dumpoff", "$end":
			return end, nil
		case "$comment":
			v.comment = true
			return end, nil
		}
	}
	return v.unless(end, i, fmt.Sprintf("%q is neither a time nor a level", word), "lines as #1250 and 1! are wanted here")
}

// unless complains, unless the word is the last of a file that was cut off.
func (v *vcd) unless(end, at int, what, right string) (int, error) {
	if v.cut(end) {
		v.vector = false
		v.cutOff()
		return end, nil
	}
	return 0, v.complaint(at, what, right)
}

func notLevel(r rune) bool {
	switch r {
	case '0', '1', 'x', 'X', 'z', 'Z', 'u', 'U', 'w', 'W', 'l', 'L', 'h', 'H', '-':
		return false
	}
	return true
}

// second is a word that belongs to one before it: of a comment, or the
// identifier of a vector.
func (v *vcd) second(i int) (next int, err error) {
	end := v.wordEnd(i)
	if v.comment {
		v.comment = string(v.buf[i:end]) != "$end"
		return end, nil
	}
	v.vector = false
	return end, v.change(i, v.buf[i:end], end)
}

// change gives a variable the value that was read.
func (v *vcd) change(at int, id []byte, end int) error {
	n, ok := v.ids[string(id)]
	switch {
	case !ok && v.cut(end):
		v.cutOff()
		return nil
	case !ok && at+len(id) < end && !strings.ContainsRune("01xXzZ", rune(v.value[0])): // a word, more likely
		return v.complaint(at, fmt.Sprintf("%q is neither a time nor a level of a declared line", v.buf[at:end]), "a $var before $enddefinitions gives each line its identifier")
	case !ok:
		return v.complaint(at, fmt.Sprintf("no line is declared with the identifier %q", id), "a $var before $enddefinitions gives each line its identifier")
	case n == noVariable || v.value[0] == 'r':
		return nil
	}
	of := v.variables[n]
	for k := range of.size {
		place := v.places[of.first+k]
		if place < 0 {
			continue
		}
		bit := uint32(1) << place
		v.sample.High &^= bit
		v.sample.Unknown &^= bit
		switch v.digit(of.size, k) {
		case '1', 'h', 'H':
			v.sample.High |= bit
		case '0', 'l', 'L':
		default:
			v.sample.Unknown |= bit
		}
	}
	return nil
}

// digit gives bit k, the highest first, of the value: a shortened one is
// extended on its left with 0, or with x or z where it begins so (clause 18.2.1).
func (v *vcd) digit(size, k int) byte {
	left := size - len(v.value)
	if k >= left {
		return v.value[k-left]
	}
	if first := v.value[0]; first != '0' && first != '1' {
		return first
	}
	return '0'
}
