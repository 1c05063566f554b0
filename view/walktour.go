package view

import (
	"fmt"
	"strings"

	"coilwalk/view/picture"
	"coilwalk/view/tour"
)

// tourPlace is the keys of the walk-through. All others go on as they do.
func (w *walk) tourPlace() *place {
	p := newPlace("tour", "on Walk, in the walk-through",
		deed{"leave", "esc", "leave, on", "leave the walk-through, or go on to its next note", func(*Explorer) { w.tour = nil }},
		deed{"next-note", "pgdown", "leave, on", "leave the walk-through, or go on to its next note", func(e *Explorer) {
			if !w.tour.Skip(e.bench) {
				w.tour = nil
			}
		}})
	p.With, p.when = []string{"walk"}, func() bool { return w.tour != nil && w.practised == nil }
	return p
}

// beginTour starts the walk-through, or starts it again.
func (w *walk) beginTour(e *Explorer) {
	e.notice = notice{}
	w.tour = tour.Begin(e.bench)
}

// watch sees whether the learner did what the note asks for.
func (w *walk) watch(e *Explorer) {
	if w.tour != nil && w.practised == nil {
		w.tour.Look(e.bench)
	}
}

// drawTour draws the note where else the order stands: none speaks of that but
// the last.
func (w *walk) drawTour(e *Explorer, g *picture.Grid, p layout) {
	n, s, place := w.tour.At()
	title := fmt.Sprintf("first steps, %d of %d: %s", place, len(tour.All()), n.Title)
	ways := "{tour.leave} leaves, {tour.next-note} next note"
	if w.tour.Last() {
		ways = "{tour.leave} leaves"
	}
	y := panel(g, p, title, e.keyed(ways))
	for _, part := range []struct {
		words string
		style picture.Style
	}{{s.Shows, picture.In(picture.Text)}, {s.Press, picture.Loud(picture.Current)}} {
		for _, line := range e.panelLines(part.words) {
			g.WriteWithin(1, y, g.W-2, line, part.style)
			y++
		}
	}
}

// panelLines breaks words into the lines of the panel, keys and degrees spelt as
// they will be shown.
func (e *Explorer) panelLines(words string) []string {
	if words = e.keyed(words); e.ASCII {
		words = strings.ReplaceAll(words, "°", " deg")
	}
	return wrap(words, e.grid.W-2)
}

// panel draws the head of what stands in place of the order, and gives the line
// below it.
func panel(g *picture.Grid, p layout, title, right string) (y int) {
	g.Line(0, p.tracesY, g.W, '─', picture.In(picture.Faint))
	g.Write(1, p.tracesY, " "+title+" ", picture.Loud(picture.Strong))
	g.WriteEnd(g.W-1, p.tracesY, " "+right+" ", picture.In(picture.Faint))
	return p.tracesY + 1
}
