package bench

import (
	"math"
	"time"
)

// Rates of running, in rows per second. A screen shows no more than about 30
// pictures a second, and a person follows far less: beyond MaxRate there is
// something to be told only of a rotor that moves in time.
const (
	FirstRate     = 12
	MinRate       = 0.5
	MaxRate       = 200
	MaxRateInTime = 5000
)

// LongestStall bounds the time made up after the program was held up: beyond
// it rows are dropped rather than sent in a burst.
const LongestStall = 250 * time.Millisecond

// Run starts sending rows at the set rate as time is handed in. The rotor moves
// in time where the motor gives enough for that and it is known where it may be,
// and the first row comes at once; else from rest to rest.
func (b *Bench) Run() {
	b.running, b.owed = true, 0
	if b.start(); b.timed != nil {
		b.owed = 1 // shown slowly, a first row that waits for its turn would look as if nothing ran
	}
}

// Stop ends a run. It is safe at any time and does nothing else; a rotor that
// moves comes to its rest under the present row.
func (b *Bench) Stop() {
	b.changes++
	b.running = false
	b.rest()
}

// Running says whether a run is on.
func (b *Bench) Running() bool { return b.running }

// Timed says whether the rotor moves in time.
func (b *Bench) Timed() bool { return b.timed != nil }

// Rate gives the rate in rows per second.
func (b *Bench) Rate() float64 { return b.rate }

// SetRate sets the rate, kept between MinRate and MaxRate, or MaxRateInTime where
// a run is one in time.
func (b *Bench) SetRate(rowsPerSecond float64) {
	if math.IsNaN(rowsPerSecond) {
		return
	}
	most := float64(MaxRate)
	if _, err := b.Plant(); err == nil {
		most = MaxRateInTime
	}
	b.changes++
	b.rate = min(max(rowsPerSecond, MinRate), most)
}

// Elapse lets time pass and sends the rows that have come due; it gives their
// number. A remainder of a row is kept for the next time.
func (b *Bench) Elapse(passed time.Duration) int {
	if !b.running || passed <= 0 {
		return 0
	}
	seconds := min(passed, LongestStall).Seconds()
	if b.timed == nil && b.untimed == nil {
		b.start()
	}
	if b.timed != nil {
		return b.turn(seconds)
	}
	b.owed += b.rate * seconds
	rows := int(b.owed)
	b.owed -= float64(rows)
	for range rows {
		b.Next()
	}
	return rows
}
