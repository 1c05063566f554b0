// Package driver says what a driver stage does to the coils: which way it
// leaves a current at each row, and the voltage that is lost on that way.
package driver

// Drop is the voltage lost by a current i ≥ 0, straight enough for a bench:
// Volts + Ohms·i.
type Drop struct{ Volts, Ohms float64 }

// At gives the volts lost by a current in ampere.
func (d Drop) At(ampere float64) float64 { return d.Volts + d.Ohms*ampere }

// part gives the drop's mean when the way is open for a part of the time.
func (d Drop) part(of float64) Drop { return Drop{of * d.Volts, of * d.Ohms} }

// Path is one way of a current through a coil and back. The coil sees Rail
// times the supply, less both drops against the current; so Rail times the
// current is what comes out of the supply, or returns to it where it is
// negative.
type Path struct {
	Rail   float64
	Switch Drop
	Diode  Drop
}

// Ohms gives the resistance of the way.
func (p Path) Ohms() float64 { return p.Switch.Ohms + p.Diode.Ohms }

// Volts gives what is lost whatever the current.
func (p Path) Volts() float64 { return p.Switch.Volts + p.Diode.Volts }

// Feed is how one coil is fed while a row lasts. A current above Hold takes the
// way Above, one below it the way Below; at Hold it stays, unless one of the two
// drives it off. With diodes Hold is 0, the coil without current; with a
// chopper it is the current asked for. Above and Below alike make one way that
// is open to either sign. Only a way with Hold = 0 may have Volts in its drops.
type Feed struct {
	Hold         float64 // A
	Above, Below Path
	Firm         bool // a current source: at Hold at once, whatever voltage it takes
}

// Linear says that the coil has one way for either sign.
func (f Feed) Linear() bool { return f.Above == f.Below && f.Above.Volts() == 0 && !f.Firm }
