package motor

import (
	"math"
	"testing"

	"coilwalk/sequence"
)

// The current of a coil as it is driven is that of the connection it is driven in, and
// both figures that a heat is reckoned from give the same (by hand: (I/√2)²·2R = I²R).
func TestDrivenCurrentIsThatOfTheConnection(t *testing.T) {
	for _, name := range []string{"vent-flap", "hybrid-4", "hybrid-6", "hybrid-8"} {
		m, _ := BuiltIn(name)
		for _, drive := range []sequence.Drive{sequence.Unipolar, sequence.Bipolar} {
			if m.Allows(drive) != nil {
				continue
			}
			m.Drive = drive
			i, ok := m.DrivenCurrent()
			c, rated := m.Connected(), 0.0
			if half, is := m.PhaseCurrent(); is {
				rated = half.Base()
			}
			if !ok || c.Drive != drive || math.Abs(i.Base()-c.Current.Base()) > 1e-12 {
				t.Errorf("%s, %s: %g A, connected %g A", name, drive, i.Base(), c.Current.Base())
			}
			if a, b := rated*rated*m.Figures.Resistance.Base(), i.Base()*i.Base()*c.Resistance.Base(); math.Abs(a-b) > 1e-9*a || a == 0 {
				t.Errorf("%s, %s: heat of %g W by a half, %g by the coil", name, drive, a, b)
			}
		}
	}
}
