package travel

import (
	"context"
	"math"
	"testing"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// A move of one row turns the field by that row alone, so a load of a third of what
// the motor holds is taken along: of the next row, at 180°, the field would have no
// pull to set against it.
func TestOneRowUnderALoad(t *testing.T) {
	p := planned(t, Wish{Rows: 1, Start: 100, Top: 100})
	for _, mode := range sequence.Modes {
		for _, way := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
			loaded := plant(t)
			loaded.Load.Torque = float64(way) * 0.3 * math.Sqrt2 * loaded.OnePhase() * loaded.Ratio
			if f, err := p.Follow(context.Background(), loaded, mode, way); err != nil || f.Kind != "" || f.Lost != 0 {
				t.Errorf("%s, %s: %+v, %v", mode.Name, way, f, err)
			}
		}
	}
}

// Two rows a microsecond apart, which no coil's current follows, are one turn of the
// field: the motor loses with two rows of half step, which end with one coil on,
// whatever load it loses with one row of wave, and no other.
func TestRowsAtOnceAreOneTurnOfTheField(t *testing.T) {
	one, two := planned(t, Wish{Rows: 1, Start: atAStand, Top: atAStand}), planned(t, Wish{Rows: 2, Start: atAStand, Top: atAStand})
	for share, follows := range map[float64]bool{0.4: true, 0.5: false} {
		for _, way := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
			loaded := plant(t)
			loaded.Load.Torque = float64(way) * share * math.Sqrt2 * loaded.OnePhase() * loaded.Ratio
			whole, err := one.Follow(context.Background(), loaded, sequence.Wave, way)
			halves, err2 := two.Follow(context.Background(), loaded, sequence.Half, way)
			if err != nil || err2 != nil || (whole.Kind == "") != follows || (halves.Kind == "") != follows || math.Abs(whole.Lost-halves.Lost) > 0.01*whole.Lost {
				t.Errorf("%v of what it holds, %s: %+v of a whole step, %+v of its halves; %v, %v", share, way, whole, halves, err, err2)
			}
		}
	}
}

// A load that the motor holds at rest, and loses on the first row, runs away for as
// long as it is looked at: two seconds of a row of hours, and all of rows that last no
// longer. What is lost is the way that the motor is turned back in that time, run here
// on its own.
func TestLoadThatIsLostOnTheFirstRow(t *testing.T) {
	order := sequence.Full.Order()
	for _, c := range []struct {
		w   Wish
		run int64 // rows, two seconds each, that are looked at
	}{{Wish{Rows: 20, Start: 1e-4, Top: 1e-4}, 1}, {Wish{Rows: 2, Start: 0.5, Top: 0.5}, 2}} {
		p := planned(t, c.w)
		for _, way := range []sequence.Direction{sequence.Forward, sequence.Reverse} {
			loaded := plant(t)
			loaded.Load.Torque = float64(way) * 0.7 * math.Sqrt2 * loaded.OnePhase() * loaded.Ratio
			loaded.Damping *= 4 // it runs away more slowly, and is sooner reckoned
			m := rotor.NewMotion(&loaded)
			deg, _ := order.Row(0).Field().Degrees()
			m.Start(rotor.State{Place: rotor.Position{Deg: deg}})
			m.Energise(order.Row(0))
			if _, held, err := m.Settle(order.Row(0), settleIn); err != nil || !held {
				t.Fatal("it is not even held at rest", err)
			}
			from := m.State()
			for k := int64(1); k <= c.run; k++ {
				m.Energise(order.Row(int64(way) * k))
				if err := m.Advance(from.Seconds + 2*float64(k)); err != nil {
					t.Fatal(err)
				}
			}
			back := -float64(way) * m.State().Place.From(from.Place) / 90
			f, err := p.Follow(context.Background(), loaded, sequence.Full, way)
			if err != nil || f.At != 0 || f.Kind != "fast-start" || back < 1000 || math.Abs(f.Lost-back) > 8 || math.Mod(f.Lost, 4) != 0 {
				t.Errorf("%+v, %s: %+v, %v; it is turned back by %.1f full steps", c.w, way, f, err, back)
			}
		}
	}
}
