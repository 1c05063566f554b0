package rotor

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/sequence"
)

// S = 90° and f/h = 1/2 give a dead zone of 60° (Jones, "Stepping Motor
// Physics", Friction and the Dead Zone): a rotor that creeps in stops at its
// near edge, one that swings in stops within, one that is in stays to the last
// bit, however long, and one that is out does not.
func TestDeadZoneInTime(t *testing.T) {
	p := heavily(spring(t))
	p.Friction = 0.5e-3
	for start, want := range map[float64]float64{-100: -30, 100: 30, -31: -30, 29.9: 29.9, -29.9: -29.9, 0: 0, 12.3: 12.3, 150.1: 150.1, 3632: 3630} {
		m := begun(&p, start, aRow)
		s := advance(t, m, 10)
		if !near(total(s.Place), want, 1e-4) || s.Speed != 0 || !m.Stuck() {
			t.Errorf("from %v°: at %v°, %v rad/s, stuck %v; want %v°", start, total(s.Place), s.Speed, m.Stuck(), want)
		}
		if start == want && s.Place != begun(&p, start, aRow).State().Place {
			t.Errorf("from %v°: it crept to %v°", start, total(s.Place))
		}
	}
	p = spring(t)
	p.Friction = 0.2e-3
	edge := math.Asin(0.2) * 180 / math.Pi
	for start := 20.0; start < 160; start += 7 {
		m := begun(&p, start, aRow)
		s := advance(t, m, 1)
		if math.Abs(total(s.Place)) > edge+1e-6 || s.Speed != 0 || !m.Stuck() {
			t.Errorf("from %v°: at %v°, %v rad/s, stuck %v", start, total(s.Place), s.Speed, m.Stuck())
		}
	}
}

// Under dry friction alone each half swing of a spring loses 2·Tc/k (textbook
// mechanics, Coulomb damping; from memory): from 1° with Tc = T1/500 the turns
// come at 1° less multiples of 0.229°, in even time.
func TestDryFrictionTakesEvenBites(t *testing.T) {
	p := spring(t)
	p.Friction = 2e-6 // T1/500
	m := NewMotion(&p)
	m.Tolerance = 1e-11
	m.Start(State{Place: position(1)})
	m.Energise(aRow)
	bite := 2 * 2e-3 * 180 / math.Pi
	half := math.Pi / math.Sqrt(8*1e-3/2e-8)
	for n := 1; n <= 4; n++ {
		s := advance(t, m, float64(n)*half)
		if got, want := math.Abs(total(s.Place)), 1-float64(n)*bite; !near(got, want, 1e-4*bite+1e-4*want) {
			t.Errorf("turn %d at %.6f°, want %.6f°", n, got, want)
		}
	}
	s := advance(t, m, 1)
	if got := math.Abs(total(s.Place)); got > bite/2+1e-9 || !m.Stuck() { // 1° is 4 bites and 0.083°
		t.Errorf("it comes to rest at %.6f°, outside its dead zone of ±%.6f°", got, bite/2)
	}
}

// A rotor held by friction breaks away when the rising current pulls with just
// as much: −L/R·ln(1 − Tc/(T1·sin θe)) after the row, by the closed form of the
// rise. Until then nothing moves; then it does.
func TestBreaksAwayInTime(t *testing.T) {
	for _, start := range []float64{-40, -90, -120, 65} {
		p := smallMotor(t)
		p.Friction = 0.4 * 0.1 * 0.1
		m := begun(&p, start, aRow)
		tau := p.Inductance / p.Resistance
		at := -tau * math.Log(1-0.4/math.Abs(math.Sin(start*math.Pi/180)))
		before := m.State().Place
		if s := advance(t, m, at*(1-1e-9)); s.Speed != 0 || s.Place != before || !m.Stuck() {
			t.Errorf("from %v°: it moves before its time: %+v", start, s)
		}
		s := advance(t, m, at*(1+1e-6)+1e-6)
		if s.Speed*start >= 0 || m.Stuck() {
			t.Errorf("from %v°: it does not break away, or the wrong way: %+v", start, s)
		}
	}
}

