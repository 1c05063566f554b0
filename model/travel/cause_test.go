package travel

import (
	"testing"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// No ramp is too steep to a rate that the motor falls out at anyway, and what a
// ramp leaves behind may end it in the even middle.
func TestCause(t *testing.T) {
	p := planned(t, Wish{Rows: 3000, Start: 300, Top: 900, Accel: 1000}) // up over 360 rows
	atOnce := planned(t, Wish{Rows: 3000, Start: 900, Top: 900})
	for _, c := range []struct {
		p    Profile
		kind string
		at   int64
		most float64 // that the motor goes on at
		want string
	}{
		{p, "", -1, 500, ""},
		{p, "fast-start", 5, 1000, "fast-start"}, // at 300, and it starts at 250
		{planned(t, Wish{Rows: 3000, Start: 200, Top: 900, Accel: 1e5}), "fast-start", 5, 1000, "steep-ramp"},
		{p, "steep-ramp", 200, 1000, "steep-ramp"},
		{p, "steep-ramp", 200, 500, "lost-steps"},  // 700 rows/s there
		{p, "steep-ramp", 2900, 850, "lost-steps"}, // in slowing down, of a swing from before
		{p, "steep-ramp", 2900, 950, "steep-ramp"},
		{p, "lost-steps", 400, 950, "steep-ramp"},
		{p, "lost-steps", 400, 850, "lost-steps"},
		{p, "lost-steps", 1500, 950, "lost-steps"},
		{atOnce, "fast-start", 500, 950, "fast-start"},
		{atOnce, "fast-start", 500, 850, "lost-steps"},
	} {
		if got := c.p.Cause(Followed{At: c.at, Kind: c.kind}, sequence.Half, rotor.Rates{StartStop: 250, PullOut: c.most}); got != c.want {
			t.Errorf("%s at row %d, where it goes on to %v: %q, want %q", c.kind, c.at, c.most, got, c.want)
		}
	}
}
