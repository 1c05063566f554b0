package handoff

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/travel"
)

// Pace is how the rows of a move follow one another: in whole ticks of a timer,
// so that no error adds up. A move starts with the first interval and goes
// through the others to the last, which it keeps; to stop it goes back through
// them, so that a short move turns round half way.
type Pace struct {
	ClockHz   int64   // of the controller
	Prescale  int64   // clock cycles to a tick
	Intervals []int64 // ticks from row to row, the start first
}

// The intervals that a timer and our readers can hold.
const (
	shortest     = 20e-6 // s: from row to row; no such motor follows faster ones
	longest      = 1 << 31
	mostInterval = 10_000 // how many
	steepest     = 4      // times the rate from one interval to the next; a constant acceleration from rest starts with 2.4
)

// What is taken when nobody says.
const (
	UsualClock    = 16_000_000 // Hz
	UsualPrescale = 8
	UsualRate     = 100.0 // rows a second
)

// Even is the pace of so many rows a second, to the nearest tick.
func Even(clockHz, prescale int64, rate float64) (Pace, error) {
	p := Pace{ClockHz: clockHz, Prescale: prescale}
	if err := p.clock(); err != nil {
		return p, err
	}
	if !(rate > 0) {
		return p, fmt.Errorf("a rate of %g rows a second is none; one above 0 is wanted", rate)
	}
	ticks := float64(clockHz) / float64(prescale) / rate
	if ticks >= longest {
		return p, fmt.Errorf("%g rows a second are %.3g ticks from row to row; 2^31 is the most", rate, ticks)
	}
	return p.With([]int64{max(1, int64(ticks+0.5))})
}

// Speeding is the pace of a move that starts at a rate and speeds up to another,
// by accel rows a second in each second (travel.Profile), each interval to the
// nearest tick and none longer than the one before.
func Speeding(clockHz, prescale int64, start, top, accel float64) (Pace, error) {
	p := Pace{ClockHz: clockHz, Prescale: prescale}
	if err := p.clock(); err != nil {
		return p, err
	}
	way := (top*top - start*start) / max(accel, 1e-9)
	if !(way >= 0) || way > 4*mostInterval {
		return p, fmt.Errorf("to speed up from %g to %g rows a second takes %.0f rows; 0 to %d can be written", start, top, way/2, mostInterval)
	}
	wish := travel.Wish{Rows: int64(way) + 4, Start: start, Top: top, Accel: accel}
	if err := wish.Bounded(); err != nil {
		return p, err
	}
	plan, err := wish.Plan()
	if err != nil {
		return p, err
	}
	perSecond := float64(clockHz) / float64(prescale)
	var intervals []int64
	for k := int64(0); ; k++ {
		ticks := int64((plan.At(k+1)-plan.At(k))*perSecond + 0.5)
		if k > 0 {
			ticks = min(ticks, intervals[k-1])
		}
		if float64(k) >= plan.Up {
			intervals = append(intervals, min(ticks, int64(perSecond/top+0.5)))
			break
		}
		intervals = append(intervals, ticks)
	}
	return p.With(intervals)
}

// With gives the pace with these intervals, in ticks, once they are known to fit.
func (p Pace) With(intervals []int64) (Pace, error) {
	if err := p.clock(); err != nil {
		return p, err
	}
	if len(intervals) == 0 || len(intervals) > mostInterval {
		return p, fmt.Errorf("%d intervals are no ramp; 1 to %d are wanted", len(intervals), mostInterval)
	}
	for k, ticks := range intervals {
		switch {
		case ticks >= longest:
			return p, fmt.Errorf("interval %d is %d ticks; 2^31 is the most", k+1, ticks)
		case p.seconds(ticks) < shortest:
			return p, fmt.Errorf("interval %d is %d ticks, %.3g us; 20 us is the least from row to row", k+1, ticks, 1e6*p.seconds(ticks))
		case k > 0 && ticks > intervals[k-1]:
			return p, fmt.Errorf("interval %d is %d ticks, longer than the %d before it; a ramp starts with the longest and gets shorter", k+1, ticks, intervals[k-1])
		case k > 0 && steepest*ticks < intervals[k-1]:
			return p, fmt.Errorf("interval %d is %d ticks, less than a quarter of the %d before it; no motor follows such a jump, so put intervals between", k+1, ticks, intervals[k-1])
		}
	}
	p.Intervals = intervals
	return p, nil
}

func (p Pace) clock() error {
	switch {
	case p.ClockHz < 1 || p.ClockHz > 1e9:
		return fmt.Errorf("a clock of %d Hz is none that is known; 1 Hz to 1 GHz is wanted, as 16MHz", p.ClockHz)
	case p.Prescale < 1 || p.Prescale > 65536:
		return fmt.Errorf("a prescale of %d is none; 1 to 65536 clock cycles to a tick are wanted, as 8", p.Prescale)
	}
	return nil
}

// ParseIntervals reads intervals in ticks, parted by commas, blanks or line
// ends; what stands after a # on a line is left out. An error is a
// *files.Complaint with its line.
func ParseIntervals(text string) (intervals []int64, err error) {
	at := 0
	for line := range strings.Lines(text) {
		at++
		line, _, _ = strings.Cut(line, "#")
		for _, word := range strings.FieldsFunc(line, func(r rune) bool { return r == ',' || r == ' ' || r == '\t' || r == '\r' || r == '\n' }) {
			ticks, err := strconv.ParseInt(word, 10, 64)
			if err != nil || ticks < 1 {
				return nil, &files.Complaint{Line: at, What: files.Quoted(word) + " is no interval", Right: "whole ticks above 0 are wanted, as 20000,15000,12000"}
			}
			intervals = append(intervals, ticks)
		}
	}
	return intervals, nil
}

// Ramped says whether there is more than one interval.
func (p Pace) Ramped() bool { return len(p.Intervals) > 1 }

// After gives the ticks for which a row stands, when so many rows of its move
// have been made and so many are left. The last of a move stands as long as the
// first.
func (p Pace) After(made, left int64) int64 {
	k := max(0, min(made-1, left-1, int64(len(p.Intervals)-1)))
	return p.Intervals[k]
}

// Tick gives the exact seconds of a tick.
func (p Pace) Tick() *big.Rat { return big.NewRat(p.Prescale, p.ClockHz) }

func (p Pace) seconds(ticks int64) float64 {
	return float64(ticks) * float64(p.Prescale) / float64(p.ClockHz)
}

// Rate gives the rows a second that the last interval keeps.
func (p Pace) Rate() float64 { return 1 / p.seconds(p.Intervals[len(p.Intervals)-1]) }

// StartRate gives the rows a second at which a move starts and stops.
func (p Pace) StartRate() float64 { return 1 / p.seconds(p.Intervals[0]) }

// wide gives the bits of the smallest whole number that holds every interval.
func (p Pace) wide() int {
	for _, ticks := range p.Intervals {
		if ticks > 65535 {
			return 32
		}
	}
	return 16
}
