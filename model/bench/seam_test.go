package bench

import (
	"math"
	"math/big"
	"testing"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// A change of mode over the seam at 0° carries the cycle: what is commanded
// moves as the rotor does.
func TestModeChangeOverTheSeam(t *testing.T) {
	fine, err := sequence.Micro(16, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		from sequence.Mode
		step int64
		to   sequence.Mode
	}{{sequence.Half, 7, sequence.Wave}, {fine, 63, sequence.Half}, {sequence.Half, -8, sequence.Full}, {sequence.Half, -1, fine}, {fine, 1, sequence.Full}} {
		b := New(torques{}.motor())
		b.SetMode(c.from)
		b.Step(c.step)
		before := b.now.order.Degrees(b.now.step)
		b.SetMode(c.to)
		moved, _ := new(big.Rat).Sub(b.now.order.Degrees(b.now.step), before).Float64()
		if r := b.Read(); !r.TurnedOK || math.Abs(moved-r.Turned) > 1 {
			t.Errorf("%s step %d to %s: the command moved %v°, the rotor %v°", c.from.Title, c.step, c.to.Title, moved, r.Turned)
		}
	}
}

// A table whose rests repeat only every second cycle: a jump is still a walk.
func TestJumpWhereRestsRepeatLater(t *testing.T) {
	const a = 0.6
	rows := []sequence.Row{{a, 0, 0, 0}, {0, 0, a, 0}, {0, a, 0, 0}, {0, 0, 0, a}}
	for _, n := range []int64{1200, 1202, 1207, -1199} {
		jump, walk := New(torques{detent: 1, load: 0.5}.motor()), New(torques{detent: 1, load: 0.5}.motor())
		jump.SetTable(rows, jump.Read().Wiring)
		walk.SetTable(rows, walk.Read().Wiring)
		jump.Step(n)
		for range max(n, -n) {
			walk.Step(n / max(n, -n))
		}
		pitches, same := jump.Read().Where.Apart(walk.Read().Where)
		if !same || pitches != 0 || jump.Read().Step != walk.Read().Step {
			t.Errorf("%d rows: jump %v, walk %v", n, jump.Read().Where, walk.Read().Where)
		}
		if len(jump.Read().Where.Places) == 0 && jump.Read().Balance != rotor.Unknown && jump.Read().Balance != rotor.Adrift {
			t.Errorf("no places, and a balance of %d", jump.Read().Balance)
		}
	}
}

// Back to the table means its nearest row; the table is the one of that moment,
// and no one else's slice.
func TestBackToTheTable(t *testing.T) {
	rows := []sequence.Row{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}
	b := New(torques{friction: 0.05}.motor())
	b.SetTable(rows, b.Read().Wiring)
	b.SetTable([]sequence.Row{{0, 1, 0, 0}}, b.Read().Wiring)
	b.Rewind()
	fine, _ := sequence.Micro(16, 0)
	b.SetMode(fine)
	b.Restart()
	b.Step(33) // 185.6°
	rows[2] = sequence.Row{1, 1, 0, 0}
	b.BackToTable()
	if r := b.Read(); r.FieldDeg != 180 || r.Outputs != (sequence.Row{0, 0, 1, 0}) {
		t.Errorf("row %d at %v°, outputs %v", r.Row, r.FieldDeg, r.Outputs)
	}
}

func TestFiguresOutOfReach(t *testing.T) {
	b := New(torques{}.motor())
	rate := b.Rate()
	b.SetRate(math.NaN())
	if b.Rate() != rate {
		t.Errorf("rate %v", b.Rate())
	}
	for range 5 {
		b.Step(math.MaxInt64)
	}
	b.Step(math.MinInt64)
	if s := b.Read().Step; s < -farthest || s > farthest {
		t.Errorf("step %d", s)
	}
}
