package view

import (
	"strings"

	"coilwalk/view/picture"
	"coilwalk/view/report"
)

// drawRanked draws what explains what was told.
func (f *faultScreen) drawRanked(e *Explorer, g *picture.Grid, x, y, w, h int) {
	end := y + h
	write := func(indent int, lines []string, style picture.Style) {
		for _, line := range lines {
			if y < end {
				g.WriteWithin(x+indent, y, w-indent, line, style)
			}
			y++
		}
	}
	say := func(indent int, words string, style picture.Style) { write(indent, wrap(words, w-indent), style) }
	if f.waits {
		say(0, "weighing every fault …", picture.In(picture.Faint))
		return
	}
	if t := e.opened(); t != nil && !t.Verdict().Sound && !t.Mended(e.bench) {
		say(0, e.keyed("The table that is open is not sound: look there first ({anywhere.table}). Here its rows are not run."), picture.Loud(picture.Alert))
	}
	if f.judged == nil {
		say(0, report.Sentence(f.faults[f.at].Text(e.bench.Motor()))+".", picture.Loud(picture.Strong))
		say(0, e.keyed("Put a fault in and look at it on Walk ({anywhere.walk}). Or tell what your own motor does: {faults.trials} and {faults.do}; {faults.mine} takes it from the model."), picture.In(picture.Text))
		return
	}
	say(0, "what explains it", picture.In(picture.Faint))
	next := f.next(e, w)
	table := f.unread(e, w)
	cure, others := f.explained(e, w-8, end-y-len(next)-len(table))
	for i, d := range f.judged.Ranked[:len(others)+1] {
		style, lines := picture.Loud(picture.Strong), wrap(d.Text, w-8)
		if i > 0 {
			style, lines = picture.In(picture.Text), others[i-1]
		}
		g.Write(x, y, shortPercent(d.Odds), style)
		write(8, lines, style)
	}
	write(8, cure, picture.In(picture.Good))
	write(0, next, picture.Loud(picture.Good))
	write(0, table, picture.In(picture.Text))
}

// unread says that a wrong row of one's own table is not weighed here, and where it
// is, in lines; nil where a table is open.
func (f *faultScreen) unread(e *Explorer, w int) []string {
	if e.opened() != nil {
		return nil
	}
	return wrap("not judged: your own table (coilwalk FILE)", w)
}

// next says what to try or to ask next, in lines.
func (f *faultScreen) next(e *Explorer, w int) []string {
	n := f.judged.Next
	switch {
	case n == nil, n.ByHand && n.Why == f.judged.Ranked[0].Cure: // the cure decides it
		return nil
	case n.ByHand:
		return wrap("to decide: "+onLeads(e, n.Why), w)
	}
	return wrap("try next, slowly: "+n.Trial.String(), w)
}

// onLeads puts the keys that lead to meter and shaft here in the place of the commands
// that ask them.
func onLeads(e *Explorer, words string) string {
	return strings.NewReplacer("coilwalk leads --answers", e.keyed("Leads: {anywhere.leads}, then {leads.ask-shaft}"), "coilwalk leads", e.keyed("Leads: {anywhere.leads}")).Replace(words)
}

// countsFrom is the odds from which an explanation is shown beside the first.
const countsFrom = 0.02

// explained lays out, in so many lines, what comes after the words of the likeliest
// explanation: the others that count, each with its end cut where there is no room
// for all, and the cure of the first in what is left. None is kept back unsaid.
func (f *faultScreen) explained(e *Explorer, w, lines int) (cure []string, others [][]string) {
	ranked := f.judged.Ranked
	if ranked[0].Cure != "" {
		cure = wrap("cure: "+onLeads(e, ranked[0].Cure), w)
		if len(ranked) > 1 && ranked[1].Odds >= countsFrom {
			cure = wrap("cure of the first: "+onLeads(e, ranked[0].Cure), w)
		}
	}
	room := lines - len(wrap(ranked[0].Text, w)) - len(cure)
	for _, d := range ranked[1:] {
		if d.Odds < countsFrom {
			break
		}
		others = append(others, wrap(d.Text, w))
		room -= len(others[len(others)-1])
	}
	for i, all := range others {
		if room < 0 {
			others[i] = []string{brief(strings.Join(all, " "), w)}
			room += len(all) - 1
		}
	}
	if keep := len(cure) + room; room < 0 && keep > 0 {
		cure = cure[:keep]
		cure[keep-1] += " …"
	} else if room < 0 {
		cure = nil
	}
	return cure, others
}
