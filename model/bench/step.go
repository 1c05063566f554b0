package bench

import (
	"fmt"
	"math"

	"coilwalk/model/rotor"
)

// mostCycles bounds the search for a cycle that repeats. Wandering rests are
// folded together long before it (rotor.Whereabouts).
const mostCycles = 256

// farthest bounds steps, so that no angle in parts of a step overflows.
const farthest int64 = math.MaxInt64 / 2048

// longestPeriod is how many cycles the rests may take to repeat: a table can
// leave the rotor elsewhere each second time.
const longestPeriod = 8

// repeats says after how many cycles the rests repeat, and by how many pitches
// further on; 0 when they do not.
func repeats(ends []rotor.Whereabouts, now rotor.Whereabouts) (cycles, pitches int64) {
	for k := 1; k <= min(len(ends), longestPeriod); k++ {
		if p, same := now.Apart(ends[len(ends)-k]); same {
			return int64(k), p
		}
	}
	return 0, 0
}

// Step energises n rows, one after another; negative n goes back. Where nothing is
// on, the first of them is the present row, either way. The rotor is run row by
// row until a whole cycle repeats its rests, and the rest of the way is that
// cycle's displacement times the cycles left, so that a step by 10¹⁵ costs a few
// cycles.
func (b *Bench) Step(n int64) {
	n = min(max(n, -farthest-b.now.step), farthest-b.now.step)
	if n == 0 {
		return
	}
	if n != 1 && n != -1 {
		b.rest() // many rows at once have no time
	}
	b.remember()
	off := b.now.off
	if off {
		b.now.off = false
		b.energise()
		if n > 0 {
			n--
		} else {
			n++
		}
	}
	if n != 0 {
		b.run(n)
	}
	if off { // free before, it may have stood anywhere
		b.now.moved, b.now.turned = false, 0
	}
}

// Jump goes to a step by its number, through all rows between.
func (b *Bench) Jump(to int64) error {
	n := to - b.now.step
	if err := reachable(to); err != nil {
		return err
	}
	if b.now.off && n > 0 { // the present row is energised on the way
		n++
	} else if b.now.off && n < 0 {
		n--
	}
	b.Step(n)
	return nil
}

// Rows energises n rows the way that Next goes; negative n the way of Back.
func (b *Bench) Rows(n int64) error {
	n *= int64(b.goes())
	if err := reachable(b.now.step + n); err != nil {
		return err
	}
	b.Step(n)
	return nil
}

// reachable refuses a step that is too far.
func reachable(step int64) error {
	if step > farthest || step < -farthest {
		return fmt.Errorf("step %d is too far; at most %d either way", step, farthest)
	}
	return nil
}

func (b *Bench) run(n int64) {
	before, wasKnown := b.now.where.Known()
	one := int64(1)
	if n < 0 {
		one = -1
	}
	left := n * one // ≥ 0
	cycle := int64(b.now.order.Len())
	walk := func(rows int64) {
		for range rows {
			b.now.step += one
			b.energise()
		}
	}
	var ends []rotor.Whereabouts // of the cycles walked so far
	for range mostCycles {
		if left < cycle {
			break
		}
		ends = append(ends, b.now.where)
		walk(cycle)
		left -= cycle
		if cycles, pitches := repeats(ends, b.now.where); cycles > 0 {
			period := cycle * cycles
			whole := left / period
			b.now.where = b.now.where.Shifted(pitches * whole)
			b.now.step += one * whole * period
			left -= whole * period
			break
		}
	}
	if left >= cycle && len(ends) < mostCycles { // what is over of several cycles that repeat together
		walk(left - left%cycle)
		left %= cycle
	}
	if left >= cycle { // nothing repeated: say that it is not known, rather than guess
		b.now.step += one * (left - left%cycle)
		b.now.where, b.now.balance = rotor.Whereabouts{}, rotor.Unknown
		left %= cycle
	}
	walk(left)
	after, isKnown := b.now.where.Known()
	if b.now.moved = wasKnown && isKnown; b.now.moved {
		b.now.turned = after.From(before)
	}
}
