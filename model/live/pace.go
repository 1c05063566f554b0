package live

import (
	"fmt"
	"math"
	"time"
)

// MostRate is how many rows a second are sent from here: a computer, and the
// serial converter of many boards, are late by a millisecond now and then, which
// is a fifth of the time between rows at this rate.
const MostRate = 200

// Pace is how evenly the rows of a run went out.
type Pace struct {
	Rows   int64
	Worst  time.Duration // late
	Spread time.Duration // of the intervals' deviation from the even one
}

// runs is a run going on.
type runs struct {
	rows    []Timed
	again   bool          // from the beginning, without end
	due     time.Time     // of the next row
	made    int64         // rows sent
	last    time.Time     // of them
	stood   time.Duration // that the last was meant to stand
	numbers []uint64      // of rows not acknowledged yet

	worst   time.Duration
	squares float64
}

func (m *Motor) run(cycle []Step, rate float64, now time.Time) error {
	switch {
	case !m.armed:
		return errNotArmed
	case len(cycle) == 0:
		return fmt.Errorf("there are no rows to run")
	case !(rate > 0 && rate <= MostRate):
		return fmt.Errorf("from here rows can be sent at up to %d a second; quicker ones need firmware that times them itself (coilwalk write c --stepper)", MostRate)
	}
	rows := make([]Timed, len(cycle))
	for k, step := range cycle {
		rows[k] = Timed{step, time.Duration(float64(time.Second) / rate)}
	}
	m.begins(&runs{rows: rows, again: true, due: now}, rate, now)
	return nil
}

// play sends rows that each have a time of their own, once.
func (m *Motor) play(rows []Timed, now time.Time) error {
	if !m.armed {
		return errNotArmed
	}
	for k, row := range rows[:max(len(rows)-1, 0)] {
		if row.For < time.Second/MostRate {
			return fmt.Errorf("row %d stands for %v; from here a row takes %v at least", k+1, row.For, time.Second/MostRate)
		}
	}
	if len(rows) == 0 {
		return fmt.Errorf("there are no rows to play")
	}
	m.begins(&runs{rows: rows, due: now}, 0, now)
	return nil
}

func (m *Motor) begins(r *runs, rate float64, now time.Time) {
	m.touched = now
	m.running = r
	if r.again { // what is played once is no walk along the order
		m.ran = r
	}
	m.change(func(s *State) { s.Running, s.Rate, s.Pace = true, rate, Pace{} })
	m.runOn(now)
}

// runOn sends the row that has come due. A late one is sent at once, and the next
// a whole interval after it: rows are never crowded together to make up.
func (m *Motor) runOn(now time.Time) {
	r := m.running
	if r == nil || now.Before(r.due) {
		return
	}
	late := now.Sub(r.due)
	row := r.rows[r.made%int64(len(r.rows))]
	number, err := m.send(row.Step, now)
	if err != nil {
		return
	}
	if r.made > 0 {
		off := (now.Sub(r.last) - r.stood).Seconds()
		r.squares += off * off
	}
	r.numbers = append(r.numbers, number)
	r.made++
	r.worst, r.last, r.stood = max(r.worst, late), now, row.For
	r.due = r.due.Add(row.For)
	if late > row.For/2 {
		r.due = now.Add(row.For)
	}
	pace := r.pace()
	m.mu.Lock()
	m.state.Pace = pace
	if r.again {
		m.state.Owed = len(r.numbers)
	}
	m.mu.Unlock()
	if !r.again && r.made == int64(len(r.rows)) {
		m.pause(now)
	}
}

func (r *runs) pace() Pace {
	return Pace{Rows: r.made, Worst: r.worst,
		Spread: time.Duration(math.Sqrt(r.squares/float64(max(r.made-1, 1))) * float64(time.Second))}
}

// acknowledged gives how many more rows of the run were answered, up to a number.
func (r *runs) acknowledged(number uint64) (rows int64) {
	for len(r.numbers) > 0 && r.numbers[0] <= number {
		r.numbers = r.numbers[1:]
		rows++
	}
	return rows
}

// pause ends a run and holds its last row.
func (m *Motor) pause(now time.Time) {
	m.touched, m.rowSince = now, now
	m.stopRun()
}

// stopRun ends a run. What is still on its way is acknowledged before anything
// that comes after it.
func (m *Motor) stopRun() {
	if m.running == nil {
		return
	}
	m.running = nil
	m.change(func(s *State) { s.Running = false })
}
