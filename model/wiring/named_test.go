package wiring

import (
	"slices"
	"strings"
	"testing"

	"coilwalk/model/motor"
)

// The first readings of a sound 6-lead motor of 50 ohm a half-coil (common practice, no
// source): end to another coil's end open, end to end 100 ohm, end to tap 50 ohm. They
// are no reason for an alarm; and that six leads are there tells the kind at once.
func TestNamedLeadsCount(t *testing.T) {
	readings, err := ReadReadings("x", []byte("1,2,open\n1,3,100\n1,4,50\n"))
	if err != nil {
		t.Fatal(err)
	}
	alone := Identify(readings)
	if said := strings.Join(alone.Undetermined, "\n"); strings.Contains(said, "No two-phase motor") || !strings.Contains(said, "The kind of motor:") {
		t.Errorf("after three sound readings: %s", said)
	}
	six := []motor.Lead{"1", "2", "3", "4", "5", "6", Case}
	named := Identify(readings, six...)
	if named.Kinds[0].Kind != SixLead || named.Kinds[0].Odds < 0.9 || len(named.Leads) != 6 {
		t.Errorf("with six leads named: %v of %v", named.Kinds, named.Leads)
	}
	if said := strings.Join(named.Undetermined, "\n"); strings.Contains(said, "not named in the readings") {
		t.Errorf("with six leads named: %s", said)
	}
	if n := named.Next; n == nil || !slices.Contains(six[4:6], n.A) && !slices.Contains(six[4:6], n.B) {
		t.Errorf("next is %+v, and no lead that was not touched", named.Next)
	}
	if few := Identify(readings[:1], six...); !few.TooFew {
		t.Errorf("one reading and six names are not too few: %+v", few.Kinds)
	}
}
