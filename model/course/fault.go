package course

import "coilwalk/sequence"

// Fault is something wrong: where it first shows, on which outputs, and what is
// known of it. Words are made of it for the person.
type Fault struct {
	Kind    string
	At      int64 // ticks
	Row     int64 // rows count from 1, the first that has a coil on; 0 for the whole recording
	Outputs []int // from 1
	Times   int   // how often it comes, where it comes in every cycle; else 1

	Stood   bool    // of a wrong row: its neighbour stood in its place
	Least   int     // ms: the shortest interval of a timer of whole ones
	Always  bool    // of a pin that is stuck: it never moves
	Every   int64   // rows from one time to the next, where it comes in every cycle
	Count   int     // rows skipped, run back, or stuck for
	Long    float64 // seconds: of an interval, a pulse, a delay
	Usual   float64 // seconds: what is usual there
	Levels  string  // of the wrong row, output 1 first
	Wanted  string  // of the row that should be there; "" where it has no place
	Until   int64   // ticks at which it is over; 0 for an instant
	Text    string  // the evidence
	Cause   string  // what usually makes it
	Cure    string
	Swaps   []Swap             // each cures it
	Turns   sequence.Direction // the way that is meant
	caution bool               // it rests on estimated figures alone
	raw     int                // its row in the course, from 0
	lost    float64            // full steps that a motor loses by it
}

// Swap is two outputs whose leads, or whose pins in firmware, exchanged cure a
// fault, and the way that the rows then go.
type Swap struct {
	Outputs   [2]int // from 1
	Direction sequence.Direction
}

// Caution says whether the fault rests on estimated figures of a motor alone.
func (f Fault) Caution() bool { return f.caution }

// weights order faults by what matters: what keeps a motor from turning before
// what makes it stumble, and that before what is only not nice.
var weights = map[string]int{
	"outputs-permuted": 0, "direction-reversed": 1, "no-order": 1, "stuck-low": 2, "stuck-high": 2, "both-ends-on": 3, "open-wrap": 4,
	"no-field": 5, "wrong-row": 5, "rows-exchanged": 5, "skipped-row": 6, "reversal": 6, "fast-start": 7, "steep-ramp": 7, "lost-steps": 7,
	"repeated-row": 8, "gap": 9, "late-pin": 10, "glitch": 10, "quantised-timer": 11, "runt": 10, "short-setup": 10,
}

// Run is rows of one mode in one direction, one after another.
type Run struct {
	Mode      string // wave, full, half, micro or none
	Direction sequence.Direction
	From, To  int64 // ticks: of its first row and of its last
	Row       int64 // number of its first row
	Rows      int64

	Least, Median, Most float64 // rows a second; 0 with a single row
	first, last         int     // rows of the course, from 0
}

// Pause is the time between runs.
type Pause struct {
	From, To int64 // ticks
	Held     bool  // a coil is on all the while
}
