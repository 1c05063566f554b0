// Package plain is the line mode: words in, plain words out, one thought a line.
// It is for screen readers and scripts, and needs no screen. It only asks and
// prints: what is true comes from the model, and how it is said from report.
package plain

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/sequence"
	"coilwalk/view/hold"
	"coilwalk/view/opened"
	"coilwalk/view/practice"
	"coilwalk/view/report"
	"coilwalk/view/tour"
)

// longestLine bounds a line of words.
const longestLine = 4096 // bytes

// Sitting is a bench, and what was opened with it.
type Sitting struct {
	Bench     *bench.Bench
	Table     *opened.Table     // the table that is walked; nil without one
	Readings  []wiring.Reading  // of an ohmmeter
	Recording *opened.Recording // nil without one
}

// Mode is a line mode.
type Mode struct {
	Sitting
	Open func(file string) (Sitting, error) // opens another file, or a motor by name
	Live *Live                              // a real motor; nil without one

	place    *opened.Place // in the recording
	symptoms []wiring.Symptom
	sitting  *wiring.Sitting // asking the shaft; nil before that
	named    []motor.Lead    // as the person named them; nil before that
	now      [4]motor.Lead   // on outputs 1 to 4, as far as that is known
	test     *hold.Test      // that is done on a real shaft
	suspects *wiring.Suspects
	judged   sequence.Drive // that the suspects are for
	sheets   sheets
	real     *real
	tour     *tour.Tour        // the walk-through; nil when it is not on
	practice *practice.Sitting // nil when none is on

	source *source
	rest   []string // of a long answer
	out    io.Writer
	err    error
	told   int // answers, so that one knows whether it said anything
}

// Run reads words until the input ends or says quit. An error is one of
// writing or reading; a word that is not understood is answered, and changes
// nothing.
func (m *Mode) Run(in io.Reader, out io.Writer) error {
	m.out = out
	m.source = newSource(in, m.urgent)
	m.newSheets()
	if m.Live != nil {
		m.hold()
	}
	m.begin()
	for m.err == nil {
		line, ok := m.line()
		if !ok {
			break
		}
		words := strings.Fields(line)
		if len(words) == 0 {
			m.blank()
			continue
		}
		words[0] = strings.ToLower(words[0])
		if words[0] == "quit" {
			return m.err
		}
		m.answer(words[0], words[1:])
		m.seen()
	}
	if m.err == nil {
		m.err = m.source.err
	}
	return m.err
}

// begin says what is on the bench.
func (m *Mode) begin() {
	mo := m.Bench.Motor()
	m.say("%s: %s, %d steps a rotor turn.", mo.Title, report.Winding(mo), 4*mo.PolePairs)
	m.say("%s. Say help for the words.", report.Sentence(report.Heading(m.Bench.Read())))
	if mo.OrderGuessed {
		m.say("%s. Say ask, and newmotor FILE once it has.", report.Sentence(motor.GuessedOrder))
	}
	switch {
	case m.Table != nil:
		words, _ := m.Table.Judgement()
		m.say("%s. Say check for the whole of it.", words)
	case m.Recording != nil:
		m.readRecording()
		return
	}
	m.say("%s", report.Step(m.Bench))
	if len(m.Readings) > 0 {
		m.leads(nil)
	}
}

// source gives lines as they come, so that what a real motor says in between can
// be told at once.
type source struct {
	lines chan string
	err   error // why they ended; to be read once lines is closed
}

// newSource reads lines. Each is shown to urgent before anybody has to be ready for
// it, and so is the end, as an empty line.
func newSource(in io.Reader, urgent func(line string)) *source {
	s := &source{lines: make(chan string)}
	go func() {
		defer close(s.lines)
		defer urgent("")
		scan := bufio.NewScanner(in)
		scan.Buffer(make([]byte, 0, longestLine), longestLine)
		for scan.Scan() {
			urgent(scan.Text())
			s.lines <- scan.Text()
		}
		switch err := scan.Err(); {
		case errors.Is(err, bufio.ErrTooLong):
			s.err = fmt.Errorf("a line of words is longer than %d bytes; lines are short, so is it the right file?", longestLine)
		case err != nil:
			s.err = fmt.Errorf("the words could not be read: %w", err)
		}
	}()
	return s
}

// line waits for the next line; false when there is no more.
func (m *Mode) line() (string, bool) {
	if m.real != nil {
		return m.realLine()
	}
	line, ok := <-m.source.lines
	return line, ok
}

// Read gives lines to who wants to read them by himself, one at a time.
func (m *Mode) Read(into []byte) (int, error) {
	line, ok := m.line()
	if !ok {
		return 0, io.EOF
	}
	return copy(into, line+"\n"), nil
}

// urgent switches a real motor off at once, whatever else goes on.
func (m *Mode) urgent(line string) {
	if word := strings.ToLower(strings.TrimSpace(line)); m.Live != nil && (word == "" || word == "off") {
		m.Live.Motor.Off("")
	}
}

// blank is an empty line: with a real motor the quickest way to be safe.
func (m *Mode) blank() {
	if m.real != nil {
		m.off(nil)
	}
}
