package handoff

import (
	"strings"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// The caution is of the stage and the supply that are set, and names them; of the
// usual ones where none are.
func TestUnfollowedBehindWhatIsSet(t *testing.T) {
	m, _ := motor.BuiltIn("hybrid-8")
	chopper, err := driver.Named("chopper")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		volts, ampere, rate float64
		words               string
	}{
		{0, 0, 1500, "by its model, behind the stage darlington on 4.2 V and without a load, hybrid-8 does not start at 1500 rows a second."},
		{24, 0, 1500, ""},
		{24, 0, 4000, "by its model, behind the stage chopper on 24 V (bipolar, halves in series) and without a load, hybrid-8 does not start at 4000"},
		{24, 0.05, 2600, "by its model, behind the stage chopper on 24 V set to 50 mA (bipolar, halves in series) and"},
		{5, 0, 100, "behind the stage chopper on 5 V (bipolar, halves in series), which needs 8 V, hybrid-8 does not follow any rows."},
	} {
		pace, err := Even(UsualClock, UsualPrescale, c.rate)
		if err != nil {
			t.Fatal(err)
		}
		w := &Walk{Motor: m, Mode: sequence.Half, Board: Plain, Pace: pace}
		if c.volts > 0 {
			d, err := power.Drives(m, chopper, driver.SupplyOf(quantity.Volts(c.volts)), "")
			if err == nil && c.ampere > 0 {
				err = d.SetTo(quantity.Amperes(c.ampere))
			}
			if err != nil {
				t.Fatal(err)
			}
			w.Driven = &d
		}
		said := w.Unfollowed()
		if !strings.Contains(said, c.words) || (said == "") != (c.words == "") {
			t.Errorf("at %g V, %g rows/s: %q, %q is wanted", c.volts, c.rate, said, c.words)
		}
		if other := w.OtherDrive(); (other != "") != (c.volts > 0) || other != "" && (w.Cautions()[0] != other || !strings.Contains(other, "for a unipolar drive")) {
			t.Errorf("at %g V: told of the other drive: %q", c.volts, other)
		}
		if head := strings.Join(w.Head(), "\n"); said != "" && !strings.Contains(head, "Caution: "+said) {
			t.Errorf("the file does not say it:\n%s", head)
		}
	}
}
