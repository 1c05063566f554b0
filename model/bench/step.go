package bench

import (
	"fmt"
	"math"

	"coilwalk/model/rotor"
)

// mostCycles bounds the search for a cycle that repeats. Wandering rests are
// folded together long before it (rotor.Whereabouts).
const mostCycles = 256

// Step energises n rows, one after another; negative n goes back. The rotor is
// run row by row until a whole cycle repeats its rests, and the rest of the way
// is that cycle's displacement times the cycles left, so that a step by 10¹⁵
// costs a few cycles.
func (b *Bench) Step(n int64) {
	if n == 0 {
		return
	}
	b.remember()
	b.run(n)
}

// Jump goes to a step by its number, through all rows between.
func (b *Bench) Jump(to int64) error {
	const farthest = math.MaxInt64 / 2048 // so that no angle in quarter steps overflows
	if to > farthest || to < -farthest {
		return fmt.Errorf("step %d is too far; at most %d either way", to, int64(farthest))
	}
	b.Step(to - b.now.step)
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
	for range mostCycles {
		if left < cycle {
			break
		}
		from := b.now.where
		walk(cycle)
		left -= cycle
		if pitches, same := b.now.where.Apart(from); same {
			whole := left / cycle
			b.now.where = b.now.where.Shifted(pitches * whole)
			b.now.step += one * whole * cycle
			left -= whole * cycle
			break
		}
	}
	if left >= cycle { // nothing repeated: say that it is not known, rather than guess
		b.now.step += one * (left - left%cycle)
		b.now.where = rotor.Whereabouts{}
		left %= cycle
	}
	walk(left)
	after, isKnown := b.now.where.Known()
	if b.now.moved = wasKnown && isKnown; b.now.moved {
		b.now.turned = after.From(before)
	}
}
