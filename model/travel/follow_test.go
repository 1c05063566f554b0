package travel

import (
	"context"
	"math"
	"strings"
	"testing"
	"time"

	"coilwalk/sequence"
)

func planned(t *testing.T, w Wish) Profile {
	t.Helper()
	p, err := w.Plan()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Rows sent far too fast leave the rotor where it is: all full steps are lost,
// whichever way and however many of them are not run, and the first is told after
// five to eight rows, when 250° are missing.
func TestRotorThatIsLeftBehind(t *testing.T) {
	for _, rows := range []int64{400, 800, 1_000_000} {
		p := planned(t, Wish{Rows: rows, Start: 50_000, Top: 50_000})
		for _, way := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
			f, err := p.Follow(context.Background(), plant(t), sequence.Half, way)
			if err != nil || f.Kind != "fast-start" || f.At < 4 || f.At > 8 || math.Abs(f.Lost-float64(rows)/2) > 0.02*float64(rows) || math.Mod(f.Lost, 4) != 0 {
				t.Errorf("%d rows, %s: %+v, %v", rows, way, f, err)
			}
		}
	}
}

// What is left out of an even middle is whole cycles, whichever way, and a move
// just too short has none left out.
func TestEvenMiddle(t *testing.T) {
	for _, c := range []struct {
		p          Profile
		from, rows int64
	}{
		{Profile{Wish: Wish{Rows: 5000}, Up: 100.5, Down: 50.2}, 401, 4240}, // to 5000 − 1 − 51 − 300 = 4648
		{Profile{Wish: Wish{Rows: 761}, Up: 101, Down: 51}, 401, 8},
		{Profile{Wish: Wish{Rows: 760}, Up: 101, Down: 51}, 401, 0},
		{Profile{Wish: Wish{Rows: 300}, Up: 101, Down: 51}, 401, 0},
	} {
		if from, rows := c.p.evenMiddle(300, 8); from != c.from || rows != c.rows {
			t.Errorf("%d rows: %d are left out from %d on, want %d from %d on", c.p.Rows, rows, from, c.rows, c.from)
		}
	}
	for _, way := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
		long := planned(t, Wish{Rows: 100_001, Start: 200, Top: 300, Accel: 500})
		if f, err := long.Follow(context.Background(), plant(t), sequence.Half, way); err != nil || !f.Cut || f.Kind != "" || f.Lost != 0 || f.At != -1 {
			t.Errorf("%s: %+v, %v", way, f, err)
		}
	}
}

func TestWhatALossComesOf(t *testing.T) {
	ramped := Profile{Wish: Wish{Rows: 1000}, Up: 100, Down: 50}
	for k, want := range map[int64]string{0: "fast-start", 12: "fast-start", 13: "steep-ramp", 101: "steep-ramp", 102: "lost-steps", 949: "lost-steps", 950: "steep-ramp", 999: "steep-ramp"} {
		if got := ramped.kindAt(k, 12); got != want {
			t.Errorf("row %d of a ramp: %s, want %s", k, got, want)
		}
	}
	atOnce := Profile{Wish: Wish{Rows: 1000, Start: 300}}
	for _, k := range []int64{0, 13, 500, 999} {
		if got := atOnce.kindAt(k, 12); got != "fast-start" {
			t.Errorf("row %d of a move at once: %s", k, got)
		}
	}
	smooth := Profile{Wish: Wish{Rows: 1000, Start: 300}, Up: 100, Down: 50}
	if got := smooth.kindAt(500, 12); got != "lost-steps" {
		t.Errorf("in the middle: %s", got)
	}
	long := planned(t, Wish{Rows: 1000, Top: 100, Accel: 50})
	broken, err := long.Stop(500) // 100 rows more, and it brakes on each
	if err != nil {
		t.Fatal(err)
	}
	if got := broken.kindAt(50, 12); got != "steep-ramp" {
		t.Errorf("where a move is broken off: %s", got)
	}
}

// The room that is told is one: with nearly so much more load the motor follows,
// with a thirtieth of what it holds beyond it does not. A load helps on the way
// back by as much as it hinders on the way there.
func TestRoomIsThere(t *testing.T) {
	p := planned(t, Wish{Rows: 120, Start: 150, Top: 150})
	base := plant(t)
	holds := math.Sqrt2 * base.OnePhase() * base.Ratio
	rooms := map[sequence.Direction]float64{}
	for _, load := range []float64{0, holds / 10} {
		for _, way := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
			loaded := base
			loaded.Load.Torque = load
			room, err := p.Room(context.Background(), loaded, sequence.Half, way)
			if err != nil || room <= 0 || room >= holds*1.2 {
				t.Fatalf("%s: room of %v N·m, it holds %v; %v", way, room, holds, err)
			}
			for _, c := range []struct {
				more    float64
				follows bool
			}{{0.95 * room, true}, {room + holds/29, false}} {
				now := loaded
				now.Load.Torque = load + float64(way)*c.more
				if f, err := p.Follow(context.Background(), now, sequence.Half, way); err != nil || (f.Kind == "") != c.follows {
					t.Errorf("%s with %v N·m more of a room of %v: %+v, %v", way, c.more, room, f, err)
				}
			}
			if load == 0 {
				rooms[way] = room
			} else if off := rooms[way] - float64(way)*load - room; math.Abs(off) > holds/25 {
				t.Errorf("%s: room %v without load, %v with %v", way, rooms[way], room, load)
			}
		}
	}
}

