// Package travel plans moves: how many rows, exactly, and when each is sent, so
// that the motor follows. Rates are in rows a second, accelerations in rows a
// second, a second.
package travel

import (
	"fmt"
	"math"
)

// Shape is the way in which a move speeds up and slows down.
type Shape int

const (
	Trapezoid Shape = iota // at a constant acceleration
	Smooth                 // S-shaped: the acceleration rises and falls as a half wave, and is nowhere a jump
)

var shapeWords = [...]string{Trapezoid: "trapezoid", Smooth: "s"}

func (s Shape) String() string { return shapeWords[s] }

// Wish is a move as it is asked for.
type Wish struct {
	Rows  int64   // to be sent
	Start float64 // rate at which it starts and stops at once; 0 from a stand
	Top   float64 // rate that it goes up to
	Accel float64 // at most
	Decel float64 // likewise; 0 for Accel
	Shape Shape
}

// Profile says when each row of a move is sent: row 0 at once, the last after
// Seconds. A move too short to reach its rate turns at Peak.
//
// At a constant acceleration a the position is s = v0·t + a·t²/2, so the row k
// is sent at (√(v0² + 2·a·k) − v0)/a; from a stand the n-th interval is
// √(2/a)·(√(n+1) − √n) (an application note on linear speed control of stepper
// motors, 2.3.1: cn = c0(√(n+1) − √n), c0 = f·√(2α/ω̇)).
type Profile struct {
	Wish
	Peak    float64 // rate that it reaches
	Up      float64 // rows, as a distance, while it speeds up
	Flat    float64 // at Peak
	Down    float64 // while it slows down
	Seconds float64 // from the first row to the last

	upSeconds, downSeconds float64
}

// MostRows bounds a move: what is more is driven in parts.
const MostRows = 1 << 40

// longestRow bounds the time, in seconds, from a row to the next: some days.
const longestRow = 1e6

// Plan makes the profile of a move.
func (w Wish) Plan() (Profile, error) {
	if w.Decel == 0 {
		w.Decel = w.Accel
	}
	for _, v := range []float64{w.Start, w.Top, w.Accel, w.Decel} {
		if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
			return Profile{}, fmt.Errorf("rates and accelerations have to be numbers above zero")
		}
	}
	switch {
	case w.Rows < 1 || w.Rows > MostRows:
		return Profile{}, fmt.Errorf("a move of %d rows can not be; 1 to %d are wanted", w.Rows, int64(MostRows))
	case w.Top <= 0:
		return Profile{}, fmt.Errorf("a rate above zero is wanted")
	case w.Start > w.Top:
		w.Start = w.Top // it starts at once
	}
	if w.Start < w.Top && (w.Accel <= 0 || w.Decel <= 0) {
		return Profile{}, fmt.Errorf("an acceleration above zero is wanted, to come from %g to %g rows a second", w.Start, w.Top)
	}
	p := Profile{Wish: w, Peak: w.Top}
	all := float64(w.Rows - 1)
	if all == 0 {
		p.Peak = w.Start
		return p, nil
	}
	if w.Start < w.Top {
		p.Up, p.Down = p.way(w.Accel), p.way(w.Decel)
		if p.Up+p.Down > all { // it turns before: Up + Down = all gives v² = v0² + all/(1/2a + 1/2d), times a form factor
			p.Peak = math.Sqrt(w.Start*w.Start + all/(p.form()*(1/w.Accel+1/w.Decel)/2))
			p.Up, p.Down = p.way(w.Accel), p.way(w.Decel)
		}
		p.upSeconds, p.downSeconds = p.time(w.Accel), p.time(w.Decel)
	}
	p.Flat = max(0, all-p.Up-p.Down)
	p.Seconds = p.upSeconds + p.downSeconds
	if p.Flat > 0 {
		p.Seconds += p.Flat / p.Peak
	}
	if longest := max(p.At(1), p.Seconds-p.At(w.Rows-2)); !(longest <= longestRow) {
		return Profile{}, fmt.Errorf("a row would stay for %.3g s, and at most %g s can be planned; a greater rate or acceleration is wanted", longest, longestRow)
	}
	return p, nil
}

