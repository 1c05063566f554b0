package plain

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"coilwalk/model/bench"
	"coilwalk/model/files"
	"coilwalk/model/quantity"
	"coilwalk/view/report"
)

// mostRun bounds the rows of one run in time.
const mostRun = 20_000

// run sends rows at a rate, lets the rotor follow in time, and tells how it did
// and where it came to rest. Time is handed to the bench as fast as it takes it.
func (m *Mode) run(args []string) {
	rate, rows, err := runAsked(args)
	if err != nil {
		m.fail(err)
		return
	}
	b := m.Bench
	was := b.Rate()
	if b.SetRate(rate); b.Rate() != rate {
		b.SetRate(math.MaxFloat64)
		m.say("%g rows a second can not be run here; from %g to %g is wanted.", rate, bench.MinRate, b.Rate())
		b.SetRate(was)
		return
	}
	b.Run()
	for left := rows; left > 0 && b.Running(); {
		left -= b.Elapse(time.Duration(min(float64(left)/rate, 1.0/30) * float64(time.Second)))
	}
	if r := b.Read(); r.Timed {
		words, _ := report.Running(r, b.Motor())
		m.say("%s", words)
	} else if r.Untimed != nil {
		m.say("From rest to rest: %s.", r.Untimed)
	}
	b.Stop()
	m.say("%s", report.Step(b))
}

// runAsked reads a rate, and rows or those of a second.
func runAsked(args []string) (rate float64, rows int, err error) {
	if len(args) > 2 {
		return 0, 0, fmt.Errorf("a rate, and rows, are wanted, as run 600 200")
	}
	if rate, err = quantity.Rows(args[0]); err != nil {
		return 0, 0, err
	}
	rows = int(max(1, min(rate, mostRun)))
	if len(args) == 2 {
		if rows, err = strconv.Atoi(args[1]); err != nil || rows < 1 || rows > mostRun {
			return 0, 0, fmt.Errorf("%s rows can not be run; from 1 to %d is wanted", files.Quoted(args[1]), mostRun)
		}
	}
	return rate, rows, nil
}
