package table

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/sequence"
)

// findFaults says why the rows are not sound under the wiring taken: first
// whether another wiring makes them so, then what is wrong row by row.
func (v *Verdict) findFaults(j judge, q Question) {
	if len(j.rows) < 2 {
		v.Faults = append(v.Faults, Fault{Kind: "no-field", Row: 1, Text: "A table of one row moves nothing."})
		return
	}
	if v.permuted(j, q) || !j.strays() && v.stuck(j) {
		return
	}
	here := j.nearest(v.Taken)
	if q.Wiring != nil && v.permutedAnd(j, q, here) {
		return
	}
	v.byRow(j, here)
	v.notePairing(j, here)
}

// permuted is the case in which the columns only stand in another order than
// the wiring needs. It is none without a wiring: then the pairings have told.
func (v *Verdict) permuted(j judge, q Question) bool {
	if q.Wiring == nil || v.Pins != CoilEnds || !v.addCures(j, q) {
		return false
	}
	v.Faults = append(v.Faults, v.permutedFault(j))
	v.deadRows(j)
	return true
}

// addCures lists the single swaps of columns that make the rows sound. Each of
// the 16 wrong orders has exactly two, one turning each way.
func (v *Verdict) addCures(j judge, q Question) bool {
	for i := range 4 {
		for k := i + 1; k < 4; k++ {
			if p, ok := j.pattern(v.Taken.Swapped(i, k)); ok {
				v.Mode = p.mode.Name
				v.addSwap(i, k, p.direction, q)
			}
		}
	}
	return len(v.Cures) > 0
}

func (v *Verdict) permutedFault(j judge) Fault {
	var steps []string
	first := 0
	for i, r := range v.Rows {
		if !r.HasField {
			steps = append(steps, "dead")
		} else if r.HasStep {
			steps = append(steps, fmt.Sprintf("%+g°", r.StepDeg))
		}
		if first == 0 && i > 0 && (!r.HasField || r.StepDeg > 90 || r.StepDeg < -90 || (r.HasStep && v.Rows[i-1].HasStep && r.StepDeg*v.Rows[i-1].StepDeg < 0)) {
			first = i + 1
		}
	}
	return Fault{Kind: "outputs-permuted", Row: first, Text: fmt.Sprintf(
		"The columns do not drive the coil ends in a turning order (%s): the field jumps to and fro (%s), so the rotor shakes and goes nowhere, and a reversed table shakes it just the same.",
		endsText(v.Taken), strings.Join(steps, " "))}
}

// wayWords say which way a cure turns the shaft, seen facing its end.
var wayWords = map[sequence.Direction]string{
	sequence.Forward: "forward, clockwise", sequence.Reverse: "in reverse, counter-clockwise", sequence.Standing: "nowhere",
}

// going says the way of an order.
var going = map[sequence.Direction]string{sequence.Forward: "forward", sequence.Reverse: "in reverse", sequence.Standing: "nowhere"}

// column names a column, from 0, by its number and by what it was called.
func (v *Verdict) column(c int) string {
	words := fmt.Sprintf("Column %d", c+1)
	if name := v.Table.Columns[c]; !strings.EqualFold(name, words) {
		words += " (" + name + ")"
	}
	return words
}

// addSwap adds the cure of exchanging columns i and k, from 0.
func (v *Verdict) addSwap(i, k int, d sequence.Direction, q Question) {
	cure := v.swap(i, k, d, q)
	cure.Text += "; it then turns " + wayWords[d]
	if d == sequence.Forward { // what is usually wanted comes first
		v.Cures = append([]Cure{cure}, v.Cures...)
		return
	}
	v.Cures = append(v.Cures, cure)
}

