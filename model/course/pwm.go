package course

import (
	"math"
	"slices"
)

// carrier is a pulse width modulation seen on the outputs: pins that go on and
// off many times within a row.
type carrier struct {
	pins   uint8 // that carry it
	period int64 // ticks
	varies bool  // the duty is another from row to row: microsteps
}

// What tells a carrier from rows that follow each other evenly.
const (
	longestPeriod = 2e-3 // s
	leastPeriods  = 40
	evenShare     = 0.7  // of a pin's periods that are the usual one
	evenPart      = 0.05 // that a usual one may differ
	leastDuties   = 5    // sixteenths that come often: rows of the three step modes make a quarter, three eighths and a half
)

// manyDuties says whether the duty is another from row to row.
func manyDuties(duties []float64) bool {
	var often [17]int
	for _, d := range duties {
		often[int(math.Round(16*min(max(d, 0), 1)))]++
	}
	n := 0
	for _, c := range often {
		if 50*c >= len(duties) {
			n++
		}
	}
	return n >= leastDuties
}

// carrierOf looks for a carrier. Rows of a motor that turns evenly rise at even
// times as well, but each of the four pins once in a period; of a carrier's pins
// at most one of each coil does, or the duty changes.
func carrierOf(c *Course) (k carrier, ok bool) {
	var periods []int64
	var duties []float64
	for pin := range 4 {
		p := pulsesOf(c, pin)
		if len(p) < leastPeriods {
			continue
		}
		usual := p.usual()
		if c.Seconds(usual) > longestPeriod || usual < 4 {
			continue
		}
		near := 0
		for i := range p {
			if p[i].even(usual) {
				near++
				duties = append(duties, float64(p[i].high)/float64(p[i].period))
			}
		}
		if float64(near) >= evenShare*float64(len(p)) {
			k.pins |= 1 << pin
			periods = append(periods, usual)
		}
	}
	if k.pins == 0 {
		return k, false
	}
	slices.Sort(periods)
	k.period = periods[len(periods)/2]
	k.varies = manyDuties(duties)
	return k, k.varies || k.atMostTwo(c)
}

// pulse is one time that a pin is high, to its next rise.
type pulse struct{ at, high, period int64 }

func (p pulse) even(usual int64) bool {
	return math.Abs(float64(p.period-usual)) <= evenPart*float64(usual)+1
}

type pulses []pulse

// looked bounds how many pulses of a pin are looked at.
const looked = 20_000

func pulsesOf(c *Course, pin int) (p pulses) {
	rise, fall := int64(-1), int64(-1)
	for i := 1; i < c.n && len(p) < looked; i++ {
		was, is := c.Row(i-1).Levels>>pin&1, c.Row(i).Levels>>pin&1
		at := c.Row(i).At
		switch {
		case was == 0 && is == 1:
			if rise >= 0 && fall > rise {
				p = append(p, pulse{rise, fall - rise, at - rise})
			}
			rise = at
		case was == 1 && is == 0:
			fall = at
		}
	}
	return p
}

// usual gives the middle of the periods.
func (p pulses) usual() int64 {
	all := make([]int64, len(p))
	for i := range p {
		all[i] = p[i].period
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// atMostTwo says whether, in most periods, no more than two pins rise.
func (k carrier) atMostTwo(c *Course) bool {
	few, many := 0, 0
	for i := 1; i < c.n && few+many < 2000; i++ {
		from := c.Row(i).At
		var rose uint8
		for j := i; j < c.n && c.Row(j).At < from+k.period; j++ {
			rose |= c.Row(j).Levels &^ c.Row(j-1).Levels
		}
		n := 0
		for ; rose != 0; rose &= rose - 1 {
			n++
		}
		if n <= 2 {
			few++
		} else {
			many++
		}
	}
	return few > 4*many
}

// held gives the course without its carrier: a pin is on from its first pulse
// until it has been off for longer than a period and a half. What is left is
// which way each coil is driven, and not how strongly.
func (k carrier) held(c *Course) *Course {
	out := &Course{Tick: c.Tick, First: c.First, Until: c.Until}
	wait := k.period + k.period/2
	var on uint8
	var fell [4]int64
	emit := func(at int64, flags uint8) {
		if n := out.n; n > 0 && out.Row(n-1).Levels == on && out.Row(n-1).Flags == flags {
			return
		}
		out.add(Row{At: at, Levels: on, Flags: flags})
	}
	for i := range c.n {
		r := c.Row(i)
		next := c.Until
		if i+1 < c.n {
			next = c.Row(i + 1).At
		}
		for pin := range 4 {
			bit := uint8(1) << pin
			switch {
			case r.Levels&bit != 0:
				on |= bit
			case i > 0 && c.Row(i-1).Levels&bit != 0:
				if fell[pin] = r.At; k.pins&bit == 0 {
					on &^= bit
				}
			}
		}
		emit(r.At, r.Flags)
		for { // pins that have been off for long enough, before the next edge, first things first
			first := -1
			for pin := range 4 {
				bit := uint8(1) << pin
				if on&bit != 0 && r.Levels&bit == 0 && fell[pin]+wait < next && (first < 0 || fell[pin] < fell[first]) {
					first = pin
				}
			}
			if first < 0 {
				break
			}
			for pin := range 4 { // those that fell with it go with it
				if r.Levels>>pin&1 == 0 && fell[pin] == fell[first] {
					on &^= 1 << pin
				}
			}
			emit(max(fell[first], out.Row(out.n-1).At), r.Flags)
		}
	}
	return out
}
