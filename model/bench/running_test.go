package bench

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// Over any parting of the time, the rows sent are those that were due: none
// lost, none sent twice.
func TestRowsDueByElapsedTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := random(t)
		b := New(torques{}.motor())
		rate := MinRate + r.Float64()*(MaxRate-MinRate)
		b.SetRate(rate)
		b.Run()
		var passed time.Duration
		sent := 0
		for range 1 + r.IntN(60) {
			d := time.Duration(r.Int64N(int64(LongestStall) + 1))
			if r.IntN(3) == 0 {
				d = time.Duration(r.Int64N(int64(time.Millisecond)))
			}
			passed += d
			step := b.Read().Step
			n := b.Elapse(d)
			sent += n
			if b.Read().Step != step+int64(n) {
				t.Fatalf("%d rows are said to be sent, step %d to %d", n, step, b.Read().Step)
			}
			if due := rate * passed.Seconds(); float64(sent) > due+1e-6 || float64(sent) < due-1-1e-6 {
				t.Fatalf("%v rows due after %v at %v a second, %d sent", due, passed, rate, sent)
			}
		}
	})
}

// At rates and times that a float holds exactly, rows come on the moment.
func TestRowsComeOnTheMoment(t *testing.T) {
	for _, c := range []struct {
		rate float64
		tick time.Duration
		rows []int
	}{
		{8, 125 * time.Millisecond, []int{1, 1, 1, 1}},
		{4, 125 * time.Millisecond, []int{0, 1, 0, 1}},
		{12, 125 * time.Millisecond, []int{1, 2, 1, 2}},
		{2, 250 * time.Millisecond, []int{0, 1, 0, 1}},
		{0.5, 250 * time.Millisecond, []int{0, 0, 0, 0, 0, 0, 0, 1, 0}},
		{200, 250 * time.Millisecond, []int{50, 50}},
	} {
		b := New(torques{}.motor())
		b.SetRate(c.rate)
		b.Run()
		for k, want := range c.rows {
			if got := b.Elapse(c.tick); got != want {
				t.Errorf("%v a second, tick %d of %v: %d rows, want %d", c.rate, k+1, c.tick, got, want)
			}
		}
	}
}

// After a stall rows are dropped, not sent in a burst.
func TestAStallIsCapped(t *testing.T) {
	for _, stall := range []time.Duration{250 * time.Millisecond, 251 * time.Millisecond, time.Second, time.Hour, math.MaxInt64} {
		b := New(torques{}.motor())
		b.SetRate(100)
		b.Run()
		if got := b.Elapse(stall); got != 25 {
			t.Errorf("%v: %d rows at once, want 25", stall, got)
		}
		if got := b.Elapse(time.Millisecond); got != 0 {
			t.Errorf("%v: %d more rows after it", stall, got)
		}
	}
}

// Stopped, time does nothing; nor does time that goes back.
func TestStoppedNothingIsSent(t *testing.T) {
	b := New(torques{}.motor())
	if b.Running() || b.Elapse(time.Second) != 0 || b.Read().Step != 0 {
		t.Errorf("never run: %+v", b.Read())
	}
	b.SetRate(10)
	b.Run()
	if !b.Running() || !b.Read().Running {
		t.Error("not running")
	}
	b.Elapse(90 * time.Millisecond) // 0.9 rows are owed
	for _, d := range []time.Duration{0, -time.Millisecond, -time.Hour, math.MinInt64} {
		if b.Elapse(d) != 0 {
			t.Errorf("%v sends rows", d)
		}
	}
	b.Stop()
	b.Stop()
	if b.Running() || b.Elapse(time.Hour) != 0 || b.Read().Step != 0 {
		t.Errorf("stopped: %+v", b.Read())
	}
	b.Run()
	if b.Elapse(50*time.Millisecond) != 0 {
		t.Error("a run pays what an earlier run owed")
	}
	if b.Elapse(50*time.Millisecond) != 1 {
		t.Error("a remainder is lost")
	}
}

// A run goes the way that Next goes, each row one that a rewind takes back.
func TestARunIsNextAndNext(t *testing.T) {
	run, walk := New(torques{friction: 0.1}.motor()), New(torques{friction: 0.1}.motor())
	for _, b := range []*Bench{run, walk} {
		b.Reverse()
		b.SetRate(100)
	}
	run.Run()
	for range 11 {
		walk.Next()
	}
	if run.Elapse(115*time.Millisecond) != 11 {
		t.Fatal("11 rows were due")
	}
	run.Stop()
	if got, want := run.Read(), walk.Read(); !equal(got, want) || got.Step != -11 || got.Undoable != 12 {
		t.Errorf("%+v, want %+v", got, want)
	}
	if run.now.way != sequence.Reverse {
		t.Error("the way changed")
	}
}

func TestSetRateClamps(t *testing.T) {
	b := New(torques{}.motor())
	if b.Rate() != FirstRate {
		t.Errorf("first %v", b.Rate())
	}
	for set, want := range map[float64]float64{1: 1, 0.5: 0.5, 200: 200, 0.49: 0.5, 0: 0.5, -3: 0.5, 201: 200, 1e300: 200, math.Inf(1): 200, math.Inf(-1): 0.5} {
		if b.SetRate(set); b.Rate() != want || b.Read().Rate != want {
			t.Errorf("%v is kept as %v, want %v", set, b.Rate(), want)
		}
	}
}
