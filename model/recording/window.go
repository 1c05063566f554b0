package recording

import (
	"bytes"
	"io"
	"unicode/utf8"

	"coilwalk/model/files"
)

// window is the part of a recording that is in memory: whole lines, but at the
// end of the file. It knows where in the file it stands.
type window struct {
	source *source
	buf    []byte
	at     int // what is before it has been taken
	end    int // what is after it is a line not yet whole
	filled int
	lines  int // before buf
	over   bool
}

// longestLine bounds a line: what is longer is no recording.
const longestLine = 1 << 22 // bytes

func newWindow(s *source) *window { return &window{source: s, buf: make([]byte, chunk)} }

// rest gives the whole lines that are left.
func (w *window) rest() []byte { return w.buf[w.at:w.end] }

// fill goes on to the next lines. io.EOF says that there are none.
func (w *window) fill() error {
	w.lines += bytes.Count(w.buf[:w.at], []byte("\n"))
	w.filled = copy(w.buf, w.buf[w.at:w.filled])
	w.end -= w.at
	w.at = 0
	if w.over {
		w.end = w.filled
		if w.end == 0 {
			return io.EOF
		}
		return nil
	}
	for {
		if w.filled == len(w.buf) {
			if len(w.buf) >= longestLine {
				return w.complaint(0, "a line is longer than 4 MB", "recordings have short lines; is it the right file?")
			}
			w.buf = append(w.buf, make([]byte, len(w.buf))...)
		}
		from := w.filled
		n, err := w.source.Read(w.buf[w.filled:])
		w.filled += n
		if err == io.EOF {
			w.over, w.end = true, w.filled
			if w.end == 0 {
				return io.EOF
			}
			return nil
		}
		if err != nil {
			return w.source.broken(err)
		}
		if k := bytes.LastIndexByte(w.buf[from:w.filled], '\n'); k >= 0 && w.filled > len(w.buf)/2 {
			w.end = from + k + 1
			return nil
		} else if k >= 0 {
			w.end = from + k + 1
		}
	}
}

// place gives the line and column, from 1, of a byte of buf.
func (w *window) place(i int) (line, column int) {
	before := w.buf[:i]
	return w.lines + 1 + bytes.Count(before, []byte("\n")), 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
}

// complaint is about what stands at a byte of buf.
func (w *window) complaint(i int, what, right string) error {
	line, column := w.place(i)
	return &files.Complaint{File: w.source.name, Line: line, Column: column, What: what, Right: right}
}

// cut says whether the file ends right after byte i of buf, in the middle of a
// line: what stands there may be half of it.
func (w *window) cut(i int) bool { return w.over && i >= w.filled }
