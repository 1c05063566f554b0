package report

import (
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
)

// What a motor is said to lack is what it can not be run without, whichever of its
// figures are left out.
func TestLackingIsWhatKeepsAMotorFromBeingRun(t *testing.T) {
	lacking := 0
	for _, name := range motor.Names() {
		m, _ := motor.BuiltIn(name)
		for out := range 1 << 5 {
			some, none := m, motor.Figures{}
			f := &some.Figures
			for k, leave := range []func(){
				func() { f.Current = none.Current }, func() { f.Voltage = none.Voltage }, func() { f.Resistance = none.Resistance },
				func() { f.HoldingTorque = none.HoldingTorque }, func() { f.OnePhase = none.OnePhase },
			} {
				if out>>k&1 == 1 {
					leave()
				}
			}
			words := Lacking(some)
			_, _, err := rotor.PlantOf(some, driver.Usual(some.Drive, false), quantity.Voltage{})
			if (err == nil) != (len(words) == 0) {
				t.Errorf("%s, %05b left out: lacks %q, and is run with %v", name, out, words, err)
			}
			lacking += min(1, len(words))
		}
	}
	if lacking == 0 {
		t.Error("nothing was ever lacking")
	}
}
