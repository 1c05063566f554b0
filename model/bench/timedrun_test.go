package bench

import (
	"math"
	"testing"
	"time"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

const picture = time.Second / 30

// sitting gives a bench with a built-in motor, to be run at a rate.
func sitting(t testing.TB, name string, rate float64) *Bench {
	t.Helper()
	m, ok := motor.BuiltIn(name)
	if !ok {
		t.Fatal(name)
	}
	b := New(m)
	b.SetRate(rate)
	return b
}

// let lets so many pictures pass.
func let(b *Bench, pictures int) (rows int) {
	for range pictures {
		rows += b.Elapse(picture)
	}
	return rows
}

// A run is the machine of package rotor under the rows as they come due: the same
// motion, run by itself and much more exactly, is at the same place.
func TestARunIsTheMachineInTime(t *testing.T) {
	for _, c := range []struct {
		motor string
		rate  float64
	}{{"vent-flap", 12}, {"vent-flap", 600}, {"vent-flap", 1000}, {"hybrid-4", 60}, {"hybrid-6", 500}, {"can-48", 300}} {
		b := sitting(t, c.motor, c.rate)
		b.Run()
		plant, err := b.Plant()
		if err != nil {
			t.Fatal(err)
		}
		m := rotor.NewMotion(&plant)
		m.Tolerance = 1e-9
		m.Start(rotor.State{Place: b.Read().Where.Places[0]})
		order := sequence.Half.Order()
		m.Energise(order.Row(0))
		if _, _, err := m.Settle(order.Row(0), 1); err != nil {
			t.Fatal(err)
		}
		s := m.State()
		s.Seconds = 0
		m.Start(s)
		m.Energise(order.Row(0))
		const pictures = 15
		rows := let(b, pictures)
		for k := range rows {
			if err := m.Advance(float64(k) / c.rate); err != nil {
				t.Fatal(err)
			}
			m.Energise(order.Row(int64(k + 1)))
		}
		if err := m.Advance(pictures * picture.Seconds()); err != nil {
			t.Fatal(err)
		}
		at, known := b.Read().Where.Known()
		if off := at.From(m.State().Place); !known || math.Abs(off) > 0.5 {
			t.Errorf("%s at %g rows/s: after %d rows %.3f° electrical from where the machine by itself is", c.motor, c.rate, rows, off)
		}
	}
}

// The faster, the further the rotor trails its field, in both directions alike; it
// loses no row at a rate that it starts at, and nearly all far above.
func TestTheLagOfARun(t *testing.T) {
	last := 0.0
	for _, rate := range []float64{100, 300, 600, 1000} {
		lags := map[sequence.Direction]float64{}
		for _, way := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
			b := sitting(t, "vent-flap", rate)
			if way == sequence.Reverse {
				b.Reverse()
			}
			b.Run()
			rows := let(b, 30)
			r := b.Read()
			lags[way] = r.InTime.Lag
			if !r.Timed || r.InTime.Lost != 0 || r.InTime.Rows != int64(rows) || r.InTime.Losing {
				t.Errorf("%g rows/s, %v: %+v after %d rows", rate, way, r.InTime, rows)
			}
		}
		if f, v := lags[sequence.Forward], lags[sequence.Reverse]; f < last+3 || math.Abs(f-v) > 1 {
			t.Errorf("%g rows/s: a lag of %.1f° forward and %.1f° in reverse, after %.1f° at a lower rate", rate, f, v, last)
		}
		last = lags[sequence.Forward]
	}
	b := sitting(t, "vent-flap", 3000)
	b.Run()
	let(b, 30)
	if r := b.Read().InTime; float64(r.Lost) < 0.95*float64(r.Rows) || !r.Losing || math.Abs(r.Turned) > 360 {
		t.Errorf("at 3000 rows/s: %+v", r)
	}
}

// A mean lag has a check of its own: without detent, the torque of the field at
// the mean speed is what the load and the damping take (balance of power over a
// cycle; from memory).
func TestTheLagCarriesTheLoad(t *testing.T) {
	m, _ := motor.BuiltIn("hybrid-4")
	m.Figures.Detent = quantity.NewtonMetres(1e-9)
	m.Figures.Load = quantity.NewtonMetres(0.1)
	b := New(m)
	micro, err := sequence.Micro(16, 0)
	if err != nil {
		t.Fatal(err)
	}
	b.SetMode(micro)
	b.SetRate(400) // 25 full steps a second: far below any resonance
	b.Run()
	let(b, 90)
	p, err := b.Plant()
	if err != nil {
		t.Fatal(err)
	}
	speed := 400.0 / 16 * math.Pi / 2 / float64(p.PolePairs) // rad/s of the rotor
	want := math.Asin((0.1+p.Damping*speed)/p.OnePhase()) * 180 / math.Pi
	if got := b.Read().InTime.Lag; math.Abs(got-want) > 0.5 {
		t.Errorf("a lag of %.2f°, by the balance %.2f°", got, want)
	}
}

