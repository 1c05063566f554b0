package live

import (
	"fmt"
	"slices"
	"time"

	"coilwalk/model/motor"
	"coilwalk/model/wiring"
)

// Timed is a row and how long it stands before the next.
type Timed struct {
	Step
	For time.Duration
}

// How quickly the rows of a test follow: slowly enough to see each without gears,
// and behind them so that a few dozen rows are over soon.
const (
	seenRow   = 250 * time.Millisecond
	gearedRow = 40 * time.Millisecond
)

// Perform gives the parts of a test on leads that are on outputs 1 to 4. A person
// starts each part; the last row of one is held until the next. Tests that need
// a hand or a meter alone have none.
func Perform(q wiring.Question, on [4]motor.Lead, t *wiring.Topology) (parts [][]Timed, err error) {
	var rows []Row
	for _, lead := range q.Leads {
		k := slices.Index(on[:], lead)
		if k < 0 {
			return nil, fmt.Errorf("%s is on none of outputs 1 to 4; these have %s, %s, %s and %s", lead, on[0], on[1], on[2], on[3])
		}
		rows = append(rows, 1<<k)
	}
	one := func(row Row) []Timed { return []Timed{{Step: plainStep(row)}} }
	switch {
	case q.Test == wiring.Kick && len(rows) == 2:
		return [][]Timed{one(rows[0]), one(rows[0] | rows[1])}, nil
	case q.Test == wiring.Stiff && len(rows) == 2:
		return [][]Timed{one(rows[0] | rows[1])}, nil
	case q.Test == wiring.Run && len(rows) == 4:
		n, ok := t.RunRows()
		if !ok {
			n = t.GuessedRows()
		}
		every := seenRow
		if t.Geared {
			every = gearedRow
		}
		var there, back []Timed
		for k := range n {
			there = append(there, Timed{plainStep(rows[k%4]), every})
			back = append(back, Timed{plainStep(rows[(4-k%4)%4]), every})
		}
		return [][]Timed{there, back}, nil
	}
	return nil, fmt.Errorf("%s is done by hand: nothing has to be sent for it", q.Test)
}

// plainStep is a row whose leads are not known yet: for the heat it is enough how
// many coils are on.
func plainStep(row Row) Step { return Step{Outputs: row, Coils: row.Sequence()} }
