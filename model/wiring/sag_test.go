package wiring

import (
	"math"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// With one phase on a supply that gives what one phase takes misses nothing; with
// two, each gets half: the field is half of what it should be, half step limps.
func TestSaggedRows(t *testing.T) {
	for _, drive := range sequence.Drives {
		for k := range int64(8) {
			row := sequence.Half.Order().Row(k)
			want := 1.0
			if len(row.On()) == 2 {
				want = math.Sqrt2 / 2
			}
			if got := sagged(row, drive).Field(); math.Abs(got.Strength()-want) > 1e-9 {
				t.Errorf("%s, %s: %g, want %g", drive, row.Bits(), got.Strength(), want)
			}
		}
	}
	if got := sagged(sequence.Row{1, 0, 1, 0}, sequence.Bipolar); got != (sequence.Row{1, 0, 1, 0}) {
		t.Errorf("a braked phase takes nothing: %v", got)
	}
}

// At the voltage that is left, the coils take one phase's current together; one
// phase alone has all that there is.
func TestSagging(t *testing.T) {
	for _, c := range []struct{ motor, stage, supply string }{{"vent-flap", "darlington", "12V"}, {"hybrid-4", "mosfet-bridge", "3.75V"}, {"hybrid-4", "bridge", "6.2V"}} {
		m := builtIn(t, c.motor)
		stage, err := driver.Named(c.stage)
		if err != nil {
			t.Fatal(err)
		}
		var v quantity.Voltage
		if err := v.Set(c.supply); err != nil {
			t.Fatal(err)
		}
		p, _, err := rotor.PlantOf(m, stage, v)
		if err != nil {
			t.Fatal(err)
		}
		total := func(row sequence.Row, feeds func(*rotor.Plant, sequence.Row) [4]driver.Feed) (sum float64) {
			for _, f := range feeds(&p, row) {
				sum += math.Abs(f.Settled(p.Supply, p.Resistance))
			}
			return sum
		}
		plain := func(p *rotor.Plant, row sequence.Row) [4]driver.Feed {
			return p.Stage.Feeds(row, p.Drive, p.Current)
		}
		one, two := sequence.Row{1, 0, 0, 0}, sequence.Row{1, 1, 0, 0}
		if got := total(two, Sagging); math.Abs(got-p.Current) > 1e-3*p.Current {
			t.Errorf("%s on %s: two phases take %g A of %g", c.motor, c.stage, got, p.Current)
		}
		if got, all := total(one, Sagging), total(one, plain); math.Abs(got-math.Min(all, p.Current)) > 1e-3*p.Current {
			t.Errorf("%s on %s: one phase takes %g A, and %g from a stiff supply", c.motor, c.stage, got, all)
		}
	}
}

// Run in time against a load of 0.7 T1, full step follows on a sound supply, whose
// rows cross at T1, and not on one that sags, whose rows cross at half of that; wave
// drive, which crosses at 0.71 T1, does not mind a load of 0.4.
func TestSagShowsUnderLoad(t *testing.T) {
	sound := func(p *rotor.Plant, row sequence.Row) [4]driver.Feed {
		return p.Stage.Feeds(row, p.Drive, p.Current)
	}
	for _, c := range []struct {
		mode  sequence.Mode
		load  float64
		feeds func(*rotor.Plant, sequence.Row) [4]driver.Feed
		turns bool
	}{{sequence.Full, 0.7, sound, true}, {sequence.Full, 0.7, Sagging, false}, {sequence.Full, 0.2, Sagging, true}, {sequence.Wave, 0.4, sound, true}, {sequence.Wave, 0.4, Sagging, true}} {
		p := plantFor(t, "hybrid-4")
		p.Load.Torque = c.load * p.OnePhase()
		motion := rotor.NewMotion(&p)
		order := c.mode.Order()
		deg, _ := order.Row(0).Field().Degrees()
		motion.Start(rotor.State{Place: rotor.Position{Deg: deg}})
		start := motion.State().Place
		const rows = 40
		for k := range rows {
			motion.Feed(c.feeds(&p, order.Row(int64(k))))
			if err := motion.Advance(float64(k+1) / 20); err != nil {
				t.Fatal(err)
			}
		}
		if turned := motion.State().Place.From(start); (turned > 0.9*90*rows) != c.turns {
			t.Errorf("%s with %g T1: turned by %g of %d rows", c.mode.Name, c.load, turned/90, rows)
		}
	}
}

// Weak wherever two phases are on and as strong as ever in wave drive: that is the
// supply.
func TestSaggingSupplyIsNamed(t *testing.T) {
	for _, name := range []string{"hybrid-4", "hybrid-6"} {
		symptoms, err := ReadSymptoms("x", []byte("full forward weak\nhalf forward weak\nwave forward cw\nwave reverse ccw\nfull reverse weak\n"))
		if err != nil {
			t.Fatal(err)
		}
		if top := suspectsOf(t, name).Judge(symptoms).Ranked[0]; len(top.Faults) != 1 || top.Faults[0].Kind != SupplySags || top.Odds < 0.5 {
			t.Errorf("%s: %s (%.2f)", name, top.Text, top.Odds)
		}
	}
	if f, err := ParseFault(builtIn(t, "hybrid-4"), "sag"); err != nil || f.Kind != SupplySags {
		t.Errorf("%+v, %v", f, err)
	}
}

// A chopper takes from its supply the power that two phases need, which at a voltage U
// is 2·I²·(R + r)/U with r of the switches (hand derivation): from U = 2·I·(R + r) on
// that is one phase's current I and nothing sags; below, the voltage falls until the
// coils themselves take no more than I.
func TestSaggingChopper(t *testing.T) {
	stage, err := driver.Named("chopper")
	if err != nil {
		t.Fatal(err)
	}
	var v quantity.Voltage
	if err := v.Set("24V"); err != nil {
		t.Fatal(err)
	}
	p, _, err := rotor.PlantOf(builtIn(t, "hybrid-4"), stage, v)
	if err != nil {
		t.Fatal(err)
	}
	row := sequence.Row{1, 1, 0, 0}
	r := p.Stage.Feeds(row, p.Drive, p.Current)[0].Above.Ohms()
	if r < 0.05*p.Resistance {
		t.Fatalf("the switches have %g ohm, the coil %g: the test tests nothing", r, p.Resistance)
	}
	for part, want := range map[float64]float64{1.02: 1, 2: 1, 0.98: 0.5 / (2 * 0.98)} {
		p.Supply = part * 2 * p.Current * (p.Resistance + r)
		feeds := Sagging(&p, row)
		if got := feeds[0].Below.Rail; math.Abs(got-want) > 1e-3 {
			t.Errorf("with %g of that voltage %g of it is left, want %g", part, got, want)
		}
	}
}
