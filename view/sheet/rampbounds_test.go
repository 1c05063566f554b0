package sheet

import (
	"strings"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// What is beyond any motor is refused on the sheet as it is on the command line.
func TestRampBeyondAnyMotor(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	for _, c := range []struct{ rate, start, accel, says string }{
		{"1000000", "1000000", "1e9 1e9", ""},
		{"1000001", "", "1500", "at most 1000000 is taken"},
		{"900", "", "1e10", "up to 1000000000"},
		{"900", "", "1500 1e300", "up to 1000000000"},
	} {
		r := NewRamp(m, sequence.Half, Shared{})
		var err error
		for _, line := range []struct {
			set  func(*Ramp, string) error
			text string
		}{{(*Ramp).setMove, "90deg"}, {(*Ramp).setMode, ""}, {(*Ramp).setRate, c.rate}, {(*Ramp).setStart, c.start}, {(*Ramp).setAccel, c.accel},
			{(*Ramp).setClock, "1MHz 1"}, {(*Ramp).setBits, "16"}, {(*Ramp).setStage, "none"}} {
			if err == nil {
				err = line.set(&r, line.text)
			}
		}
		if err == nil {
			_, err = r.Plan()
		}
		if c.says == "" && err != nil || c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}
