package course

import (
	"context"
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

func machine(t testing.TB, name string) *Motor {
	t.Helper()
	m, ok := motor.BuiltIn(name)
	if !ok {
		t.Fatal(name)
	}
	p, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
	if err != nil {
		t.Fatal(err)
	}
	return &Motor{Name: name, Plant: p}
}

// lasting makes a course of half-step rows with given intervals in microseconds,
// from rest on the first row.
func lasting(intervals []float64) *Course {
	rows := strings.Fields(halves)
	c := &Course{Tick: 1e-9}
	at := 1e8 // ns
	for i, d := range append([]float64{5e5}, intervals...) {
		word := rows[i%8]
		levels := uint8(0)
		for k := range 4 {
			levels |= (word[k] - '0') << k
		}
		c.add(Row{At: int64(at), Levels: levels})
		at += d * 1e3
	}
	c.Until = int64(at + 5e8)
	return c
}

func even(n int, d float64) (all []float64) {
	for range n {
		all = append(all, d)
	}
	return all
}

// flapRates are those of the vent flap's motor by trials, run once for all tests.
var flapRates = sync.OnceValue(func() rotor.Rates {
	m, _ := motor.BuiltIn("vent-flap")
	p, _, err := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
	if err != nil {
		panic(err)
	}
	found, _ := rotor.NewTrials(p, sequence.Half).Follow(rotor.Sweep{}, nil)
	return found
})

// What the ride tells of a steady start is what the trials of rates tell: both
// run the same machine, one from a recording, one from its own order.
func TestRideAgreesWithTheRates(t *testing.T) {
	m := machine(t, "vent-flap")
	found := flapRates()
	for _, part := range []float64{0.6, 0.9, 0.97, 1.04, 1.2, 2} {
		rate := part * found.StartStop
		v := Judge(lasting(even(100, 1e6/rate)), [4]string{"1", "2", "3", "4"}, Question{})
		with, err := v.Hold(context.Background(), m, false)
		if err != nil {
			t.Fatal(err)
		}
		lost := with.Lost != nil && *with.Lost != 0
		if want := part > 1; lost != want {
			t.Errorf("at %.2f of the start–stop rate: lost %v (%v)", part, lost, with.Faults)
		}
		if lost && (with.Sound || with.Faults[0].Kind != "fast-start" || with.Faults[0].Row != 2) { // row 1 is held
			t.Errorf("at %.2f of it: %v", part, with.Faults)
		}
	}
}

// Between the start–stop rate and the pull-out rate a motor follows when it is
// brought there slowly, and not when it is not.
func TestRampsSlowAndSteep(t *testing.T) {
	m := machine(t, "vent-flap")
	found := flapRates()
	from, to := 0.7*found.StartStop, 0.9*found.PullOut
	if to < 1.1*found.StartStop {
		t.Fatalf("no slew range: %+v", found)
	}
	ramp := func(rows int) (d []float64) {
		for k := range rows {
			d = append(d, 1e6/(from+(to-from)*float64(k)/float64(rows)))
		}
		return append(d, even(80, 1e6/to)...)
	}
	back := func(d []float64) []float64 {
		for k := range 150 {
			d = append(d, 1e6/(to-(to-from)*float64(k)/150))
		}
		return d
	}
	for _, c := range []struct {
		rows int
		want string
	}{{200, ""}, {3, "steep-ramp"}} {
		v := Judge(lasting(back(append(even(30, 1e6/from), ramp(c.rows)...))), [4]string{"1", "2", "3", "4"}, Question{})
		with, err := v.Hold(context.Background(), m, false)
		if err != nil {
			t.Fatal(err)
		}
		kind := ""
		if len(with.Faults) > 0 {
			kind = with.Faults[0].Kind
		}
		if kind != c.want {
			t.Errorf("a ramp of %d rows: %q, want %q (lost %v)", c.rows, kind, c.want, *with.Lost)
		}
	}
}

// A moment that is taken up again from a mark is the moment that was run through.
func TestRideTakenUpAgain(t *testing.T) {
	m := machine(t, "hybrid-4")
	v := Judge(lasting(even(300, 1500)), [4]string{"1", "2", "3", "4"}, Question{})
	ride := NewRide(v, &m.Plant)
	again := rotor.NewMotion(&m.Plant)
	for ride.Next() < v.Course.Len() {
		if err := ride.Run(context.Background(), ride.Next()+1); err != nil {
			t.Fatal(err)
		}
		if n := ride.Next() - 1; n%37 == 5 || n%64 == 0 {
			want := ride.motion.State()
			got, ok := ride.At(v.Course.Row(n).At+v.Course.Dwell(n), again)
			if n+1 < v.Course.Len() { // its end is the next row's begin, which has not been run
				got, ok = ride.At(v.Course.Row(n).At+v.Course.Dwell(n)-1, again)
			}
			if !ok || math.Abs(got.Place.From(want.Place)) > 1e-2 {
				t.Fatalf("row %d ends at %v, and again at %v, %v", n, want.Place, got.Place, ok)
			}
		}
	}
	if _, ok := ride.At(v.Course.Row(0).At-1, again); ok {
		t.Error("a moment before the first row is told")
	}
}

// A long pause is not run through at the pace of the coils' leakage.
func TestRideOverALongPause(t *testing.T) {
	m := machine(t, "vent-flap")
	c := lasting(append(append(even(20, 4000), 3.6e9), even(20, 4000)...))
	v := Judge(c, [4]string{"1", "2", "3", "4"}, Question{})
	ride := NewRide(v, &m.Plant)
	if err := ride.Run(context.Background(), c.Len()); err != nil {
		t.Fatal(err)
	}
	if slips, lost := ride.Slips(); lost != 0 {
		t.Errorf("%v, %v lost", slips, lost)
	}
	if work := ride.motion.Work().Steps; work > 200_000 {
		t.Errorf("%d steps since the pause", work)
	}
}

// An estimated inertia makes what is told a caution, which leaves it sound.
func TestCautions(t *testing.T) {
	m := machine(t, "vent-flap")
	m.Caution, m.Estimated = true, []string{"inertia", "damping"}
	v := Judge(lasting(even(100, 250)), [4]string{"1", "2", "3", "4"}, Question{})
	with, err := v.Hold(context.Background(), m, false)
	if err != nil {
		t.Fatal(err)
	}
	if !with.Sound || len(with.Faults) != 1 || !with.Faults[0].Caution() || !strings.Contains(with.Faults[0].Text, "inertia and damping are estimated") {
		t.Errorf("sound %v: %v", with.Sound, with.Faults)
	}
	if !v.Sound || len(v.Faults) != 0 {
		t.Error("the verdict without the motor changed")
	}
}

func TestTurnedTooFast(t *testing.T) {
	m := machine(t, "vent-flap")
	c := &Course{Tick: 1e-9}
	rows := strings.Fields(halves)
	at, k := int64(1e8), 0
	add := func(by int, d float64) {
		k += by
		levels := uint8(0)
		for b := range 4 {
			levels |= (rows[(k%8+8)%8][b] - '0') << b
		}
		c.add(Row{At: at, Levels: levels})
		at += int64(d * 1e3)
	}
	rate := func(r float64) float64 { return 1e6 / r }
	add(0, 5e5)
	for n := range 200 {
		add(1, rate(300+600*float64(n)/200))
	}
	for range 20 {
		add(-1, rate(900))
	}
	c.Until = at + 1e9
	v := Judge(c, [4]string{"1", "2", "3", "4"}, Question{})
	if len(v.Faults) != 0 || len(v.Runs) != 2 {
		t.Fatalf("without a motor: %v, %d runs", v.Faults, len(v.Runs))
	}
	with, err := v.Hold(context.Background(), m, false)
	if err != nil {
		t.Fatal(err)
	}
	told := fmt.Sprint(with.Faults)
	if !strings.Contains(told, "reversal") {
		t.Errorf("a reversal at 900 rows a second is not told: %s", told)
	}
}

// A recording of ages, by a timescale that is wrong, is refused, not run for ages:
// beside such times a step of the rotor is nothing.
func TestRideOfAges(t *testing.T) {
	m := machine(t, "vent-flap")
	c := lasting(even(20, 4000))
	c.Tick = 10
	v := Judge(c, [4]string{"1", "2", "3", "4"}, Question{})
	if err := NewRide(v, &m.Plant).Run(context.Background(), c.Len()); err == nil || !strings.Contains(err.Error(), "timescale") {
		t.Error(err)
	}
}
