package travel

import (
	"context"
	"math"
	"testing"

	"coilwalk/sequence"
)

// A million rows a second leave friction to hold the rotor where it is, so what is
// missing is what was sent. All figures here are reckoned by hand from that.
const atAStand = 1e6

// A rotor that stays is out of step on the row that makes it more than 250°: three
// rows of 90°, six of 45°, 23 of 11.25°, 26 of 10°. Forty rows of it are 40, 20, 5 or
// 4.4 full steps, and what is lost is the whole cycles of them.
func TestRowOnWhichAStandingRotorIsOutOfStep(t *testing.T) {
	eighths, err := sequence.Micro(8, 0)
	ninths, err9 := sequence.Micro(9, 0)
	if err != nil || err9 != nil {
		t.Fatal(err, err9)
	}
	p := planned(t, Wish{Rows: 40, Start: atAStand, Top: atAStand})
	for _, c := range []struct {
		mode sequence.Mode
		at   int64
		lost float64
	}{{sequence.Wave, 2, 40}, {sequence.Full, 2, 40}, {sequence.Half, 5, 20}, {eighths, 22, 4}, {ninths, 25, 4}} {
		for _, way := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
			if f, err := p.Follow(context.Background(), plant(t), c.mode, way); err != nil || f.At != c.at || f.Lost != c.lost {
				t.Errorf("%s, %s: %+v, %v; want %v lost from row %d on", c.mode.Title, way, f, err, c.lost, c.at)
			}
		}
	}
}

// What is lost on the ramp and what is lost on the even middle, of which most is not
// run, come to all that was sent; and the longest move is told as fast as any.
func TestStandingRotorLosesAllOfALongMove(t *testing.T) {
	for _, w := range []Wish{
		{Rows: 1_000_000, Start: atAStand, Top: atAStand},
		{Rows: 1_000_000, Top: atAStand, Accel: 1e9}, // 500 rows of ramp
		{Rows: MostRows, Start: atAStand, Top: atAStand},
	} {
		p := planned(t, w)
		for _, way := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
			f, err := p.Follow(&calledOff{context.Background(), 1000}, plant(t), sequence.Half, way) // asked every 16th row
			if want := float64(w.Rows) / 2; err != nil || !f.Cut || math.Abs(f.Lost-want) > 1e-4*want {
				t.Errorf("%+v, %s: %+v, %v; want %v lost", w, way, f, err, want)
			}
		}
	}
}

// A motor that follows does so for as long as one likes, and that too is told at once.
func TestLongestMoveIsFollowed(t *testing.T) {
	p := planned(t, Wish{Rows: MostRows, Start: 100, Top: 100})
	if f, err := p.Follow(&calledOff{context.Background(), 1000}, plant(t), sequence.Half, sequence.Reverse); err != nil || f.Kind != "" || f.Lost != 0 {
		t.Errorf("%+v, %v", f, err)
	}
}
