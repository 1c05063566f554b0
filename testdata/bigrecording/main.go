// Command bigrecording writes to standard output what an analyser might have
// recorded for half an hour: a value change dump of eight channels, four of them
// the inputs of a driver that is sent half steps in runs with ramps and pauses, forward
// and back, among a clock, data, a chip select and a serial line. The same
// arguments give the same bytes.
//
//	bigrecording LINES [SEED]
//
// In the middle one row is skipped. Standard error tells how many rows there are,
// and which one jumps.
package main

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
)

const (
	tick     = 100e-9 // s
	edge     = 500    // ticks from an edge of the clock to the next
	runRows  = 6000
	rampRows = 600
	slow     = 500.0 // rows a second, where ramps begin and end
)

// order is one cycle of half steps; bit 0 is IN1.
var order = [8]byte{1, 3, 2, 6, 4, 12, 8, 9}

var names = [8]string{"IN1", "IN2", "IN3", "IN4", "CLK", "DATA", "SELECT", "RX"}

// firmware knows when the next row comes, and which it is.
type firmware struct {
	*rand.Rand
	at    float64 // ticks
	place int
	row   int     // within its run
	fast  float64 // rows a second of this run
	way   int
	pins  byte
	rows  int64
}

// next takes a step, or two at once, and says when the one after it comes.
func (f *firmware) next(places int) {
	f.place += f.way * places
	f.pins = order[f.place&7]
	f.rows++
	f.row++
	if f.row == runRows { // a pause with a row on
		f.row, f.fast, f.way = 0, 800+2200*f.Float64(), -f.way
		f.at += (0.1 + 0.3*f.Float64()) / tick
		return
	}
	// Evenly accelerated, the square of the rate rises evenly from row to row.
	in := min(1, float64(min(f.row, runRows-f.row))/rampRows)
	rate := math.Sqrt(slow*slow + in*(f.fast*f.fast-slow*slow))
	f.at += 1 / rate / tick
}

func main() {
	if len(os.Args) < 2 {
		fail("how many lines?")
	}
	lines, err := strconv.ParseInt(os.Args[1], 10, 64)
	if err != nil {
		fail(err.Error())
	}
	seed := uint64(1)
	if len(os.Args) > 2 {
		if seed, err = strconv.ParseUint(os.Args[2], 10, 64); err != nil {
			fail(err.Error())
		}
	}
	w := bufio.NewWriterSize(os.Stdout, 1<<20)
	record(w, lines, rand.New(rand.NewPCG(seed, 1)))
	if err := w.Flush(); err != nil {
		fail(err.Error())
	}
}

func fail(why string) {
	fmt.Fprintln(os.Stderr, "bigrecording:", why)
	os.Exit(2)
}

func record(w *bufio.Writer, lines int64, r *rand.Rand) {
	fmt.Fprintf(w, "$comment invented, by bigrecording $end\n$timescale 100 ns $end\n$scope module bench $end\n")
	for k, name := range names {
		fmt.Fprintf(w, "$var wire 1 %c %s $end\n", '!'+k, name)
	}
	fmt.Fprintf(w, "$upscope $end\n$enddefinitions $end\n#0\n$dumpvars\n")
	var level [8]byte
	for k := range level {
		w.Write([]byte{'0', '!' + byte(k), '\n'})
	}
	fmt.Fprintf(w, "$end\n")

	written := int64(24)
	toggle := func(k int) {
		level[k] ^= 1
		w.Write([]byte{'0' + level[k], '!' + byte(k), '\n'})
		written++
	}
	var digits []byte
	moment := func(at int64) {
		digits = append(strconv.AppendInt(append(digits[:0], '#'), at, 10), '\n')
		w.Write(digits)
		written++
	}

	f := &firmware{Rand: r, at: 0.02 / tick, fast: 2000, way: 1, place: -1}
	skipped := int64(0)
	clock := int64(edge)
	for written < lines {
		if int64(f.at) < clock {
			at, was := int64(f.at), f.pins
			moment(at)
			if skipped == 0 && written > lines/2 && f.row > 2*rampRows && f.row < runRows-2*rampRows {
				f.next(2)
				skipped = f.rows
			} else {
				f.next(1)
			}
			for k := range 4 {
				if (f.pins^was)>>k&1 == 1 {
					toggle(k)
				}
			}
			continue
		}
		moment(clock)
		toggle(4)
		chance := r.Uint32()
		if chance&15 == 0 {
			toggle(5)
		}
		if chance>>8&63 == 0 {
			toggle(6)
		}
		if chance>>16&31 == 0 {
			toggle(7)
		}
		clock += edge + int64(chance>>24&7)
	}
	fmt.Fprintf(os.Stderr, "rows %d\nskipped %d\n", f.rows, skipped)
}
