package bench

import (
	"math"
	"time"
)

// Rates of running, in rows per second: a screen shows no more than about 30
// pictures a second, and a person follows far less.
const (
	FirstRate = 12
	MinRate   = 0.5
	MaxRate   = 200
)

// longestStall bounds the time made up after the program was held up: beyond
// it rows are dropped rather than sent in a burst.
const longestStall = 250 * time.Millisecond

// Run starts sending rows at the set rate as time is handed in.
func (b *Bench) Run() {
	b.changes++
	b.running, b.owed = true, 0
}

// Stop ends a run. It is safe at any time and does nothing else.
func (b *Bench) Stop() {
	b.changes++
	b.running = false
}

// Running says whether a run is on.
func (b *Bench) Running() bool { return b.running }

// Rate gives the rate in rows per second.
func (b *Bench) Rate() float64 { return b.rate }

// SetRate sets the rate, kept between MinRate and MaxRate.
func (b *Bench) SetRate(rowsPerSecond float64) {
	if math.IsNaN(rowsPerSecond) {
		return
	}
	b.changes++
	b.rate = min(max(rowsPerSecond, MinRate), MaxRate)
}

// Elapse lets time pass and sends the rows that have come due; it gives their
// number. A remainder of a row is kept for the next time.
func (b *Bench) Elapse(passed time.Duration) int {
	if !b.running || passed <= 0 {
		return 0
	}
	b.owed += b.rate * min(passed, longestStall).Seconds()
	rows := int(b.owed)
	b.owed -= float64(rows)
	for range rows {
		b.Next()
	}
	return rows
}
