package view

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// tracesX is where the traces begin, behind their labels.
const tracesX = 9

// draw draws the recording: what it is, its traces, and below them what is wrong
// and what the coils do at the cursor.
func (r *recordingScreen) draw(e *Explorer, g *picture.Grid) {
	r.width = g.W - tracesX - 1
	if r.Verdict == nil {
		r.Course = r.load.rows.Load()
	}
	r.drawHead(g)
	if r.Course == nil || r.Course.Len() == 0 {
		words := "nothing has been read yet"
		switch {
		case r.load.failed != nil:
			words = r.load.failed.Error()
		case r.Verdict != nil:
			words = "no output changes in the whole recording"
		}
		for i, line := range wrap(words, g.W-4) {
			g.Write(2, 5+i, line, picture.In(picture.Text))
		}
		r.drawMessage(e, g)
		return
	}
	r.Row = min(r.Row, r.Course.Len()-1)
	r.lanes.Tall = g.H >= 30
	y := r.drawTraces(g, 3)
	y = r.drawCursor(g, y)
	r.drawFaults(e, g, y, r.drawMotor(e, g, y))
	r.drawMessage(e, g)
}

func (r *recordingScreen) drawMessage(e *Explorer, g *picture.Grid) {
	switch {
	case e.ask != nil:
	case e.notice.words == "" && r.Motor == nil && r.Verdict != nil:
		words := "Judged without a motor. Opened with --motor and its name, its leads are judged too."
		g.WriteWithin(1, g.H-2, g.W-2, words, picture.In(picture.Faint))
	default:
		g.WriteWithin(1, g.H-2, g.W-2, e.said(), picture.Loud(e.notice.ink))
	}
}

func (r *recordingScreen) drawHead(g *picture.Grid) {
	x := g.WriteWithin(1, 2, g.W/2, r.File, picture.Loud(picture.Strong))
	right := r.progress()
	if right == "" && r.Verdict != nil {
		ink := picture.Good
		if !r.Verdict.Sound {
			ink = picture.Alert
		}
		g.WriteEnd(g.W-1, 2, r.summed, picture.Loud(ink))
		right = r.summed
	} else {
		g.WriteEnd(g.W-1, 2, right, picture.Loud(picture.Current))
	}
	if r.Course != nil {
		rows := int64(r.Course.Len())
		if r.Verdict != nil {
			rows = r.Verdict.Rows()
		}
		words := fmt.Sprintf("  %s, %s rows", report.Lasting(r.Course.Seconds(r.Course.Until-r.Course.First)), report.Count(rows))
		g.WriteWithin(x, 2, g.W-2-x-picture.Width(right), words, picture.In(picture.Faint))
	}
}

// drawTraces draws runs, faults and the four outputs over time, and gives the
// line below them.
func (r *recordingScreen) drawTraces(g *picture.Grid, y int) int {
	r.fillLanes()
	cursor := int(math.Floor(r.column()))
	r.lanes.Cursor = cursor
	if cursor < 0 || cursor >= r.width {
		r.lanes.Cursor = -1
	}
	r.drawRuns(g, y)
	r.drawMarks(g, y+1)
	r.lanes.Draw(g, tracesX, y+2)
	y += 2 + r.lanes.Height()
	g.Line(tracesX, y, r.width, '─', picture.In(picture.Faint))
	left, right := report.Clock(r.Course.Seconds(r.tick(0))), report.Clock(r.Course.Seconds(r.tick(float64(r.width))))
	g.Write(tracesX, y, left+" ", picture.In(picture.Faint))
	g.WriteEnd(tracesX+r.width, y, " "+right, picture.In(picture.Faint))
	each := " " + report.Lasting(r.Course.Seconds(1)*r.scale()) + " a column "
	if room := r.width - picture.Width(left) - picture.Width(right); room > picture.Width(each)+4 {
		g.Write(tracesX+picture.Width(left)+(room-picture.Width(each))/2, y, each, picture.In(picture.Faint))
	}
	return y + 1
}