// A stopped run is at rest, where the statics keep it, and a rewind takes its rows
// back one by one, each to the rest of its row.
func TestAStoppedRunIsAtRest(t *testing.T) {
	b := sitting(t, "vent-flap", 800)
	b.Run()
	rows := let(b, 20)
	b.Stop()
	r := b.Read()
	if r.Timed || r.Running || r.Step != int64(rows) || r.Undoable != rows {
		t.Fatalf("%d rows, and %+v", rows, r)
	}
	for k := rows; k >= 0; k-- {
		r := b.Read()
		at, known := r.Where.Known()
		if !known || r.Step != int64(k) || r.Balance != rotor.Held || math.Abs(r.Lag) > 5 {
			t.Fatalf("taken back to row %d: %+v", k, r)
		}
		again, _ := b.machine.Follow(rotor.At(at), r.Field)
		if to, ok := again.Known(); !ok || math.Abs(to.From(at)) > 1e-6 {
			t.Fatalf("taken back to row %d it stands at %v and would go to %v", k, at, again)
		}
		if want := 45 * float64(k); math.Abs(total(at)-want) > 5 {
			t.Fatalf("taken back to row %d it is at %.2f°, where %.0f° was asked and nothing lost", k, total(at), want)
		}
		b.Rewind()
	}
	if b.Next(); known(t, b) < 40 {
		t.Errorf("it does not go on from there: %v°", known(t, b))
	}
}

// What is done in a run goes on from how the rotor moves, or from its rest; the
// run goes on, in time.
func TestDeedsInARun(t *testing.T) {
	for name, do := range map[string]func(b *Bench){
		"mode":    func(b *Bench) { b.SetMode(sequence.Full) },
		"swap":    func(b *Bench) { _ = b.Swap(1, 3) },
		"reverse": func(b *Bench) { b.Reverse() },
		"next":    func(b *Bench) { b.Next() },
		"back":    func(b *Bench) { b.Back() },
		"jump":    func(b *Bench) { _ = b.Jump(1000) },
		"drive":   func(b *Bench) { _ = b.SetDrive(sequence.Bipolar) },
		"rewind":  func(b *Bench) { b.Rewind() },
		"table": func(b *Bench) {
			b.SetTable([]sequence.Row{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}, b.Read().Wiring)
		},
		"train": func(b *Bench) { b.SetTrain(motor.Train{}) },
	} {
		b := sitting(t, "hybrid-6", 100)
		b.Run()
		let(b, 10)
		do(b)
		step := b.Read().Step
		let(b, 10)
		r := b.Read()
		if !r.Running || !r.Timed || r.InTime.Lost != 0 && name != "swap" || r.Step == step {
			t.Errorf("%s: %+v", name, r)
		}
		if _, ok := r.Where.Known(); !ok {
			t.Errorf("%s: it is not known where the rotor is", name)
		}
	}
}

// Two leads swapped, slowly: the rotor is shaken and gets nowhere, and the
// direction makes no difference to that.
func TestSwappedLeadsShakeInTime(t *testing.T) {
	for _, way := range []int{1, -1} {
		b := sitting(t, "vent-flap", 20)
		if way < 0 {
			b.Reverse()
		}
		if err := b.Swap(2, 3); err != nil {
			t.Fatal(err)
		}
		b.Run()
		least, most := math.Inf(1), math.Inf(-1)
		for range 90 {
			b.Elapse(picture)
			least, most = min(least, known(t, b)), max(most, known(t, b))
		}
		if r := b.Read().InTime; most-least < 90 || most-least > 400 || float64(r.Lost) < 0.8*float64(r.Rows) {
			t.Errorf("way %d: between %.0f° and %.0f°; %+v", way, least, most, r)
		}
	}
}

// Where it is not known at which of some places the rotor is, each is run.
func TestEveryPlaceIsRun(t *testing.T) {
	b := sitting(t, "hybrid-4", 20)
	b.SetMode(sequence.Wave)
	b.Step(2) // so that a hill lies opposite when the leads change
	if err := b.Swap(1, 3); err != nil {
		t.Fatal(err)
	}
	if n := len(b.Read().Where.Places); n != 2 {
		t.Fatalf("%d places", n)
	}
	b.Run()
	let(b, 10)
	if r := b.Read(); !r.Timed || r.InTime.Certain || len(r.Where.Places) != 2 {
		t.Errorf("%+v", r)
	}
	b.Stop()
	if r := b.Read(); len(r.Where.Places) != 2 || math.Abs(math.Abs(r.Where.Places[0].From(r.Where.Places[1]))-360) > 1 {
		t.Errorf("stopped: %+v", r.Where)
	}
}

// A motor that can not be computed in time is shown slower, as it says; no row is
// lost to that, and an Elapse takes no longer for it.
func TestComputingTakesItsTime(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	m.Figures.Inductance = quantity.Henries(2e-5) // a time constant of a fraction of a microsecond
	b := New(m)
	b.SetRate(200)
	b.Run()
	rows := let(b, 60)
	r := b.Read()
	if rows >= 200 || r.InTime.Kept > 0.5 || r.InTime.Kept <= 0 || r.Step != int64(rows) {
		t.Errorf("%d rows, %+v", rows, r.InTime)
	}
	start := time.Now()
	b.Stop()
	if d := time.Since(start); d > time.Second {
		t.Errorf("stopping takes %v", d)
	}
}

// Rates beyond what can be followed by eye are for runs in time.
func TestFasterInTime(t *testing.T) {
	b := sitting(t, "vent-flap", 1e9)
	if b.Rate() != MaxRateInTime {
		t.Errorf("%g", b.Rate())
	}
	c := New(torques{}.motor()) // gives no current
	c.SetRate(1e9)
	c.Run()
	c.Elapse(picture)
	if r := c.Read(); c.Rate() != MaxRate || r.Timed || r.Untimed == nil || r.Step == 0 {
		t.Errorf("%+v", r)
	}
}
