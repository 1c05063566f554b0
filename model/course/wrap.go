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
	for i := 0; i < len(faults); {
		n := same(faults[i:], numbers)
		if n < leastTimes {
			out = append(out, faults[i])
			i++
			continue
		}
		t := faults[i]
		t.Times, t.Every = n, numbers.Of(faults[i+1].raw)-numbers.Of(t.raw)
		t.Until = faults[i+n-1].At
		if t.Kind == "repeated-row" {
			f.fromStart(&t)
		}
		if opensWrap[t.Kind] {
			t.Levels, t.Kind = t.Kind, "open-wrap"
		}
		i += n
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

// same counts the faults that are the first again, at equal distances.
func same(faults []Fault, numbers Numbers) int {
	if len(faults) < leastTimes {
		return 1
	}
	every := numbers.Of(faults[1].raw) - numbers.Of(faults[0].raw)
	if every <= 0 || every > longestTable {
		return 1
	}
	n := 1
	for n < len(faults) && alike(faults[0], faults[n]) && numbers.Of(faults[n].raw)-numbers.Of(faults[n-1].raw) == every {
		n++
	}
	return n
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
