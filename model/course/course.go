// Package course makes rows in time out of a recording of four outputs, and
// says what the firmware really sends: runs of one mode and direction, rates,
// pauses, position; and what is wrong, at which time and row, why, and what
// cures it.
//
// A recording shows outputs, not leads. Which coil end each output drives is
// either stated, or all three ways to pair the outputs into coils are tried.
package course

import (
	"sort"
)

// Row is what the four outputs do from a moment on: 16 bytes, as there may be
// tens of millions.
type Row struct {
	At     int64  // ticks
	Skew   uint32 // ticks from its first pin's edge to its last's
	Levels uint8  // bit k: output k+1 is high
	Flags  uint8
}

// Flags of a row.
const (
	unknown uint8 = 1 << iota // a level is neither high nor low
)

// Course is the rows of a recording, in the order of time.
type Course struct {
	Tick  float64 // seconds
	First int64   // tick at which the recording begins
	Until int64   // tick at which it ends

	chunks [][]Row
	n      int
}

// chunkRows are kept together: growing never copies, and what is there may be
// read while more is added.
const (
	chunkBits = 14
	chunkRows = 1 << chunkBits
)

// Len gives the number of rows.
func (c *Course) Len() int { return c.n }

// Row gives a row, from 0.
func (c *Course) Row(i int) Row { return c.chunks[i>>chunkBits][i&(chunkRows-1)] }

// Seconds gives the time of a tick in the recording.
func (c *Course) Seconds(at int64) float64 { return float64(at) * c.Tick }

// Ticks is the number of ticks in a time.
func (c *Course) Ticks(seconds float64) int64 { return int64(seconds / c.Tick) }

// Dwell gives how long a row lasts, in ticks: the last one to the end of the
// recording.
func (c *Course) Dwell(i int) int64 {
	if i+1 < c.n {
		return c.Row(i+1).At - c.Row(i).At
	}
	return c.Until - c.Row(i).At
}

// Find gives the row that holds at a time, −1 before the first.
func (c *Course) Find(at int64) int {
	return sort.Search(c.n, func(i int) bool { return c.Row(i).At > at }) - 1
}

// soFar gives the course as it is now, which stays so while rows are added.
func (c *Course) soFar(until int64) *Course {
	now := *c
	now.chunks, now.Until = c.chunks[:len(c.chunks):len(c.chunks)], until
	return &now
}

func (c *Course) add(r Row) {
	if c.n&(chunkRows-1) == 0 {
		c.chunks = append(c.chunks, make([]Row, chunkRows))
	}
	c.chunks[c.n>>chunkBits][c.n&(chunkRows-1)] = r
	c.n++
}
