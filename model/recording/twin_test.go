package recording_test

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/recording"
)

// dump is a second reader of value change dumps: a word at a time, with
// everything in memory, after the clauses of IEEE 1364-2005, 18.2. It shares
// nothing with the one it is held against, and is in no hurry.
type dump struct {
	text  string
	at    int // byte of the next word
	tick  float64
	bits  map[string][]int // channels of an identifier, the highest bit first
	lines int              // channels

	level   []byte // '0', '1' or 'x' of each channel
	samples []recording.Sample
	until   int64
	timed   bool
}

// levels are those of the standard, and those of a hardware description language
// with nine: U, W and - say nothing, L and H are weak.
const levels = "01xXzZuUwWlLhH-"

var (
	errDump  = errors.New("no value change dump")
	errGreat = errors.New("a time of more digits than can be held")
	errCut   = errors.New("cut off where an identifier, or the end of a comment, is wanted")
)

// word gives the next word: what stands between white space (18.2.1), for which
// any control character is taken. Of the last one, cut says that none follows it.
func (d *dump) word() (word string, cut bool) {
	for d.at < len(d.text) && d.text[d.at] <= ' ' {
		d.at++
	}
	end := strings.IndexFunc(d.text[d.at:], func(r rune) bool { return r <= ' ' })
	if end < 0 {
		word, d.at = d.text[d.at:], len(d.text)
		return word, true
	}
	word, d.at = d.text[d.at:d.at+end], d.at+end
	return word, false
}

// section gives the words up to $end.
func (d *dump) section() ([]string, error) {
	var words []string
	for {
		w, _ := d.word()
		switch w {
		case "":
			return nil, errDump
		case "$end":
			return words, nil
		}
		words = append(words, w)
	}
}

// head reads the declarations (18.2.3.1 to 18.2.3.8) up to $enddefinitions.
func (d *dump) head() error {
	d.tick, d.bits = 1e-9, map[string][]int{}
	for {
		w, _ := d.word()
		if !strings.HasPrefix(w, "$") {
			return errDump
		}
		words, err := d.section()
		if err != nil {
			return err
		}
		switch w {
		case "$enddefinitions":
			if d.lines == 0 {
				return errDump
			}
			d.level = []byte(strings.Repeat("x", d.lines))
			return nil
		case "$timescale":
			if err := d.timescale(strings.Join(words, "")); err != nil {
				return err
			}
		case "$var":
			if err := d.declare(words); err != nil {
				return err
			}
		}
	}
}

// timescale reads a number and a unit, joined or spaced (18.2.3.4).
func (d *dump) timescale(said string) error {
	digits := strings.TrimRight(said, "fpnums")
	number, err := strconv.Atoi(digits)
	place := slices.Index([]string{"fs", "ps", "ns", "us", "ms", "s"}, said[len(digits):])
	if err != nil || place < 0 || number <= 0 {
		return errDump
	}
	d.tick = float64(number) * math.Pow(10, float64(3*place-15))
	return nil
}

// declare reads a $var: type, size, identifier, reference (18.2.3.8). What holds
// no level of a line is known, and no channel.
func (d *dump) declare(words []string) error {
	if len(words) < 4 {
		return errDump
	}
	size, err := strconv.Atoi(words[1])
	if err != nil || size < 0 || size > 1<<20 {
		return errDump
	}
	id := words[2]
	if _, known := d.bits[id]; known {
		return nil // another name of the same line
	}
	d.bits[id] = nil
	if slices.Contains([]string{"real", "realtime", "event", "parameter", "time", "string"}, words[0]) {
		return nil
	}
	if size > recording.MostChannels {
		return nil // no bundle of pins
	}
	for range size {
		d.bits[id] = append(d.bits[id], d.lines)
		d.lines++
	}
	return nil
}

// read reads a whole dump.
func (d *dump) read() error {
	if err := d.head(); err != nil {
		return err
	}
	for {
		w, cut := d.word()
		if w == "" {
			break
		}
		err := d.command(w)
		if err == errCut {
			break
		}
		if err != nil && err != errGreat && (cut || d.at == len(d.text)) && d.text[len(d.text)-1] != '\n' {
			break // the recording was cut off in this word
		}
		if err != nil {
			return err
		}
	}
	if !d.timed {
		return errDump
	}
	d.sample()
	return nil
}

// command reads a simulation command (18.2.1, 18.2.3.9 to 18.2.3.12).
func (d *dump) command(w string) error {
	switch w[0] {
	case '$':
		if w == "$comment" {
			if _, err := d.section(); err != nil {
				return errCut
			}
			return nil
		}
		if !slices.Contains([]string{"$dumpall", "$dumpoff", "$dumpon", "$dumpvars", "$end"}, w) {
			return errDump
		}
		return nil
	case '#':
		return d.time(w[1:])
	case 'b', 'B':
		if w[1:] == "" || strings.Trim(w[1:], levels) != "" {
			return errDump
		}
		id, _ := d.word()
		if id == "" {
			return errCut
		}
		return d.vector(w[1:], id)
	case 'r', 'R', 's', 'S':
		id, _ := d.word()
		if id == "" {
			return errCut
		}
		if _, known := d.bits[id]; !known {
			return errDump
		}
		return nil
	}
	if !strings.ContainsRune(levels, rune(w[0])) {
		return errDump
	}
	return d.vector(w[:1], w[1:])
}

func (d *dump) time(digits string) error {
	at, err := strconv.ParseUint(digits, 10, 63)
	if len(digits) > 18 && strings.Trim(digits, "0123456789") == "" {
		return errGreat
	}
	if err != nil || d.timed && int64(at) < d.until {
		return errDump
	}
	if d.timed && int64(at) > d.until {
		d.sample()
	}
	d.until, d.timed = int64(at), true
	return nil
}

// vector sets the bits of a variable: too few digits are filled on the left,
// with 0 after 0 and 1, else with the first (18.2.1, table of left-extension).
func (d *dump) vector(digits, id string) error {
	channels, known := d.bits[id]
	if !known {
		return errDump
	}
	fill := digits[:1]
	if fill == "1" {
		fill = "0"
	}
	digits = strings.Repeat(fill, max(0, len(channels)-len(digits))) + digits
	digits = digits[len(digits)-len(channels):]
	for k, c := range channels {
		switch digits[k] {
		case '0', 'l', 'L':
			d.level[c] = '0'
		case '1', 'h', 'H':
			d.level[c] = '1'
		default:
			d.level[c] = 'x'
		}
	}
	return nil
}

// sample notes the levels at the time that is over, where they changed.
func (d *dump) sample() {
	s := recording.Sample{At: d.until}
	for c, level := range d.level[:min(len(d.level), recording.MostChannels)] {
		switch level {
		case '1':
			s.High |= 1 << c
		case 'x':
			s.Unknown |= 1 << c
		}
	}
	if n := len(d.samples); n == 0 || d.samples[n-1].High != s.High || d.samples[n-1].Unknown != s.Unknown {
		d.samples = append(d.samples, s)
	}
}
