package view

import (
	"fmt"
	"strconv"
	"strings"

	"coilwalk/model/course"
	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// Recorded is a recording that was opened with the explorer. Its rows are read
// beside the screen.
type Recorded struct {
	File     string
	Source   report.Recorded
	Loading  *course.Loading
	Question course.Question
	Motor    *motor.Motor  // that the person named; nil without
	Machine  *course.Motor // the same, to be run along the rows; nil where it can not
	Whole    bool          // run it along all rows, however many
	Close    func()        // lets the file go
}

// recordingScreen walks through a recording: the traces, what is wrong in them,
// and the coils and the rotor at the cursor.
type recordingScreen struct {
	Recorded
	load    loading
	course  *course.Course
	verdict *course.Verdict
	answer  report.Read        // the verdict in words
	faults  []report.ReadFault // of it
	ride    *course.Ride       // as far as it has been run
	rider   *rotor.Motion      // runs it again from a mark to the cursor

	row    int // of the course, at the cursor
	at     int // the fault chosen; −1 for none
	from   float64
	ticks  float64 // to a cell; 0 for the whole recording in view
	markA  int     // rows; −1 for none
	markB  int
	width  int // cells of the traces as drawn last
	lanes  picture.Lanes
	dial   picture.Dial
	shown  shownRotor
	summed string
}

// shownRotor is where the rotor was found to be at a row; finding it takes a
// moment, so it is kept.
type shownRotor struct {
	row, ridden int
	deg         float64
	turned      float64 // degrees electrical, from where it began
	known       bool
}

func newRecordingScreen(r Recorded) *recordingScreen {
	return &recordingScreen{Recorded: r, at: -1, markA: -1, markB: -1, shown: shownRotor{row: -1}}
}

func (r *recordingScreen) name() string { return "Recording" }

// letter is the key that leads here: R leads to Rates.
func (r *recordingScreen) letter() string { return "C" }

func (r *recordingScreen) keys() []hint {
	return []hint{
		{"→", "next", "go to the next row"}, {"←", "back", "go to the row before"},
		{"n", "fault", "go to the next fault"}, {"p", "", "go to the fault before"},
		{"+", "zoom", "show less of the time, and more of the edges; - shows more of the time"}, {"0", "all", "show the whole recording"},
		{"↑↓", "choose", "choose a fault of the list, and go to it"},
		{"g", "go to", "go to a time, as 1.25s, or to a row, as 201"},
		{".", "", "go to the next edge, glitches too; , goes to the one before"},
		{"pgdn", "", "a screenful on; pgup, one back; home and end go to the ends"},
		{"c", "", "end the reading, or the running of the motor; what there is so far stays"},
		{"a", "mark", "set mark A here; b sets mark B, and the time between is told"},
		{"space", "", "stop; always, and only that"},
	}
}

func (r *recordingScreen) key(e *Explorer, key string) bool {
	if key == "c" {
		r.end()
		return true
	}
	if r.course == nil || r.course.Len() == 0 {
		return false
	}
	switch key {
	case "right", "l":
		r.step(1)
	case "left", "h":
		r.step(-1)
	case ".":
		r.to(r.row + 1)
	case ",":
		r.to(r.row - 1)
	case "pgdown":
		r.to(r.course.Find(r.tick(float64(r.width) + r.column())))
	case "pgup":
		r.to(r.course.Find(r.tick(r.column() - float64(r.width))))
	case "home":
		r.to(0)
	case "end":
		r.to(r.course.Len() - 1)
	case "n":
		r.fault(e, 1)
	case "p":
		r.fault(e, -1)
	case "down", "j":
		r.choose(e, r.at+1)
	case "up", "k":
		r.choose(e, r.at-1)
	case "+", "=":
		r.zoom(0.5)
	case "-":
		r.zoom(2)
	case "0":
		r.ticks = 0
	case "a":
		r.markA = r.row
	case "b":
		r.markB = r.row
	case "g":
		e.asks("go to a time, as 1.25s, or to a row by its number:", "", r.goTo)
	default:
		return false
	}
	return true
}

// step goes to the next row, or the one before: excursions of a glitch and
// outputs off between runs are passed over.
func (r *recordingScreen) step(by int) {
	if r.verdict == nil {
		r.to(r.row + by)
		return
	}
	n := r.verdict.Numbers
	to := n.Row(n.Of(r.row) + int64(by))
	if by < 0 && n.Row(n.Of(r.row)) < r.row { // it stands on none: back to the row that was
		to = n.Row(n.Of(r.row))
	}
	r.to(to)
}

func (r *recordingScreen) to(row int) {
	r.row = max(0, min(row, r.course.Len()-1))
	r.follow()
}

// fault goes to the next fault in time, or to the one before.
func (r *recordingScreen) fault(e *Explorer, way int) {
	best := -1
	for i := range r.faults {
		f := r.verdict.Faults[i].At
		here := r.course.Row(r.row).At
		ahead := f > here || f == here && r.at < 0 // the first may be where it stands
		if (way > 0 && ahead || way < 0 && f < here) && (best < 0 || (f < r.verdict.Faults[best].At) == (way > 0)) {
			best = i
		}
	}
	if best < 0 {
		words := "no fault after this"
		if way < 0 {
			words = "no fault before this"
		}
		e.notice = advice(words)
		return
	}
	r.choose(e, best)
}

// choose goes to a fault of the list.
func (r *recordingScreen) choose(e *Explorer, at int) {
	if at < 0 || at >= len(r.faults) {
		return
	}
	r.at, e.notice = at, notice{}
	f := r.verdict.Faults[at]
	r.row = max(0, r.course.Find(f.At))
	if few := rowsInView * r.typical(); r.ticks == 0 || r.ticks*float64(r.width) > 4*few {
		r.ticks = few / float64(max(r.width, 1)) // near enough to see the rows
	}
	r.from = float64(f.At) - r.ticks*float64(r.width)/2
}

// rowsInView is how many rows are shown about a fault that is gone to.
const rowsInView = 24

// typical gives the ticks of a row near the cursor.
func (r *recordingScreen) typical() float64 {
	from, to := max(0, r.row-8), min(r.course.Len()-1, r.row+8)
	if to <= from {
		return float64(max(1, r.course.Until-r.course.First))
	}
	return max(1, float64(r.course.Row(to).At-r.course.Row(from).At)/float64(to-from))
}

// zoom changes how much time a cell stands for, about the cursor.
func (r *recordingScreen) zoom(by float64) {
	all := r.span()
	was := r.scale()
	column := r.column()
	next := was * by
	if next*float64(r.width) >= all {
		r.ticks = 0
		return
	}
	if by < 1 && next < leastTicks {
		next = leastTicks
	}
	r.ticks = next
	r.from = float64(r.course.Row(r.row).At) - column*next
	r.follow()
}

// leastTicks of a cell: two edges of one tick are still told apart.
const leastTicks = 1.0 / 8

// span gives the ticks of the whole recording.
func (r *recordingScreen) span() float64 {
	return max(1, float64(r.course.Until-r.course.First)*1.001)
}

// scale gives the ticks of a cell.
func (r *recordingScreen) scale() float64 {
	if r.ticks > 0 {
		return r.ticks
	}
	return r.span() / float64(max(r.width, 1))
}

// start gives the tick of the left edge.
func (r *recordingScreen) start() float64 {
	if r.ticks == 0 {
		return float64(r.course.First)
	}
	return r.from
}

// column gives where the cursor stands, in cells from the left edge.
func (r *recordingScreen) column() float64 {
	return (float64(r.course.Row(r.row).At) - r.start()) / r.scale()
}

// tick gives the time of a column.
func (r *recordingScreen) tick(column float64) int64 {
	return int64(r.start() + column*r.scale())
}

// follow scrolls so that the cursor is in view.
func (r *recordingScreen) follow() {
	if r.ticks == 0 {
		return
	}
	w := float64(max(r.width, 1))
	if c := r.column(); c < 0.05*w || c > 0.95*w {
		r.from = float64(r.course.Row(r.row).At) - w/2*r.ticks
	}
}

// goTo goes to a time or a row.
func (r *recordingScreen) goTo(text string) error {
	text = strings.ToLower(strings.TrimSpace(text))
	if number, err := strconv.ParseInt(strings.TrimPrefix(text, "row "), 10, 64); err == nil {
		if number < 1 {
			return fmt.Errorf("rows count from 1")
		}
		if r.verdict == nil {
			r.to(int(number) - 1)
			return nil
		}
		if number > r.verdict.Rows() {
			return fmt.Errorf("it has %s rows", report.Count(r.verdict.Rows()))
		}
		r.to(r.verdict.Numbers.Row(number))
		return nil
	}
	units := []struct {
		name  string
		times float64
	}{{"ms", 1e-3}, {"us", 1e-6}, {"µs", 1e-6}, {"min", 60}, {"h", 3600}, {"s", 1}}
	for _, u := range units {
		if number, ok := strings.CutSuffix(text, u.name); ok {
			v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
			if err != nil {
				break
			}
			at := r.course.Ticks(v * u.times)
			if at < r.course.First || at > r.course.Until {
				return fmt.Errorf("it lasts from %s to %s", report.Clock(r.course.Seconds(r.course.First)), report.Clock(r.course.Seconds(r.course.Until)))
			}
			r.to(r.course.Find(at))
			return nil
		}
	}
	return fmt.Errorf("%q is no time and no row; 1.25s, 40ms, 3min or 201 is wanted", text)
}
