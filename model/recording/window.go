package recording

import (
	"bytes"
	"errors"
	"io"
	"unicode/utf8"

	"coilwalk/model/files"
)

// window is the part of a recording that is in memory: whole lines, but at the
// end of the file. It knows where in the file it stands.
type window struct {
	source *source
	buf    []byte // with slack behind what is filled
	at     int    // what is before it has been taken
	end    int    // what is after it is a line not yet whole
	filled int
	lines  int // before buf
	before int // letters of buf's first line that stand before it
	over   bool

	noted       int // a byte of buf whose place will be wanted later; −1 for none
	notedLine   int // its place, once it has been left behind
	notedColumn int

	spare []byte      // the buffer that is filled ahead
	ahead chan filled // gives it, where one is on its way
}

// filled is a buffer that was read ahead, behind what was carried over to it.
type filled struct {
	buf   []byte
	n     int
	err   error
	fault any // of ours, found while reading; nil without one
}

const (
	firstWindow = 1 << 16 // bytes: most files are small
	windowSize  = 1 << 21 // bytes parsed at a time of others: enough for all processors, nothing beside the rows
	longestLine = 1 << 22 // bytes; what is longer is no recording
)

func newWindow(s *source) *window {
	return &window{source: s, buf: make([]byte, firstWindow), noted: -1}
}

// rest gives the whole lines that are left.
func (w *window) rest() []byte { return w.buf[w.at:w.end] }

// readAhead begins to read what comes after this window, while the window is
// parsed: all its whole lines will have been taken when fill is called.
func (w *window) readAhead() {
	if w.over || w.ahead != nil {
		return
	}
	w.ahead = make(chan filled, 1)
	spare, carry, ahead := w.spare, w.buf[w.end:w.filled], w.ahead
	go func() {
		defer func() { // a fault of ours is the caller's to see
			if r := recover(); r != nil {
				ahead <- filled{fault: r}
			}
		}()
		if need := max(windowSize, 2*len(carry)+slack); len(spare) < need {
			spare = make([]byte, need)
		}
		n := copy(spare, carry)
		more, err := w.source.readFull(spare[n : len(spare)-slack])
		ahead <- filled{buf: spare, n: n + more, err: err}
	}()
}

// readFull fills p if it can.
func (s *source) readFull(p []byte) (n int, err error) {
	for n < len(p) && err == nil {
		var k int
		k, err = s.Read(p[n:])
		n += k
	}
	return n, err
}

// fill goes on to the next lines. io.EOF says that there are none.
func (w *window) fill() error {
	w.leave(w.buf[:w.at])
	for {
		f := w.take()
		w.at, w.filled = 0, f.n
		switch {
		case f.err == io.EOF, errors.Is(f.err, io.ErrUnexpectedEOF):
			w.source.cutOff = f.err != io.EOF // packed, and cut off
			if w.over = true; f.n == 0 {
				w.end = 0
				return io.EOF
			}
			w.end = f.n
			return nil
		case f.err != nil:
			return w.source.broken(f.err)
		}
		if w.end = bytes.LastIndexByte(w.buf[:f.n], '\n') + 1; w.end > 0 {
			return nil
		}
		if f.n >= longestLine {
			return w.complaint(0, "a line is longer than 4 MB", "recordings have short lines; is it the right file?")
		}
	}
}

// note keeps a place that may be wanted when its lines have been left behind.
func (w *window) note(i int) { w.noted = i }

// notedPlace gives the line and column of what was noted, once it has been left
// behind.
func (w *window) notedPlace() (line, column int) { return w.notedLine, w.notedColumn }

// leave counts the lines that are left behind.
func (w *window) leave(text []byte) {
	if w.noted >= 0 {
		if w.noted < len(text) {
			w.notedLine, w.notedColumn = w.place(w.noted)
			w.noted = -1
		} else {
			w.noted -= len(text)
		}
	}
	w.lines += bytes.Count(text, []byte("\n"))
	if k := bytes.LastIndexByte(text, '\n'); k >= 0 {
		w.before, text = 0, text[k+1:]
	}
	w.before += utf8.RuneCount(text)
}

// take gives the next buffer: the one that is on its way, or one read now.
func (w *window) take() (f filled) {
	switch {
	case w.over:
		f = filled{buf: w.buf, n: copy(w.buf, w.buf[w.at:w.filled]), err: io.EOF}
	case w.ahead != nil:
		if f = <-w.ahead; f.fault != nil {
			panic(f.fault)
		}
		w.ahead, w.spare = nil, w.buf
	default:
		n := copy(w.buf, w.buf[w.at:w.filled])
		if n >= len(w.buf)/2 {
			w.buf = append(w.buf[:n:n], make([]byte, len(w.buf)+slack)...)
		}
		more, err := w.source.readFull(w.buf[n : len(w.buf)-slack])
		f = filled{buf: w.buf, n: n + more, err: err}
	}
	w.buf = f.buf
	return f
}

// place gives the line and column, from 1, of a byte of buf.
func (w *window) place(i int) (line, column int) {
	before := w.buf[:i]
	k := bytes.LastIndexByte(before, '\n')
	column = 1 + utf8.RuneCount(before[k+1:])
	if k < 0 {
		column += w.before
	}
	return w.lines + 1 + bytes.Count(before, []byte("\n")), column
}

// complaint is about what stands at a byte of buf.
func (w *window) complaint(i int, what, right string) error {
	line, column := w.place(i)
	return &files.Complaint{File: w.source.name, Line: line, Column: column, What: what, Right: right}
}

// cut says whether the file ends right after byte i of buf, in the middle of a
// line: what stands there may be half of it.
func (w *window) cut(i int) bool { return w.over && i >= w.filled }
