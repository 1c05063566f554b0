package plain

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"coilwalk/model/course"
	"coilwalk/model/rotor"
	"coilwalk/view/opened"
	"coilwalk/view/report"
)

func recordingWords() []word {
	return []word{
		{"recording", "", "say what the recording that was opened shows", in((*Mode).recorded)},
		{"later", "[N]", "go to the next row of the recording", in(func(m *Mode, args []string) { m.stride(args, 1, m.place.Step) })},
		{"earlier", "[N]", "go to the row before", in(func(m *Mode, args []string) { m.stride(args, -1, m.place.Step) })},
		{"edge", "[N]", "go to the next edge, glitches too; edge -1 to the one before", in(func(m *Mode, args []string) {
			m.stride(args, 1, func(by int) { m.place.To(m.place.Row + by) })
		})},
		{"row", "N|first|last", "go to a row by its number, or to the ends", in((*Mode).row)},
		{"time", "T", "go to a time, as: time 1.25s", in((*Mode).row)},
		{"here", "", "say what is there: the row, when, the levels, the coils, and the rotor", in(func(m *Mode, _ []string) { m.here() })},
		{"findings", "", "list what is wrong in the recording", in((*Mode).findings)},
		{"finding", "[next|before|N]", "go to what is wrong: the next in time, the one before, or by its number", in((*Mode).finding)},
		{"runs", "", "list the runs and pauses, with their rates", in((*Mode).runs)},
		{"mark", "a|b", "set a mark here; with both, the time between them is told", in((*Mode).mark)},
	}
}

// in does something in a recording, where one was opened.
func in(do func(m *Mode, args []string)) func(m *Mode, args []string) {
	return func(m *Mode, args []string) {
		switch {
		case m.place == nil:
			m.say("No recording was opened. Say open and its file, as: open pins.vcd.")
		case m.place.Course.Len() == 0:
			m.say("No output changes in the whole recording.")
		default:
			do(m, args)
		}
	}
}

// readRecording reads the rows, judges them, and runs the motor along them.
func (m *Mode) readRecording() {
	r := m.Recording
	defer r.Close()
	m.place = nil
	ctx := context.Background()
	rows, err := r.Loading.Rows(ctx, nil)
	if err != nil {
		m.fail(err)
		return
	}
	m.takeVerdict(ctx, rows, course.Judge(rows, r.Loading.Choice.Outputs, r.Question))
}

// takeVerdict takes a verdict on the rows, and runs the motor along them.
func (m *Mode) takeVerdict(ctx context.Context, rows *course.Course, v *course.Verdict) {
	r, p := m.Recording, opened.Begin()
	if r.Machine != nil && rows.Len() > 0 {
		var ride *course.Ride
		if r.Whole || rows.Whole() {
			ride = course.NewRide(v, &r.Machine.Plant)
			if err := ride.Run(ctx, rows.Len()); err != nil {
				m.fail(err)
				return
			}
			p.Ride, p.Rider = ride, rotor.NewMotion(&r.Machine.Plant)
		}
		var err error
		if v, err = v.With(ctx, r.Machine, ride); err != nil {
			m.fail(err)
			return
		}
	}
	p.Judged(v, r.Source)
	m.place = &p
	m.say("%s: %s.", r.File, p.Answer.Judgement())
	if p.Course.Len() > 0 {
		m.say("%s rows in %s. Say findings, runs, or later to go through it.", report.Count(p.Answer.Rows), report.Lasting(p.Answer.ToS-p.Answer.FromS))
		m.here()
	}
}

// cureRecording swaps leads as a cure of the recording says, and judges it so.
func (m *Mode) cureRecording(number int) {
	cures := m.place.Cures()
	words, ok := m.place.Cure(m.Bench, number)
	switch {
	case !ok && len(cures) == 0:
		m.say("There is no cure to put in: finding says what to do for each.")
	case !ok:
		m.say("The number of a swap of leads is wanted, 1 to %d:", len(cures))
		for i, s := range cures {
			m.say("%d: the leads on outputs %d and %d", i+1, s.Outputs[0], s.Outputs[1])
		}
	default:
		m.say("%s. Say run.", report.Sentence(words))
		m.where()
		rows := m.place.Course
		m.takeVerdict(context.Background(), rows, m.Recording.JudgeAs(m.Bench, rows)())
	}
}

