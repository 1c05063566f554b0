package rotor

import (
	"math"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/sequence"
)

// hybrid is a lightly damped one on an ideal current: 40 N·cm with two phases
// on, 54 g·cm², 50 pole pairs, damping ratio 0.05.
func hybrid(tb testing.TB) Plant {
	p := Plant{PolePairs: 50, Drive: sequence.Bipolar, Stage: stage(tb, "current"), Current: 1.5,
		FluxConstant: 0.4 / (math.Sqrt2 * 50 * 1.5), Inertia: 54e-7, Ratio: 1}
	p.Damping = 2 * 0.05 * math.Sqrt(50*0.4*54e-7)
	return p
}

// trial starts at once with 100 rows at a rate, and says by how many full steps
// the rest is off the one that was meant.
func trial(m *Motion, o sequence.Order, rate float64) (off float64, ok bool, err error) {
	const rows = 100
	m.Start(State{Place: Position{Deg: 45}})
	m.Energise(o.Row(0))
	for k := range int64(rows) {
		m.Energise(o.Row(k + 1))
		if err := m.Advance(float64(k+1) / rate); err != nil {
			return 0, false, err
		}
	}
	rest, ok, err := m.Settle(o.Row(rows), 2)
	return (total(rest)-45)/90 - rows, ok, err
}

// The start–stop rates of a lightly damped hybrid have holes: good to about 210
// full steps a second, failing about 225 to 270 and 330, good again above.
// (Computed; that such bands of resonance lie below the natural frequency, here
// 306 Hz, and at its parts is common knowledge.) The rates lie well within.
func TestHolesInStartStopRates(t *testing.T) {
	p := hybrid(t)
	m := NewMotion(&p)
	for rate, good := range map[float64]bool{50: true, 100: true, 150: true, 180: true, 240: false, 255: false, 420: true, 3000: false} {
		off, ok, err := trial(m, sequence.Full.Order(), rate)
		if err != nil || !ok && good {
			t.Fatalf("%g/s: %v, %v", rate, ok, err)
		}
		if got := ok && math.Abs(off) < 0.01; got != good {
			t.Errorf("%g/s: off by %g steps, at rest %v; good is to be %v", rate, off, ok, good)
		}
	}
}

// Settle gives the rest before the ringing has ended, and the ringing ends there.
func TestSettle(t *testing.T) {
	for _, load := range []float64{0, 0.1, -0.12} {
		p := hybrid(t)
		p.Detent, p.Load.Torque = 0.01, load
		m := begun(&p, 100, bRow)
		rest, ok, err := m.Settle(bRow, 5)
		if err != nil || !ok {
			t.Fatal(ok, err)
		}
		asked := m.State().Seconds
		s := advance(t, m, asked+3)
		if !near(s.Place.From(rest), 0, 1e-4) || math.Abs(s.Speed) > 1e-6 {
			t.Errorf("load %g: settles at %v, said %v at %g s", load, s.Place, rest, asked)
		}
		if asked > 0.3 || asked < 0.005 {
			t.Errorf("load %g: %g s to settle", load, asked)
		}
	}
	held := smallMotor(t) // friction holds it until the current has risen
	held.Friction = 2e-3
	m := begun(&held, 0, bRow)
	if rest, ok, err := m.Settle(bRow, 1); !ok || err != nil || total(rest) < 60 {
		t.Errorf("with friction: %v, %v, %v", rest, ok, err)
	}
	p := hybrid(t) // nothing damps it
	p.Damping = 0
	m = begun(&p, 120, bRow)
	if rest, ok, err := m.Settle(bRow, 0.2); ok || err != nil || m.State().Seconds != 0.2 {
		t.Errorf("without damping it settles at %v, %v, after %g s", rest, err, m.State().Seconds)
	}
	p.Load.Torque = 0.5 // more than one phase holds
	m = begun(&p, 90, bRow)
	if _, ok, _ := m.Settle(bRow, 0.2); ok || m.State().Place.Pitch > -2 {
		t.Errorf("it holds half a N·m, at %v", m.State().Place)
	}
}

// A coil that is open carries nothing, whatever its row says: full step then is
// the one phase that is left, and the rotor rests under it.
func TestOpenCoil(t *testing.T) {
	p := smallMotor(t)
	m := begun(&p, 40, sequence.Row{})
	feeds := p.Stage.Feeds(abRow, p.Drive, p.Current)
	feeds[0] = driver.Feed{Firm: true}
	m.Feed(feeds)
	s := advance(t, m, 1)
	if s.Currents[0] != 0 || !near(s.Currents[1], 0.1, 1e-6) || !near(total(s.Place), 90, 1e-3) {
		t.Errorf("%+v", s)
	}
}
