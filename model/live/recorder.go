package live

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"coilwalk/model/files"
)

// Recorder keeps what a board acknowledged as a recording (IEEE 1364, Verilog,
// clause 18: value change dump), while it passes through. What is not on paper
// yet when the program dies is a few rows; all before them can be read.
type Recorder struct {
	Link
	events chan Event

	mu    sync.Mutex
	out   *bufio.Writer
	file  io.WriteCloser
	begun time.Time
	last  int64
	row   Row
	off   bool // since a halt: what is still told of before counts no more
	now   func() time.Time
	err   error
}

// Record begins a recording of a link. The outputs stand as on or off, whatever
// level that is; head is what is to be told of it.
func Record(link Link, file io.WriteCloser, head []string, now func() time.Time) *Recorder {
	r := &Recorder{Link: link, events: make(chan Event, 256), file: file, out: bufio.NewWriter(file), now: now, begun: now()}
	r.write("$comment\n")
	for _, line := range head {
		r.write("   %s\n", plain(line))
	}
	r.write("   Times are those at which the board's answer came here: a few ms late, and not evenly.\n")
	r.write("$end\n$version coilwalk live $end\n$timescale 1 us $end\n$scope module board $end\n")
	for k := range 4 {
		r.write("$var wire 1 %c output%d $end\n", '!'+k, k+1)
	}
	r.write("$upscope $end\n$enddefinitions $end\n#0\n$dumpvars\n0!\n0\"\n0#\n0$\n$end\n")
	r.flush()
	go r.pass()
	return r
}

// plain keeps what would end a comment out of it.
func plain(text string) string {
	return strings.Map(func(c rune) rune {
		if c < ' ' || c == '$' || c == 0x7F {
			return '.'
		}
		return c
	}, text)
}

func (r *Recorder) write(format string, args ...any) {
	if r.err == nil {
		_, err := fmt.Fprintf(r.out, format, args...)
		r.fails(err)
	}
}

func (r *Recorder) flush() { r.fails(r.out.Flush()) }

// fails keeps the first failure.
func (r *Recorder) fails(err error) {
	if err != nil && r.err == nil {
		r.err = fmt.Errorf("the record of the sitting could not be written: %w", files.Bare(err))
	}
}

// Err says why the recording has ended before the sitting; nil while it goes on.
// The link goes on without it.
func (r *Recorder) Err() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.err
}

// pass hands events on, and notes what they say.
func (r *Recorder) pass() {
	defer close(r.events)
	defer func() {
		if fault := recover(); fault != nil {
			_ = r.Link.Halt()
			r.events <- Event{Kind: Lost, Why: fmt.Sprintf("a fault of coilwalk itself: %v", fault)}
		}
	}()
	for e := range r.Link.Events() {
		switch e.Kind {
		case Heard:
			if !r.isOff() {
				r.stands(e.Row, "")
			}
		default:
			r.stands(0, e.Why)
		}
		r.events <- e
	}
}

// stands notes how the outputs stand now, and a word about it.
func (r *Recorder) stands(row Row, word string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if row == r.row && word == "" {
		return
	}
	r.at()
	for k := range 4 {
		if (row^r.row)>>k&1 == 1 {
			r.write("%d%c\n", row>>k&1, '!'+k)
		}
	}
	r.row = row
	if word != "" {
		r.write("$comment %s $end\n", plain(word))
	}
	r.flush()
}

// at writes the time, which never goes back.
func (r *Recorder) at() {
	t := r.now().Sub(r.begun).Microseconds()
	if t > r.last {
		r.last = t
		r.write("#%d\n", t)
	}
}

// Note writes a word into the recording: a question and its answer.
func (r *Recorder) Note(word string) {
	r.mu.Lock()
	row := r.row
	r.mu.Unlock()
	r.stands(row, word)
}

func (r *Recorder) isOff() bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.off
}

// Arm implements Link.
func (r *Recorder) Arm() error {
	r.mu.Lock()
	r.off = false
	r.mu.Unlock()
	return r.Link.Arm()
}

// Halt implements Link.
func (r *Recorder) Halt() error {
	err := r.Link.Halt()
	r.mu.Lock()
	r.off = true
	r.mu.Unlock()
	r.stands(0, "")
	return err
}

// Events implements Link.
func (r *Recorder) Events() <-chan Event { return r.events }

// Close implements Link, and ends the recording. Its error may be the file's.
func (r *Recorder) Close() error {
	err := r.Link.Close()
	r.stands(0, "")
	r.mu.Lock()
	defer r.mu.Unlock()
	r.at()
	r.flush()
	r.fails(r.file.Close())
	if err == nil {
		err = r.err
	}
	return err
}
