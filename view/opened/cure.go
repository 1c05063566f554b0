package opened

import (
	"fmt"

	"coilwalk/model/bench"
	"coilwalk/model/course"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// Cures are the exchanges of two leads that cure a recording and can be put in, by their
// numbers from 1.
func (p *Place) Cures() []course.Swap {
	if p.Verdict == nil {
		return nil
	}
	swaps := p.Verdict.Swaps()
	for _, s := range swaps {
		if _, _, ok := p.Verdict.Cured(s); !ok {
			return nil
		}
	}
	return swaps
}

// Cure puts an exchange of leads in by its number: the bench then walks the rows that were
// recorded, with its leads so. It says what was done; ok is false where there is no such cure.
func (p *Place) Cure(b *bench.Bench, number int) (words string, ok bool) {
	cures := p.Cures()
	if number < 1 || number > len(cures) {
		return "", false
	}
	s := cures[number-1]
	rows, leads, _ := p.Verdict.Cured(s)
	b.SetTable(rows, leads)
	turns := "turn"
	if s.Direction != sequence.Standing {
		turns = "turn " + report.Turning(s.Direction == sequence.Forward)
	}
	return fmt.Sprintf("leads on outputs %d and %d swapped: the rows recorded now %s", s.Outputs[0], s.Outputs[1], turns), true
}

// JudgeAs gives the verdict with the leads as they are on a bench, and takes them for the
// question from now on.
func (r *Recording) JudgeAs(b *bench.Bench, c *course.Course) func() *course.Verdict {
	leads, m := b.Read().Wiring, b.Motor()
	r.Question.Wiring = &leads
	for k := range r.Question.Leads {
		if r.Question.Leads[k] != "" {
			r.Question.Leads[k] = string(m.Output(leads, k))
		}
	}
	q := r.Question
	return func() *course.Verdict {
		v := course.Judge(c, r.Loading.Choice.Outputs, q)
		v.Notes = append(v.Notes, "It is judged with the leads as they are on the bench now: "+report.WiringLine(m, leads)+".")
		return v
	}
}
