package view

import (
	"fmt"

	"coilwalk/view/opened"
	"coilwalk/view/picture"
)

// recordingScreen walks through a recording: the traces, what is wrong in them,
// and the coils and the rotor at the cursor.
type recordingScreen struct {
	opened.Recording
	load loading
	opened.Place

	from   float64
	ticks  float64 // to a cell; 0 for the whole recording in view
	width  int     // cells of the traces as drawn last
	lanes  picture.Lanes
	dial   picture.Dial
	summed string

	down  int  // lines of what is said below that are passed over
	cured bool // a cure was put in: it is judged with the leads of the bench
}

func newRecordingScreen(r opened.Recording) *recordingScreen {
	return &recordingScreen{Recording: r, Place: opened.Begin()}
}

func (r *recordingScreen) name() string { return "Recording" }

// letter is the key that leads here: R leads to Rates.
func (r *recordingScreen) letter() string { return "C" }

func (r *recordingScreen) places() []*place {
	p := newPlace("recording", "on Recording",
		deed{"next", "right l", "next", "go to the next row", func(*Explorer) { r.step(1) }},
		deed{"back", "left h", "back", "go to the row before", func(*Explorer) { r.step(-1) }},
		deed{"next-fault", "n", "fault", "go to the next fault", func(e *Explorer) { r.fault(e, 1) }},
		deed{"fault-before", "p", "", "go to the fault before", func(e *Explorer) { r.fault(e, -1) }},
		deed{"zoom-in", "+ =", "zoom", "show less of the time, and more of the edges", func(*Explorer) { r.zoom(0.5) }},
		deed{"zoom-out", "-", "", "show more of the time", func(*Explorer) { r.zoom(2) }},
		deed{"all", "0", "all", "show the whole recording", func(*Explorer) { r.ticks = 0 }},
		deed{"up", "up k", "choose", "choose a fault of the list, and go to it", func(e *Explorer) { r.choose(e, r.Fault-1) }},
		deed{"down", "down j", "choose", "choose a fault of the list, and go to it", func(e *Explorer) { r.choose(e, r.Fault+1) }},
		deed{"read-on", "d", "", "read on in what is said below, or back", func(*Explorer) { r.down += 4 }},
		deed{"read-back", "u", "", "read on in what is said below, or back", func(*Explorer) { r.down -= 4 }},
		deed{"go", "g", "go to", "go to a time, as 1.25s, or to a row, as 201", func(e *Explorer) {
			e.asks("go to a time, as 1.25s, or to a row by its number:", "", r.goTo)
		}},
		deed{"next-edge", ".", "", "go to the next edge or the one before, glitches too", func(*Explorer) { r.to(r.Row + 1) }},
		deed{"edge-before", ",", "", "go to the next edge or the one before, glitches too", func(*Explorer) { r.to(r.Row - 1) }},
		deed{"page-back", "pgup", "", "a screenful back or on", func(*Explorer) { r.to(r.Course.Find(r.tick(r.column() - float64(r.width)))) }},
		deed{"page-on", "pgdown", "", "a screenful back or on", func(*Explorer) { r.to(r.Course.Find(r.tick(float64(r.width) + r.column()))) }},
		deed{"first", "home", "", "to the ends of the recording", func(*Explorer) { r.to(0) }},
		deed{"last", "end", "", "to the ends of the recording", func(*Explorer) { r.to(r.Course.Len() - 1) }},
		deed{"end-reading", "c", "", "end the reading, or running the motor; what there is stays", func(*Explorer) { r.end() }},
		deed{"mark-a", "a", "mark", "set mark A here", func(*Explorer) { r.MarkA = r.Row }},
		deed{"mark-b", "b", "", "set mark B here, and the time between is told", func(*Explorer) { r.MarkB = r.Row }})
	p.drops = func(word string) bool { return word != "end-reading" && (r.Course == nil || r.Course.Len() == 0) }
	p.Typed, p.typed = "123456789", func(e *Explorer, key string) { r.cure(e, int(key[0]-'0')) }
	p.first = func() (hints []hint) {
		for i, s := range r.Cures() {
			a, b := s.Outputs[0], s.Outputs[1]
			hints = append(hints, hint{fmt.Sprint(i + 1), fmt.Sprintf("swap %d %d", a, b), fmt.Sprintf("cure: swap the leads on outputs %d and %d, and walk what was recorded", a, b)})
		}
		return hints
	}
	return []*place{p}
}

// step goes to the next row, or the one before.
func (r *recordingScreen) step(by int) {
	r.Step(by)
	r.follow()
}

func (r *recordingScreen) to(row int) {
	r.To(row)
	r.follow()
}

// fault goes to the next fault in time, or to the one before.
func (r *recordingScreen) fault(e *Explorer, way int) {
	at := -1
	if r.Verdict != nil {
		at = r.Nearest(way)
	}
	if at < 0 {
		words := "no fault after this"
		if way < 0 {
			words = "no fault before this"
		}
		e.notice = advice(words)
		return
	}
	r.choose(e, at)
}

// choose goes to a fault of the list.
func (r *recordingScreen) choose(e *Explorer, at int) {
	if !r.Choose(at) {
		return
	}
	e.notice, r.down = notice{}, 0
	if few := rowsInView * r.typical(); r.ticks == 0 || r.ticks*float64(r.width) > 4*few {
		r.ticks = few / float64(max(r.width, 1)) // near enough to see the rows
	}
	r.from = float64(r.Verdict.Faults[at].At) - r.ticks*float64(r.width)/2
}

// rowsInView is how many rows are shown about a fault that is gone to.
const rowsInView = 24

// typical gives the ticks of a row near the cursor.
func (r *recordingScreen) typical() float64 {
	from, to := max(0, r.Row-8), min(r.Course.Len()-1, r.Row+8)
	if to <= from {
		return float64(max(1, r.Course.Until-r.Course.First))
	}
	return max(1, float64(r.Course.Row(to).At-r.Course.Row(from).At)/float64(to-from))
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
	r.from = float64(r.Course.Row(r.Row).At) - column*next
	r.follow()
}

// leastTicks of a cell: two edges of one tick are still told apart.
const leastTicks = 1.0 / 8

// span gives the ticks of the whole recording.
func (r *recordingScreen) span() float64 {
	return max(1, float64(r.Course.Until-r.Course.First)*1.001)
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
		return float64(r.Course.First)
	}
	return r.from
}

// column gives where the cursor stands, in cells from the left edge.
func (r *recordingScreen) column() float64 {
	return (float64(r.Course.Row(r.Row).At) - r.start()) / r.scale()
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
		r.from = float64(r.Course.Row(r.Row).At) - w/2*r.ticks
	}
}

// goTo goes to a time or a row.
func (r *recordingScreen) goTo(text string) error {
	err := r.Go(text)
	r.follow()
	return err
}
