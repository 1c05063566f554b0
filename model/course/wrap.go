package course

import "fmt"

// leastTimes makes a slip that comes again and again one of the table: chance
// does not keep time.
const leastTimes = 3

// longestTable is how many rows a table may have for its slip to be told as one.
const longestTable = 256

// slips of a table that show as an order that does not close.
var opensWrap = map[string]bool{"skipped-row": true, "repeated-row": true, "reversal": true}

// told gives the faults as they are to be told: what a stuck pin makes is that
// pin's, and slips of one kind that come with the same number of rows between
// them are the table's.
func (f *follower) told() []Fault {
	numbers := Numbers{f.skipped}
	return again(f.inEveryCycle(f.ofStuckPins(f.faults), numbers))
}

// mostAlone slips of a pin are told one by one.
const mostAlone = 3

// again puts a pin that comes late, or that glitches, again and again together.
func again(faults []Fault) (out []Fault) {
	count := map[string]int{}
	name := func(t Fault) string { return fmt.Sprint(t.Kind, t.Outputs) }
	for _, t := range faults {
		if t.Kind == "late-pin" || t.Kind == "glitch" {
			count[name(t)]++
		}
	}
	first := map[string]int{}
	for _, t := range faults {
		if count[name(t)] <= mostAlone {
			out = append(out, t)
			continue
		}
		if k, told := first[name(t)]; told {
			out[k].Times, out[k].Until, out[k].Long = out[k].Times+1, t.At, max(out[k].Long, t.Long)
			continue
		}
		first[name(t)] = len(out)
		out = append(out, t)
	}
	return out
}

// inEveryCycle puts slips that come in every cycle together: the table has them,
// not the moment.
func (f *follower) inEveryCycle(faults []Fault, numbers Numbers) (out []Fault) {
	taken := map[int]bool{}
	for i := range faults {
		if taken[i] {
			continue
		}
		t, all := faults[i], same(faults, i, numbers)
		if len(all) < leastTimes {
			out = append(out, t)
			continue
		}
		for _, k := range all {
			taken[k] = true
		}
		t.Times, t.Every = len(all), numbers.Of(faults[all[1]].raw)-numbers.Of(t.raw)
		t.Until = faults[all[len(all)-1]].At
		if t.Kind == "repeated-row" {
			f.fromStart(&t)
		}
		if opensWrap[t.Kind] {
			t.Levels, t.Kind = t.Kind, "open-wrap"
		}
		if before := sameTable(out, t); before != nil {
			before.Times, before.Until = before.Times+t.Times, t.Until
			continue
		}
		out = append(out, t)
	}
	return out
}

// sameTable finds a slip of the table that was told of an earlier run.
func sameTable(told []Fault, t Fault) *Fault {
	for i := range told {
		if o := &told[i]; o.Times > 1 && o.Kind == t.Kind && o.Every == t.Every && (o.Levels == t.Levels || t.Kind == "open-wrap") {
			return o
		}
	}
	return nil
}

// fromStart goes back with a row that stands twice in the table to where its run
// begins: in an acceleration it is not told by its interval alone.
func (f *follower) fromStart(t *Fault) {
	every := int(t.Every)
	for raw := t.raw - every; raw > 1; raw -= every {
		about := f.Dwell(raw-2) + f.Dwell(raw)
		if long := float64(2*f.Dwell(raw-1)) / float64(about); long < 1.5 || long > 3 {
			return
		}
		t.raw, t.At = raw, f.Row(raw).At
	}
}

// same lists the faults from the first-th on that are that one again, at equal distances.
// Faults of time between them are others' doing: they are passed over.
func same(faults []Fault, first int, numbers Numbers) (all []int) {
	all = append(all, first)
	last, every := numbers.Of(faults[first].raw), int64(longestTable)
	if !alike(faults[first], faults[first]) {
		return all
	}
	for k := first + 1; k < len(faults); k++ {
		at := numbers.Of(faults[k].raw)
		apart := at - last
		again := alike(faults[first], faults[k])
		switch {
		case apart > every, !again && !timed[faults[k].Kind]:
			return all
		case again && len(all) == 1 && apart > 0:
			every = apart
			fallthrough
		case again && apart == every:
			all, last = append(all, k), at
		case again:
			return all
		case apart == every && len(all) > 1 && faults[first].Kind == "repeated-row" && faults[k].Kind == "gap":
			last = at // the row that stands twice is held besides
		}
	}
	return all
}

func alike(a, b Fault) bool {
	switch a.Kind {
	case "skipped-row", "reversal", "repeated-row":
		return a.Kind == b.Kind && a.Count == b.Count
	case "wrong-row", "both-ends-on", "no-field", "rows-exchanged":
		return a.Kind == b.Kind && a.Levels == b.Levels
	}
	return false
}