// swap is the cure of exchanging columns i and k, from 0, without what comes of it.
func (v *Verdict) swap(i, k int, d sequence.Direction, q Question) Cure {
	after := v.Taken.Swapped(i, k).Inverse()
	text := fmt.Sprintf("exchange columns %d and %d of the table, or the leads on outputs %d and %d", i+1, k+1, i+1, k+1)
	if q.Leads[i] != "" {
		text += fmt.Sprintf(" (%s and %s)", q.Leads[i], q.Leads[k])
	}
	return Cure{Order: [4]int{after[0] + 1, after[1] + 1, after[2] + 1, after[3] + 1}, Swap: &[2]int{i + 1, k + 1}, Direction: d, Text: text}
}

// permutedAnd is a wrong column order and wrong rows at once: some other
// wiring needs clearly fewer edits than the one given.
func (v *Verdict) permutedAnd(j judge, q Question, here alignment) bool {
	type exchange struct {
		i, k int
		near alignment
	}
	var best []exchange // those with the fewest edits, one that turns forward first
	fewest := len(here.edits)
	for i := range 4 {
		for k := i + 1; k < 4; k++ {
			near := j.nearest(v.Taken.Swapped(i, k))
			if n := len(near.edits); n < fewest {
				best, fewest = nil, n
			}
			if len(near.edits) == fewest {
				best = append(best, exchange{i, k, near})
			}
		}
	}
	if len(best) == 0 || fewest+2 > len(here.edits) || fewest > len(j.rows)/4 {
		return false
	}
	slices.SortStableFunc(best, func(a, b exchange) int { return int(b.near.direction) - int(a.near.direction) })
	v.Faults = append(v.Faults, v.permutedFault(j))
	for _, x := range best {
		under := j
		under.wiring = v.Taken.Swapped(x.i, x.k)
		rows, steps, changes := under.mended(x.near)
		c := v.swap(x.i, x.k, x.near.direction, q)
		c.Rows, c.changes, c.low = rows, changes, j.low
		c.Text = fmt.Sprintf("%s, and %s; it then turns %s", c.Text, strings.Join(steps, ", "), wayWords[c.Direction])
		v.Cures = append(v.Cures, c)
	}
	first := best[0]
	j.wiring = v.Taken.Swapped(first.i, first.k)
	found := len(v.Faults)
	v.byRow(j, first.near)
	for k := found; k < len(v.Faults); k++ { // as the exchange has it, and not as the rows are shown
		v.Faults[k].Text = fmt.Sprintf("With columns %d and %d exchanged: %s", first.i+1, first.k+1, v.Faults[k].Text)
		if v.Faults[k].Kind == "both-ends-on" {
			v.Faults[k].Kind = "wrong-row"
		}
	}
	return true
}

// notePairing says so when another pairing of the columns is nearly right.
func (v *Verdict) notePairing(j judge, here alignment) {
	if v.Wiring != nil || v.Pins != CoilEnds {
		return
	}
	for _, coils := range pairings {
		p := wiringOf(coils)
		if p == v.Taken {
			continue
		}
		if other := j.nearest(p); len(other.edits) <= len(j.rows)/4 && len(other.edits)+2 <= len(here.edits) {
			v.Notes = append(v.Notes, fmt.Sprintf(
				"With columns %d and %d as one coil and %d and %d as the other it would be a %s order but for %d of its %d rows: give --wiring %s to see which.",
				coils[0][0], coils[0][1], coils[1][0], coils[1][1], other.mode.Name, len(other.edits), len(j.rows), endsText(p)))
		}
	}
}

// nearestPairing gives the pairing in which the rows have the fewest slips; clearly,
// where it is a table with few of them and no other pairing comes near.
func (j judge) nearestPairing() (first int, clearly bool) {
	fewest, second := len(j.rows)+2, len(j.rows)+2
	for i, coils := range pairings {
		switch n := len(j.nearest(wiringOf(coils)).edits); {
		case n < fewest:
			first, fewest, second = i, n, fewest
		case n < second:
			second = n
		}
	}
	return first, fewest <= len(j.rows)/4 && fewest+2 <= second
}

func endsText(p sequence.Permutation) string {
	parts := make([]string, len(p))
	for k, e := range p {
		parts[k] = e.String()
	}
	return strings.Join(parts, ",")
}
