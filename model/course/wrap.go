package course

// leastTimes makes a slip that comes again and again one of the table: chance
// does not keep time.
const leastTimes = 3

// longestTable is how many rows a table may have for its slip to be told as one.
const longestTable = 256

// slips of a table that show as an order that does not close.
var opensWrap = map[string]bool{"skipped-row": true, "repeated-row": true, "reversal": true}

// inEveryCycle puts slips of one kind that come with the same number of rows
// between them together: the table has them, not the moment.
func inEveryCycle(faults []Fault, numbers Numbers) (out []Fault) {
	for i := 0; i < len(faults); {
		n := same(faults[i:], numbers)
		f := faults[i]
		if n >= leastTimes {
			f.Times, f.Every = n, numbers.Of(faults[i+1].raw)-numbers.Of(f.raw)
			f.Until = faults[i+n-1].At
			if opensWrap[f.Kind] {
				f.Levels, f.Kind = f.Kind, "open-wrap"
			}
			i += n
		} else {
			i++
		}
		out = append(out, f)
	}
	return out
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
