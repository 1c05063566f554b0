package view

import (
	"testing"
	"time"

	"coilwalk/view/picture"
)

// running is the screen that the budgets are about: half step at 12 rows a
// second in 256 colours, w × h cells, with something moving in every picture.
func running(t testing.TB, w, h int) (e *Explorer, next func() string) {
	e, c := explorer(t, "vent-flap", Settings{Depth: picture.Colours256})
	sized(e, w, h)
	press(e, "enter")
	return e, func() string {
		c.pass(time.Second / frameRate)
		e.Update(frameMsg(e.frame))
		return e.View()
	}
}

// Update + View of Walk at 200×60 while running: at most 1 ms.
func BenchmarkBudgetWalk200x60(b *testing.B) {
	_, next := running(b, 200, 60)
	b.ReportAllocs()
	for b.Loop() {
		next()
	}
	b.ReportMetric(1e6, "allowed-ns")
}

// At most 200 allocations for the same.
func TestBudgetAllocations(t *testing.T) {
	_, next := running(t, 200, 60)
	most := 200.0
	if raced {
		most = 230 // the detector's own are among them
	}
	n := testing.AllocsPerRun(100, func() { next() })
	t.Logf("budget: allocations of a picture at 200x60: %.0f of 200", n)
	if n > most {
		t.Errorf("%.0f allocations a picture, at most 200 are meant", n)
	}
}

// Yardstick is a fixed loop of whole numbers: its time says how fast the machine
// is while the budgets are measured.
func BenchmarkYardstick(b *testing.B) {
	x := uint64(88172645463325252)
	for b.Loop() {
		for range 100_000 {
			x ^= x << 13
			x ^= x >> 7
			x ^= x << 17
		}
	}
	if x == 0 {
		b.Fatal("the generator has stopped")
	}
}

// The same at 1000 rows a second, where a run may take as much computing as it is
// ever let: at most 2 ms.
func BenchmarkBudgetWalkFast(b *testing.B) {
	e, next := running(b, 200, 60)
	press(e, "p", "1000", "enter")
	b.ReportAllocs()
	for b.Loop() {
		next()
	}
	b.ReportMetric(2e6, "allowed-ns")
}