// The steepest ramp that is told is half of one that is followed, and with twice
// that it is not.
func TestSteepestIsFollowed(t *testing.T) {
	w := Wish{Rows: 400, Top: 1000}
	base := plant(t)
	base.Inertia *= 10 // so that it is a ramp that counts, and not each single row
	sought, err := w.Steepest(context.Background(), base, sequence.Half, sequence.Forward, true)
	accel := sought.Accel
	if err != nil || accel <= 0 {
		t.Fatal(accel, err)
	}
	for by, follows := range map[float64]bool{1: true, 2: true, 4: false} {
		w.Accel, w.Decel = by*accel, by*accel
		p := planned(t, w)
		if f, err := p.Follow(context.Background(), base, sequence.Half, sequence.Forward); err != nil || (f.Kind == "") != follows {
			t.Errorf("%v times %v rows/s²: %+v, %v", by, accel, f, err)
		}
	}
}

// Where any ramp is followed, because it is over within a row, what is told is what
// the motor's own torque can do: T/J of the rotor, as rows a second, a second, with T
// between that of one coil and √2 of it, that of two (hand derivation).
func TestSteepestIsWhatTheTorqueCanDo(t *testing.T) {
	base := plant(t)
	for _, mode := range sequence.Modes {
		sought, err := Wish{Rows: 40, Top: 100}.Steepest(context.Background(), base, mode, sequence.Forward, true)
		accel := sought.Accel
		if err != nil {
			t.Fatal(err)
		}
		rowsPerRadian := float64(base.PolePairs*mode.Rows()) / (2 * math.Pi)
		if one := base.OnePhase() / base.TotalInertia() * rowsPerRadian; accel < one || accel > math.Sqrt2*one {
			t.Errorf("%s: %v rows/s², and one coil gives %v", mode.Name, accel, one)
		}
	}
}

// calledOff is a context that is, after it has been asked a number of times.
type calledOff struct {
	context.Context
	after int
}

func (c *calledOff) Err() error {
	if c.after--; c.after < 0 {
		return context.Canceled
	}
	return nil
}

// Who calls a long move off does not wait for its end.
func TestFollowIsCalledOffOnTheWay(t *testing.T) {
	p := planned(t, Wish{Rows: 3000, Start: 200, Top: 400, Accel: 40})
	for after, want := range map[int]error{0: context.Canceled, 1: context.Canceled, 2: context.Canceled, 1000: nil} {
		if _, err := p.Follow(&calledOff{context.Background(), after}, plant(t), sequence.Half, sequence.Forward); err != want {
			t.Errorf("asked %d times: %v, want %v", after, err, want)
		}
	}
}

// A load that is more than the motor holds is told as such, at the first row.
func TestLoadThatCanNotBeHeld(t *testing.T) {
	heavy := plant(t)
	heavy.Load.Torque = 2 * math.Sqrt2 * heavy.OnePhase() * heavy.Ratio
	p := planned(t, Wish{Rows: 20, Top: 100, Accel: 100})
	if f, err := p.Follow(context.Background(), heavy, sequence.Full, sequence.Forward); err != nil || f.Kind != "lost-steps" || f.At != 0 {
		t.Errorf("%+v, %v", f, err)
	}
}

// A rotor that rests is not run through the rest of a row: a move may be as slow as
// one likes, and so may the loads that are tried on it.
func TestSlowRowsCostLittle(t *testing.T) {
	ctx, done := context.WithTimeout(context.Background(), 10*time.Second)
	defer done()
	slow, usual := planned(t, Wish{Rows: 400, Start: 1e-4, Top: 1e-4}), planned(t, Wish{Rows: 400, Start: 20, Top: 20})
	f, err := slow.Follow(ctx, plant(t), sequence.Half, sequence.Forward)
	if err != nil || f.Kind != "" || f.Lost != 0 {
		t.Fatalf("%+v, %v", f, err)
	}
	room, err := slow.Room(ctx, plant(t), sequence.Half, sequence.Forward)
	if err != nil {
		t.Fatal(err)
	}
	if want, err := usual.Room(ctx, plant(t), sequence.Half, sequence.Forward); err != nil || math.Abs(room-want) > want/10 {
		t.Errorf("%g N.m more are borne, and %g at a usual rate: %v", room, want, err)
	}
}

// A load that carries the rotor away does so at any rate, and is told at once.
func TestSlowRowsUnderALoadThatCarriesAway(t *testing.T) {
	ctx, done := context.WithTimeout(context.Background(), 10*time.Second)
	defer done()
	p, slow := plant(t), planned(t, Wish{Rows: 400, Start: 1e-4, Top: 1e-4})
	p.Load.Torque = 1.2 * p.OnePhase() * p.Ratio // held on a row with two coils on, not on one with one
	f, err := slow.Follow(ctx, p, sequence.Half, sequence.Forward)
	if err != nil || f.Kind == "" || f.At < 0 {
		t.Errorf("%+v, %v", f, err)
	}
}

func TestRowsThatStayForAges(t *testing.T) {
	for _, w := range []Wish{
		{Rows: 400, Start: 1e-12, Top: 1e-12},
		{Rows: 400, Top: 300, Accel: 1e-300},
		{Rows: 400, Top: 300, Accel: 100, Decel: 1e-300},
		{Rows: 2, Top: 300, Accel: 1e-300},
	} {
		if _, err := w.Plan(); err == nil || !strings.Contains(err.Error(), "a row would stay for") {
			t.Errorf("%+v: %v", w, err)
		}
	}
}
