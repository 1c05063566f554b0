// Package motor says what a motor is: its winding and leads, pole pairs, gear
// train and figures, and which coil end each driver output feeds. It reads and
// writes motor files and carries the built-in motors.
package motor

import (
	"math"
	"math/big"

	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// Motor is one two-phase motor, with the wiring it is believed to have.
type Motor struct {
	Name   string // a word for the command line: "vent-flap"
	Title  string // a few words for the screen
	Origin string // where the figures come from
	Winding
	PolePairs int
	Counted   Counted // how the pole pairs became known
	Train     Train
	Drive     sequence.Drive
	Wiring    sequence.Permutation // the coil end that each output feeds
	Figures   Figures
}

// Figures are what a motor's sheet or a measurement gives; each may be missing
// (not Given). With a train, torques are at the output shaft.
type Figures struct {
	Voltage       quantity.Voltage    // rated, across one coil or half-coil
	Current       quantity.Current    // rated, through one coil or half-coil
	Resistance    quantity.Resistance // of one coil, or of one half where there is a tap
	Inductance    quantity.Inductance // likewise
	HoldingTorque quantity.Torque     // two phases on, rated current
	OnePhase      quantity.Torque     // one phase on, where that is what is given
	Detent        quantity.Torque     // amplitude, no current
	DetentAt45    bool                // the detents lie at the two-phase positions
	Friction      quantity.Torque     // dry, of rotor and train together
	Inertia       quantity.Inertia    // of the rotor
	Load          quantity.Torque     // that pulls back against forward turning
	Thermal       quantity.Thermal    // winding to ambient, at rest, as mounted
	ThermalTime   quantity.Time       // after which 63 % of a rise are there
	Insulation    Insulation          // class of the winding
}

// AtRotor gives what an electrical angle is of the rotor: 360° electrical are one
// pole pair.
func (m Motor) AtRotor(electrical float64) float64 { return electrical / float64(m.PolePairs) }

// StepsPerRotorTurn gives the rows of a mode to one turn of the rotor:
// 4 × pole pairs full steps for two phases (4 rings of 8 teeth: 8 pole pairs,
// 32 full steps; 50 teeth × 4 = 200, a maker's FAQ on rotor teeth).
func (m Motor) StepsPerRotorTurn(mode sequence.Mode) int {
	return 4 * m.PolePairs * mode.PerStep
}

// StepsPerShaftTurn gives the rows of a mode to one turn of the output shaft,
// exact.
func (m Motor) StepsPerShaftTurn(mode sequence.Mode) *big.Rat {
	steps := new(big.Rat).SetInt64(int64(m.StepsPerRotorTurn(mode)))
	return steps.Mul(steps, m.Train.Ratio())
}

// Output gives the lead on output k, from 0, under a wiring.
func (m Motor) Output(wiring sequence.Permutation, k int) Lead {
	return m.Ends[wiring[k]]
}

// DrivenCurrent gives the rated current of a coil as it is driven: of a bipolar drive
// of taps or halves, which has the halves in series, 1/√2 of that of a half, for equal
// heat (Connections).
func (m Motor) DrivenCurrent() (i quantity.Current, ok bool) {
	i, ok = m.PhaseCurrent()
	if halves := m.Taps[0] != "" || m.Inner[0] != "" || m.Common != ""; ok && halves && m.Drive == sequence.Bipolar {
		i = quantity.Amperes(i.Base() / math.Sqrt2)
	}
	return i, ok
}

// PhaseCurrent gives the rated current of one coil: as stated, or the rated
// voltage over the resistance. ok is false when neither is known.
func (m Motor) PhaseCurrent() (i quantity.Current, ok bool) {
	f := m.Figures
	switch {
	case f.Current.Given():
		return f.Current, true
	case f.Voltage.Given() && f.Resistance.Given():
		return quantity.Amperes(f.Voltage.Base() / f.Resistance.Base()), true
	}
	return quantity.Current{}, false
}