// A creeping rotor comes to the rest of the statics, which marches along the
// torque: with load, detent and friction, from anywhere, under any field.
func TestRestIsThatOfTheStatics(t *testing.T) {
	drawn, checked, tb := 0, 0, t
	rapid.Check(t, func(t *rapid.T) {
		drawn++
		r := random(t)
		statics := anyMachine(r)
		statics.PolePairs = 8
		row := sequence.Row{r.Float64(), r.Float64(), 0, 0}
		if r.IntN(2) == 0 {
			row[0], row[2] = 0, row[0]
		}
		start := r.Float64()*1440 - 720
		want := walk(statics, row.Field(), start)
		if !want.fine || want.balance == Adrift {
			return
		}
		ahead, behind := plainTorque(statics, row.Field(), (want.deg+1)*math.Pi/180), plainTorque(statics, row.Field(), (want.deg-1)*math.Pi/180)
		if math.Abs(ahead-behind)*180/math.Pi/2 < 0.2 && want.deg != start {
			return // on a crest, where the creep takes for ever
		}
		checked++
		p := spring(tb)
		p.Damping = 20 * math.Sqrt(8*1e-3*2e-8)
		p.Detent, p.DetentShift, p.Friction, p.Load.Torque = 1e-3*statics.Detent, statics.DetentShift, 1e-3*statics.Friction, 1e-3*statics.Load
		m := begun(&p, start, row)
		if err := m.Advance(6); err != nil {
			t.Fatal(err)
		}
		if got := total(m.State().Place); !near(got, want.deg, 0.01) {
			t.Fatalf("%+v under %v from %v°: at %v°, want %v°", statics, row, start, got, want.deg)
		}
		places, _ := p.Machine().Rest(row.Field(), position(start))
		if len(places) == 1 && !near(total(places[0]), total(m.State().Place), 0.01) {
			t.Fatalf("Rest says %v, the motion %v", places[0], m.State().Place)
		}
	})
	if 5*checked < drawn {
		t.Errorf("only %d of %d machines came to a rest", checked, drawn)
	}
}

// A balance on the hill is nobody's choice: the rotor stays, friction or none,
// and its neighbour falls to its side.
func TestBalanceIsNotChosen(t *testing.T) {
	p := heavily(spring(t))
	m := begun(&p, 180, aRow)
	if s := advance(t, m, 1); total(s.Place) != 180 || !m.Stuck() {
		t.Errorf("from the hill to %v°", total(s.Place))
	}
	for start, want := range map[float64]float64{179.9: 0, 180.1: 360} {
		if s := advance(t, begun(&p, start, aRow), 1); !near(total(s.Place), want, 1e-3) {
			t.Errorf("from %v° to %v°", start, total(s.Place))
		}
	}
}

// Moving loads turn it too: under a pull of twice the friction of the load a
// free rotor gains speed as (pull − friction)/J, whichever way.
func TestFreeFall(t *testing.T) {
	for _, way := range []float64{1, -1} {
		p := spring(t)
		p.Ratio = 4
		p.Load = Load{Torque: -way * 8e-4, Friction: 4e-4, Inertia: 16e-8}
		s := advance(t, begun(&p, 0, sequence.Row{}), 0.01)
		if want := way * 1e-4 / (2e-8 + 1e-8) * 0.01; !near(s.Speed, want, 1e-9*math.Abs(want)) {
			t.Errorf("%v rad/s, want %v", s.Speed, want)
		}
		if got, want := total(s.Place), way*0.5*1e-4/3e-8*1e-4*8*180/math.Pi; !near(got, want, 1e-9*math.Abs(want)) {
			t.Errorf("%v°, want %v°", got, want)
		}
	}
}