// recorded says all of it but what has a word of its own.
func (m *Mode) recorded([]string) {
	m.say("%s", m.place.Answer.Summary())
}

// stride goes some rows on with a step.
func (m *Mode) stride(args []string, way int, step func(by int)) {
	n := 1
	if len(args) > 0 {
		var err error
		if n, err = strconv.Atoi(args[0]); err != nil || n == 0 || len(args) > 1 || max(n, -n) > math.MaxInt32 {
			m.say("A whole number of rows is wanted.")
			return
		}
	}
	before := m.place.Row
	step(way * n)
	if m.place.Row == before {
		m.say("That is the end of the recording.")
	}
	m.here()
}

func (m *Mode) row(args []string) {
	switch strings.Join(args, " ") {
	case "first":
		m.place.To(0)
	case "last":
		m.place.To(m.place.Course.Len() - 1)
	default:
		if err := m.place.Go(strings.Join(args, " ")); err != nil {
			m.fail(err)
			return
		}
	}
	m.here()
}

// here says what is at the place in the recording.
func (m *Mode) here() {
	p := m.place
	m.say("%s.", strings.Join(p.Moment(), ", "))
	var levels []string
	for k, name := range p.Verdict.Channels {
		levels = append(levels, fmt.Sprintf("%s %d", name, p.Course.Row(p.Row).Levels>>k&1))
	}
	m.say("Levels: %s.", strings.Join(levels, ", "))
	m.say("%s.", strings.Join(p.On(m.Recording.Motor), ", "))
	if at := p.Rotor(); at.Known {
		words, _ := p.Lag(at)
		m.say("%s.", words)
	}
}

func (m *Mode) findings([]string) {
	p := m.place
	if len(p.Answer.Faults) == 0 {
		name := ""
		if m.Recording.Machine != nil {
			name = m.Recording.Machine.Name
		}
		m.say("%s", p.Clean(name))
	}
	for i, f := range p.Answer.Faults {
		if i == mostRows {
			m.say("and %d more.", len(p.Answer.Faults)-i+p.Answer.MoreFaults)
			return
		}
		m.say("%d: %s, row %s, at %s.", i+1, kind(f), report.Count(f.Row), report.Clock(f.TimeS))
	}
	for _, n := range p.Answer.Notes {
		m.say("note: %s", n)
	}
}

func kind(f report.ReadFault) string {
	if f.Caution {
		return f.Kind + " (a caution)"
	}
	return f.Kind
}

// finding goes to a fault, and says all of it.
func (m *Mode) finding(args []string) {
	p := m.place
	at := -1
	switch what := firstOf(args); what {
	case "", "next":
		at = p.Nearest(1)
	case "before":
		at = p.Nearest(-1)
	default:
		n, err := strconv.Atoi(what)
		if at = n - 1; err != nil || at < 0 || at >= len(p.Answer.Faults) {
			m.say("next, before, or a number from the list of findings is wanted; it has %d.", len(p.Answer.Faults))
			return
		}
	}
	if !p.Choose(at) {
		if firstOf(args) == "before" {
			m.say("There is no fault before this.")
		} else {
			m.say("There is no fault after this.")
		}
		return
	}
	f := p.Answer.Faults[at]
	m.say("%d: %s: %s", at+1, kind(f), p.Answer.Aloud(f.Text))
	if f.Cure != "" {
		m.say("Cure: %s", p.Answer.Aloud(f.Cure))
	}
	if f.Cause != "" {
		m.say("Usually: %s", f.Cause)
	}
	m.here()
}

func (m *Mode) runs([]string) {
	for _, line := range report.RunWords(m.place.Answer) {
		m.say("%s", line)
	}
}

func (m *Mode) mark(args []string) {
	switch firstOf(args) {
	case "a":
		m.place.MarkA = m.place.Row
	case "b":
		m.place.MarkB = m.place.Row
	default:
		m.say("mark a, or mark b.")
		return
	}
	if between := m.place.Between(); between != "" {
		m.say("%s.", between)
		return
	}
	m.say("Mark %s is at %s.", args[0], strings.Join(m.place.Moment()[:2], ", "))
}
