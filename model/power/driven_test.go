package power

import (
	"math"
	"strings"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// What nobody named is filled in as the heat's question has it, but for the rated
// voltage; and a stage that wants another drive gets it where the leads allow it.
func TestWhatDrivesAMotor(t *testing.T) {
	for _, c := range []struct {
		motor, stage, supply, connection string
		wantStage                        string
		fed                              Fed
		volts                            float64 // of the plant
		drive                            sequence.Drive
		turned                           bool
	}{
		{"vent-flap", "", "", "", "darlington", AsRated, 12, sequence.Unipolar, false},
		{"vent-flap", "", "9V", "", "darlington", AsNamed, 9, sequence.Unipolar, false},
		{"vent-flap", "", "usb", "", "darlington", AsNamed, 5, sequence.Unipolar, false},
		{"vent-flap", "", "bench", "", "darlington", AsSuits, 12.91, sequence.Unipolar, false},
		{"hybrid-4", "", "", "", "current", AsRated, 3, sequence.Bipolar, false},
		{"hybrid-4", "", "24V", "", "chopper", AsNamed, 24, sequence.Bipolar, false},
		{"hybrid-4", "chopper", "", "", "chopper", AsSuits, 12, sequence.Bipolar, false},
		{"hybrid-8", "chopper", "", "", "chopper", AsSuits, 24, sequence.Bipolar, true},
		{"hybrid-8", "", "24V", "parallel", "chopper", AsNamed, 24, sequence.Bipolar, false},
		{"hybrid-6", "mosfet", "", "unipolar", "mosfet", AsRated, 12, sequence.Unipolar, false},
		{"hybrid-4", "bridge", "", "", "bridge", AsSuits, 6.12, sequence.Bipolar, false}, // which does not work on the rated 3 V
	} {
		m, stage, supply := asked(t, c.motor, c.stage, c.supply)
		d, err := Drives(m, stage, supply, c.connection)
		if err != nil {
			t.Fatal(err)
		}
		p, _, err := d.Plant()
		if err != nil {
			t.Fatalf("%v: %v", c, err)
		}
		if d.Stage.Name != c.wantStage || d.Fed != c.fed || math.Abs(p.Supply-c.volts) > 0.01 || p.Drive != c.drive || d.Turned != c.turned {
			t.Errorf("%v: %s on %v V (%v), %v, turned %v", c, d.Stage.Name, p.Supply, d.Fed, p.Drive, d.Turned)
		}
		q, err := Asked(m, stage, supply, c.connection)
		if err != nil {
			t.Fatal(err)
		}
		if q.Connection.Word != d.Connection.Word || d.Fed != AsRated && (q.Stage.Name != d.Stage.Name || math.Abs(q.Supply.Volts-p.Supply) > 1e-9) {
			t.Errorf("%v: heat is judged on %s, %v V, %s; it runs on %s, %v V, %s", c, q.Stage.Name, q.Supply.Volts, q.Connection.Word, d.Stage.Name, p.Supply, d.Connection.Word)
		}
	}
}

// A supply that nobody named suits the connection that was named.
func TestSupplySuitsTheConnection(t *testing.T) {
	m, stage, _ := asked(t, "hybrid-8", "mosfet-bridge", "")
	for _, c := range m.Connections() {
		if c.Drive == sequence.Unipolar {
			continue
		}
		q, err := Asked(m, stage, driver.Supply{}, c.Word)
		if err != nil {
			t.Fatal(err)
		}
		a, err := Judge(q)
		if err != nil {
			t.Fatal(err)
		}
		if rated := c.Current.Base(); math.Abs(a.Driver.OutputAmpere-rated) > 0.02*rated {
			t.Errorf("%s: %v A flow on %v V, of %v A rated", c.Word, a.Driver.OutputAmpere, q.Supply.Volts, rated)
		}
	}
}

// Of eight leads each connection holds what its current and turns make of it, and
// rises as its inductance and resistance say.
func TestConnectionsInTime(t *testing.T) {
	m, stage, supply := asked(t, "hybrid-8", "", "24V")
	held := map[string]float64{}
	for _, c := range m.Connections() {
		d, err := Drives(m, stage, supply, c.Word)
		if err != nil {
			t.Fatal(err)
		}
		p, _, err := d.Plant()
		if err != nil {
			t.Fatal(err)
		}
		held[c.Word] = p.OnePhase()
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > 0.02*want {
				t.Errorf("%s: %s %v, want %v", c.Word, what, got, want)
			}
		}
		near("resistance", p.Resistance, c.Resistance.Base())
		near("current", p.Current, c.Current.Base())
		near("inductance", p.Inductance, c.Inductance.Base())
	}
	for word, part := range map[string]float64{"half": 1, "series": math.Sqrt2, "parallel": math.Sqrt2} {
		if got := held[word] / held["unipolar"]; math.Abs(got-part) > 1e-6 {
			t.Errorf("%s holds %v of unipolar, want %v", word, got, part)
		}
	}
}

// A stage that no connection of the leads suits is refused, with those that do.
func TestAStageThatFitsNoLeads(t *testing.T) {
	for _, c := range []struct{ motor, stage, connection, want string }{
		{"vent-flap", "chopper", "", "with the common at the supply: darlington or mosfet"},
		{"hybrid-4", "darlington", "", "a bridge for each coil is wanted: bridge, bridge-fast"},
		{"hybrid-6", "chopper", "unipolar", "another connection is wanted, or another stage: darlington or mosfet"},
	} {
		m, stage, supply := asked(t, c.motor, c.stage, "")
		d, err := Drives(m, stage, supply, c.connection)
		if err != nil {
			t.Fatal(err)
		}
		if _, _, err := d.Plant(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: %v", c, err)
		}
	}
}

// Without names it is the machine that rotor makes of the motor itself.
func TestNothingNamedIsThePlainMachine(t *testing.T) {
	for _, name := range motor.Names() {
		m, _ := motor.BuiltIn(name)
		d, err := Drives(m, driver.Stage{}, driver.Supply{}, "")
		if err != nil {
			t.Fatal(err)
		}
		got, _, err := d.Plant()
		want, _, err2 := rotor.PlantOf(m, driver.Usual(m.Drive, false), quantity.Voltage{})
		if err != nil || err2 != nil || got.Supply != want.Supply || got.Current != want.Current || got.Resistance != want.Resistance || got.Stage.Name != want.Stage.Name {
			t.Errorf("%s: %v %v, %v %v", name, got, err, want, err2)
		}
	}
}

// asked reads words of the person; "" for the zero ones.
func asked(t *testing.T, name, stage, supply string) (m motor.Motor, st driver.Stage, su driver.Supply) {
	t.Helper()
	m, _ = motor.BuiltIn(name)
	var err, err2 error
	if stage != "" {
		st, err = driver.Named(stage)
	}
	if supply != "" {
		su, err2 = driver.ParseSupply(supply)
	}
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	return m, st, su
}