// form is how much longer a way a shape needs than a constant acceleration that
// is as great as its greatest: a half wave is π/2 times its mean.
func (p *Profile) form() float64 {
	if p.Shape == Smooth {
		return math.Pi / 2
	}
	return 1
}

// way gives the distance between Start and Peak.
func (p *Profile) way(accel float64) float64 {
	return p.form() * (p.Peak*p.Peak - p.Start*p.Start) / (2 * accel)
}

// time gives the time between Start and Peak.
func (p *Profile) time(accel float64) float64 { return p.form() * (p.Peak - p.Start) / accel }

// At gives the time at which row k, from 0, is sent, in seconds after row 0.
func (p *Profile) At(k int64) float64 {
	s := float64(min(max(k, 0), p.Rows-1))
	if s <= p.Up {
		return p.reach(s, p.Accel, p.upSeconds)
	}
	if s <= p.Up+p.Flat {
		return p.upSeconds + (s-p.Up)/p.Peak
	}
	left := float64(p.Rows-1) - s // slowing down is speeding up, seen from the end
	return p.Seconds - p.reach(left, p.Decel, p.downSeconds)
}

// reach gives the time after which a distance is reached from Start on.
func (p *Profile) reach(s, accel, seconds float64) float64 {
	if s <= 0 {
		return 0
	}
	v0 := p.Start
	even := 2 * s / (v0 + math.Sqrt(v0*v0+2*accel*s)) // (√(v0² + 2as) − v0)/a, without the difference of two near numbers
	if p.Shape == Trapezoid {
		return even
	}
	// s(t) = v0·t + (v1 − v0)/2·(t − T/π·sin(πt/T)) rises with t: bisect, then
	// the slope does the rest.
	rise := p.Peak - v0
	at := func(t float64) float64 {
		return v0*t + rise/2*(t-seconds/math.Pi*math.Sin(math.Pi*t/seconds))
	}
	low, high := 0.0, seconds
	for range 60 {
		if mid := (low + high) / 2; at(mid) < s {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// Rate gives the rate at row k, in rows a second.
func (p *Profile) Rate(k int64) float64 {
	s := float64(min(max(k, 0), p.Rows-1))
	left := float64(p.Rows-1) - s
	switch {
	case s < p.Up:
		return p.rateAfter(s, p.Accel, p.upSeconds)
	case left < p.Down:
		return p.rateAfter(left, p.Decel, p.downSeconds)
	}
	return p.Peak
}

func (p *Profile) rateAfter(s, accel, seconds float64) float64 {
	if p.Shape == Trapezoid {
		return math.Sqrt(p.Start*p.Start + 2*accel*s)
	}
	t := p.reach(s, accel, seconds)
	return p.Start + (p.Peak-p.Start)*(1-math.Cos(math.Pi*t/seconds))/2
}

// Stop is the end of a move that is broken off at row k: the rows that are still
// sent while it slows down, the first of them the one after k. Its row 0 is row k.
func (p *Profile) Stop(k int64) (Profile, error) {
	rate := p.Rate(k)
	w := p.Wish
	w.Top, w.Accel = rate, math.MaxFloat64/4
	if rate <= w.Start {
		return Profile{Wish: Wish{Rows: 1, Start: w.Start, Top: rate, Accel: p.Accel, Decel: p.Decel, Shape: p.Shape}, Peak: rate}, nil // it stops at once
	}
	stop := Profile{Wish: w, Peak: rate}
	stop.Down = stop.way(w.Decel)
	stop.Rows = 1 + int64(math.Ceil(stop.Down-1e-9))
	stop.Down = float64(stop.Rows - 1) // a part of a row is added, at a slightly weaker braking
	stop.Decel = stop.form() * (rate*rate - w.Start*w.Start) / (2 * stop.Down)
	stop.downSeconds = stop.time(stop.Decel)
	stop.Seconds = stop.downSeconds
	stop.Accel = p.Accel
	return stop, nil
}