// fillLanes says what each output does within each cell.
func (r *recordingScreen) fillLanes() {
	if len(r.lanes.Lines) == 0 {
		r.lanes.Lines = make([]picture.Lane, 4)
	}
	for k := range r.lanes.Lines {
		l := &r.lanes.Lines[k]
		l.Label, l.Ink = r.Loading.Choice.Outputs[k], picture.Text
		if r.Motor != nil && r.Verdict != nil {
			base, _ := r.Motor.Ends[r.Verdict.Taken[k]].Colours()
			l.Ink = picture.LeadInk(base.Code)
		}
		if cap(l.Cells) < r.width {
			l.Cells = make([]picture.Stretch, r.width)
		}
		l.Cells = l.Cells[:r.width]
	}
	for x := range r.width {
		r.fillCell(x)
	}
}

// mostEdges in a cell are looked at; with more, all that move are dense.
const mostEdges = 12

func (r *recordingScreen) fillCell(x int) {
	from, to := r.start()+float64(x)*r.scale(), r.start()+float64(x+1)*r.scale()
	first := r.Course.Find(int64(math.Ceil(from)) - 1) // what holds before the cell
	last := r.Course.Find(int64(math.Ceil(to)) - 1)
	if last < 0 || from > float64(r.Course.Until) {
		for k := range r.lanes.Lines {
			r.lanes.Lines[k].Cells[x] = picture.Blank
		}
		return
	}
	before := r.Course.Row(max(first, 0))
	var edges [4]int
	for i := max(first, 0) + 1; i <= last && i <= first+mostEdges; i++ {
		for k, moved := 0, r.Course.Row(i).Levels^r.Course.Row(i-1).Levels; k < 4; k++ {
			edges[k] += int(moved >> k & 1)
		}
	}
	after := r.Course.Row(last)
	for k := range r.lanes.Lines {
		cell := &r.lanes.Lines[k].Cells[x]
		was, is := before.Levels>>k&1, after.Levels>>k&1
		switch {
		case after.Flags != 0:
			*cell = picture.Unsure
		case edges[k] == 0 && is == 1:
			*cell = picture.High
		case edges[k] == 0:
			*cell = picture.Low
		case edges[k] > 3 || last > first+mostEdges:
			*cell = picture.Dense
		case edges[k] == 1 && was == 0:
			*cell = picture.Rise
		case edges[k] == 1:
			*cell = picture.Fall
		default:
			*cell = picture.Pulse
		}
	}
}

// cell gives the column of a tick, and whether it is in view.
func (r *recordingScreen) cell(at int64) (x int, in bool) {
	x = int(math.Floor((float64(at) - r.start()) / r.scale()))
	return x, x >= 0 && x < r.width
}

// drawRuns names the runs in view over their length.
func (r *recordingScreen) drawRuns(g *picture.Grid, y int) {
	if r.Verdict == nil {
		return
	}
	runs := r.Verdict.Runs
	first := sort.Search(len(runs), func(i int) bool { return runs[i].To >= r.tick(0) })
	for i := first; i < len(runs) && runs[i].From <= r.tick(float64(r.width)); i++ {
		run := runs[i]
		from, _ := r.cell(run.From)
		to, _ := r.cell(run.To)
		from, to = max(0, from), min(r.width-1, to)
		g.Line(tracesX+from, y, to-from+1, '─', picture.In(picture.Faint))
		words := []string{run.Mode}
		if run.Direction != sequence.Standing {
			words = append(words, run.Direction.String())
		}
		if run.Median > 0 {
			words = append(words, report.PerSecond(run.Median)+"/s")
		}
		for n := len(words); n > 0; n-- {
			text := " " + strings.Join(words[:n], " ") + " "
			if room := to - from + 1 - picture.Width(text); room >= 2 {
				g.Write(tracesX+from+room/2, y, text, picture.In(picture.Text))
				break
			}
		}
	}
}

// drawMarks shows where faults are, and the marks A and B.
func (r *recordingScreen) drawMarks(g *picture.Grid, y int) {
	if r.Verdict != nil {
		for i, f := range r.Verdict.Faults {
			x, in := r.cell(f.At)
			if !in {
				continue
			}
			mark, style := '!', picture.In(picture.Alert)
			if i == r.Fault {
				mark, style = '▼', picture.Loud(picture.Alert)
			}
			g.Set(tracesX+x, y, mark, style)
		}
	}
	for _, m := range []struct {
		row  int
		name rune
	}{{r.MarkA, 'A'}, {r.MarkB, 'B'}} {
		if m.row < 0 || m.row >= r.Course.Len() {
			continue
		}
		if x, in := r.cell(r.Course.Row(m.row).At); in {
			g.Set(tracesX+x, y, m.name, picture.Loud(picture.Current))
		}
	}
}
