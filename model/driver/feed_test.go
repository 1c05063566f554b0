package driver

import (
	"testing"

	"coilwalk/sequence"
)

const (
	supply = 12.0
	amps   = 0.5
)

// across gives the volts that a coil sees on a path, for a current on that side.
func across(p Path, i float64) float64 {
	lost := p.Switch.Volts + p.Diode.Volts + (p.Switch.Ohms+p.Diode.Ohms)*max(i, -i)
	if i < 0 {
		lost = -lost
	}
	return p.Rail*supply - lost
}

// What the coil sees at ±0.5 A with 12 V, by hand from the figures: a sink that
// is on leaves the supply less its drop, and below ground its diode adds; one
// that is off has the clamp's drop against it (ST Doc ID 5279: the common of the
// clamps goes to the supply). A bridge: supply less both transistors, or plus
// both diodes against the drive; braked one of each; fast decay all the supply.
func TestVoltages(t *testing.T) {
	off, aPlus, aMinus, aBoth := sequence.Row{}, sequence.Row{1, 0, 0, 0}, sequence.Row{0, 0, 1, 0}, sequence.Row{1, 0, 1, 0}
	for _, c := range []struct {
		stage        string
		row          sequence.Row
		above, below float64
	}{
		{"darlington", aPlus, 12 - 1.47, 12 + 1.05},
		{"darlington", off, -2.085, 12 + 1.05},
		{"mosfet", aPlus, 12 - 0.011, 12 + 0.011},
		{"mosfet", off, -0.85, 12 + 0.81},
		{"ideal", off, 0, 12},
		{"bridge", aPlus, 12 - 1.975, 12 + 2.0},
		{"bridge", aMinus, -12 - 2.0, -12 + 1.975},
		{"bridge", off, -1.9875, 1.9875},
		{"bridge", aBoth, -1.9875, 1.9875},
		{"bridge-fast", off, -12 - 2.0, 12 + 2.0},
		{"mosfet-bridge", aPlus, 12 - 0.25, 12 + 0.25},
		{"mosfet-bridge", aBoth, -0.25, 0.25},
		{"mosfet-bridge-fast", off, -12 - 1.65, 12 + 1.65},
		{"ideal", aPlus, 12, 12},
	} {
		s := named(t, c.stage)
		drive := sequence.Unipolar
		if s.Allows(drive) != nil {
			drive = sequence.Bipolar
		}
		f := s.Feeds(c.row, drive, 1)[sequence.APlus]
		if got := across(f.Above, amps); !near(got, c.above, 1e-9) {
			t.Errorf("%s, %s: %g V for a positive current, want %g", c.stage, c.row.Bits(), got, c.above)
		}
		if got := across(f.Below, -amps); !near(got, c.below, 1e-9) {
			t.Errorf("%s, %s: %g V for a negative current, want %g", c.stage, c.row.Bits(), got, c.below)
		}
		if f.Hold != 0 || f.Firm {
			t.Errorf("%s, %s holds a current", c.stage, c.row.Bits())
		}
	}
}

// Each coil gets what its own output or pair of outputs says.
func TestWhichCoil(t *testing.T) {
	for e := range 4 {
		var row sequence.Row
		row[e] = 1
		for j, f := range named(t, "ideal").Feeds(row, sequence.Unipolar, 1) {
			if on := f.Above.Rail == 1; on != (j == e) {
				t.Errorf("output %d on: half-coil %d on is %v", e, j, on)
			}
		}
		feeds := named(t, "ideal").Feeds(row, sequence.Bipolar, 1)
		for phase := range 2 {
			want := 0.0
			if e%2 == phase {
				want = 1 - float64(e/2)*2
			}
			if got := feeds[phase].Above.Rail; got != want {
				t.Errorf("output %d on: phase %d sees %g of the supply, want %g", e, phase, got, want)
			}
		}
	}
}

// A level is a mean voltage, or a part of the limit where the current is set.
func TestLevels(t *testing.T) {
	row := sequence.Row{0.25, 0, 0, 0.75}
	for _, c := range []struct {
		stage  string
		drive  sequence.Drive
		coil   int
		rail   float64
		hold   float64
		linear bool
	}{
		{"ideal", sequence.Unipolar, 0, 0.25, 0, false},
		{"ideal", sequence.Bipolar, 0, 0.25, 0, true},
		{"ideal", sequence.Bipolar, 1, -0.75, 0, true},
		{"mosfet-bridge", sequence.Bipolar, 1, -0.75, 0, true},
		{"chopper", sequence.Bipolar, 0, -1, 0.5, false},
		{"chopper", sequence.Bipolar, 1, -1, -1.5, false},
		{"current", sequence.Bipolar, 1, 0, -1.5, false},
		{"current", sequence.Unipolar, 3, 0, 1.5, false},
	} {
		f := named(t, c.stage).Feeds(row, c.drive, 2)[c.coil]
		if !near(f.Above.Rail, c.rail, 1e-12) || !near(f.Hold, c.hold, 1e-12) || f.Linear() != c.linear {
			t.Errorf("%s, coil %d: %+v", c.stage, c.coil, f)
		}
	}
	// a quarter of the time 1.47 V are lost in the switch, else 2.085 V in the clamp
	f := named(t, "darlington").Feeds(row, sequence.Unipolar, 2)[0]
	if got, want := across(f.Above, amps), 0.25*(12-1.47)-0.75*2.085; !near(got, want, 1e-9) {
		t.Errorf("darlington a quarter on: %g V, want %g", got, want)
	}
}

// No way may drive a current where the other takes it away, or the current
// would have to flow both ways at once.
func TestWaysDoNotFight(t *testing.T) {
	for _, s := range Stages {
		for _, drive := range sequence.Drives {
			if s.Allows(drive) != nil {
				continue
			}
			for bits := range 81 {
				var row sequence.Row
				for e, n := 0, bits; e < 4; e, n = e+1, n/3 {
					row[e] = float64(n%3) / 2
				}
				for j, f := range s.Feeds(row, drive, 1) {
					up := f.Above.Rail*supply - f.Above.Volts() - f.Above.Ohms()*f.Hold
					down := f.Below.Rail*supply + f.Below.Volts() - f.Below.Ohms()*f.Hold
					if up > down+1e-12 {
						t.Errorf("%s, %s drive, %v, coil %d: %g V above the hold and %g V below", s.Name, drive, row, j, up, down)
					}
				}
			}
		}
	}
}
