package opened

import (
	"fmt"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/view/report"
)

// Step goes to the next row, or the one before: excursions of a glitch and
// outputs off between runs are passed over.
func (p *Place) Step(by int) {
	if p.Verdict == nil {
		p.To(p.Row + by)
		return
	}
	n := p.Verdict.Numbers
	to := n.Row(n.Of(p.Row) + int64(by))
	if by < 0 && n.Row(n.Of(p.Row)) < p.Row { // it stands on none: back to the row that was
		to = n.Row(n.Of(p.Row))
	}
	p.To(to)
}

// To goes to a row of the course, or the nearest there is.
func (p *Place) To(row int) { p.Row = max(0, min(row, p.Course.Len()-1)) }

// Nearest gives the next fault in time, or the one before; −1 where there is none.
func (p *Place) Nearest(way int) int {
	best := -1
	for i, fault := range p.Verdict.Faults[:len(p.Answer.Faults)] {
		here := p.Course.Row(p.Row).At
		ahead := fault.At > here || fault.At == here && p.Fault < 0 // the first may be where it stands
		if (way > 0 && ahead || way < 0 && fault.At < here) && (best < 0 || (fault.At < p.Verdict.Faults[best].At) == (way > 0)) {
			best = i
		}
	}
	return best
}

// Choose goes to a fault by its place in the list; false where there is none.
func (p *Place) Choose(at int) bool {
	if at < 0 || at >= len(p.Answer.Faults) {
		return false
	}
	p.Fault = at
	p.Row = max(0, p.Course.Find(p.Verdict.Faults[at].At))
	return true
}

// Go goes to a time or a row, as a person names them.
func (p *Place) Go(text string) error {
	text = strings.ToLower(strings.TrimSpace(text))
	if number, err := strconv.ParseInt(strings.TrimPrefix(text, "row "), 10, 64); err == nil {
		if number < 1 {
			return fmt.Errorf("rows count from 1")
		}
		if p.Verdict == nil {
			p.To(int(number) - 1)
			return nil
		}
		if number > p.Verdict.Rows() {
			return fmt.Errorf("it has %s rows", report.Count(p.Verdict.Rows()))
		}
		p.To(p.Verdict.Numbers.Row(number))
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
			at := p.Course.Ticks(v * u.times)
			if at < p.Course.First || at > p.Course.Until {
				return fmt.Errorf("it lasts from %s to %s", report.Clock(p.Course.Seconds(p.Course.First)), report.Clock(p.Course.Seconds(p.Course.Until)))
			}
			p.To(p.Course.Find(at))
			return nil
		}
	}
	return fmt.Errorf("%s is no time and no row; 1.25s, 40ms, 3min or 201 is wanted", files.Quoted(text))
}
