package rotor

import (
	"fmt"
	"math"

	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/sequence"
)

// Plant is the machine in time with what drives and loads it: motor, driver
// stage, supply, train and load. All in SI units, at the rotor, but for Load.
type Plant struct {
	PolePairs    int
	Drive        sequence.Drive
	Stage        driver.Stage
	Supply       float64 // V
	Current      float64 // A, of one phase on: what a regulating stage holds, and the measure of currents
	FluxConstant float64 // ψm, V·s: a coil current i holds with p·ψm·i
	Resistance   float64 // ohm, of a coil, or of a half-coil
	Inductance   float64 // H, likewise
	Coupling     float64 // k between the halves of a phase, 0 ≤ k < 1; unipolar only
	Inertia      float64 // kg·m², of the rotor
	Damping      float64 // B, N·m·s: viscous
	Friction     float64 // N·m, dry: it holds a rotor at rest as strongly as it drags a moving one
	Detent       float64 // Td, N·m
	DetentShift  float64 // φd, degrees
	Ratio        float64 // rotor turns to one of the shaft
	Play         float64 // degrees at the shaft that the train has between rotor and load; needs a load with inertia
	Load         Load
}

// Load is what hangs on the output shaft.
type Load struct {
	Torque     float64 // N·m, constant, pulling back against forward turning
	Gravity    float64 // N·m, amplitude of what goes as sin(shaft angle + GravityDeg), pulling back
	GravityDeg float64 // degrees
	Friction   float64 // N·m, dry, against any motion
	Inertia    float64 // kg·m²
}

// most coupled: nearer to 1 the leakage that is left is no figure but a
// rounding error, and explicit steps go as its time constant.
const mostCoupled = 0.9999

// mostSupply, in V, is far beyond what a stage or a winding bears.
const mostSupply = 1e4

// mostConstant, in N·m/√W at the rotor, is far beyond what a winding holds at a watt
// of copper loss: small ones hold some hundredths.
const mostConstant = 10

// mostRing, in Hz, is far beyond what any rotor swings at: small ones do at some
// hundred.
const mostRing = 20e3

// leastRing, in Hz, is far below what any machine on a bench swings at, and what can
// be run in good time.
const leastRing = 0.1

// mostDetent, in holds of one phase, is far beyond any: such a motor never leaves its
// teeth.
const mostDetent = 100

// CheckPace says what keeps a machine from being run in good time, beside what keeps
// it from being one: trials and responses are bounded by it, a single motion is not.
func (p *Plant) CheckPace() error {
	if err := p.Check(); err != nil {
		return err
	}
	wrong := func(what, right string) error { return &files.Complaint{What: what, Right: right} }
	if ring := p.RingRadians(1) / (2 * math.Pi); ring < leastRing {
		return wrong(fmt.Sprintf("with a torque of %.3g N·m on an inertia of %.3g kg·m² at the rotor it would swing at %.3g Hz", p.OnePhase(), p.TotalInertia(), ring),
			fmt.Sprintf("at least %g Hz is wanted: look at the unit of the inertia", leastRing))
	}
	if p.Detent > mostDetent*p.OnePhase() {
		return wrong(fmt.Sprintf("the detent torque can not be %.3g times what a phase holds", p.Detent/p.OnePhase()), "that of a small motor is a few hundredths of it: look at its unit")
	}
	return nil
}

// Check says what keeps the figures from being a machine.
func (p *Plant) Check() error {
	wrong := func(what, right string) error { return &files.Complaint{What: what, Right: right} }
	for _, v := range []float64{p.Supply, p.Current, p.FluxConstant, p.Resistance, p.Inductance, p.Coupling, p.Inertia, p.Damping, p.Friction,
		p.Detent, p.DetentShift, p.Ratio, p.Play, p.Load.Torque, p.Load.Gravity, p.Load.GravityDeg, p.Load.Friction, p.Load.Inertia} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return wrong("a figure of the machine is no number", "every figure has to be finite")
		}
	}
	if err := p.Stage.Allows(p.Drive); err != nil {
		return err
	}
	for _, figure := range []struct {
		name  string
		value float64
		zero  bool
	}{
		{"pole pairs", float64(p.PolePairs), false},
		{"ratio of the train", p.Ratio, false},
		{"flux constant", p.FluxConstant, false},
		{"phase current", p.Current, false},
		{"rotor inertia", p.Inertia, false},
		{"resistance", p.Resistance, p.Stage.Instant()},
		{"inductance", p.Inductance, p.Stage.Instant()},
		{"supply voltage", p.Supply, true},
		{"damping", p.Damping, true},
		{"friction", p.Friction, true},
		{"detent torque", p.Detent, true},
		{"load friction", p.Load.Friction, true},
		{"load inertia", p.Load.Inertia, true},
		{"play", p.Play, true},
	} {
		if figure.value < 0 || figure.value == 0 && !figure.zero {
			return wrong(fmt.Sprintf("the %s can not be %g", figure.name, figure.value), "a number above zero is wanted")
		}
	}
	if p.Supply > mostSupply {
		return wrong(fmt.Sprintf("the supply voltage can not be %g V", p.Supply), fmt.Sprintf("at most %g V is wanted", float64(mostSupply)))
	}
	if ring := p.RingRadians(1) / (2 * math.Pi); ring > mostRing {
		return wrong(fmt.Sprintf("with a torque of %.3g N·m on an inertia of %.3g kg·m² at the rotor it would swing at %.3g Hz", p.OnePhase(), p.TotalInertia(), ring),
			"that of a small motor does at some hundred: look at the units of holding torque and inertia")
	}
	if constant := p.OnePhase() / (p.Current * math.Sqrt(p.Resistance)); p.Resistance > 0 && constant > mostConstant {
		return wrong(fmt.Sprintf("a winding of %.3g ohm that holds %.3g N·m at the rotor with %.3g A can not be: a watt would hold %.3g N·m", p.Resistance, p.OnePhase(), p.Current, constant),
			"that of a small motor holds some hundredths: look at the unit of holding torque")
	}
	if p.Play > 0 && p.Load.Inertia == 0 {
		return wrong("a load without inertia has no motion of its own in the play of a train", "give its inertia, or no play")
	}
	if p.Coupling < 0 || p.Coupling > mostCoupled {
		return wrong(fmt.Sprintf("the halves of a phase can not be coupled by %g", p.Coupling), fmt.Sprintf("from 0 to %g is wanted", mostCoupled))
	}
	return nil
}

// currents gives how many coils carry one of their own.
func (p *Plant) currents() int {
	if p.Drive == sequence.Unipolar {
		return 4
	}
	return 2
}

// TotalInertia gives rotor and load together at the rotor: the train divides
// the load's by the square of its ratio.
func (p *Plant) TotalInertia() float64 { return p.Inertia + p.Load.Inertia/(p.Ratio*p.Ratio) }

// DryFriction gives that of motor and load together, at the rotor.
func (p *Plant) DryFriction() float64 { return p.Friction + p.Load.Friction/p.Ratio }

// OnePhase gives T1, the holding torque of one phase at Current: p·ψm·I.
func (p *Plant) OnePhase() float64 { return float64(p.PolePairs) * p.FluxConstant * p.Current }

// Machine gives the statics of the same machine, without the part of the load
// that goes with the shaft angle.
func (p *Plant) Machine() Machine {
	t1 := p.OnePhase()
	return Machine{PolePairs: p.PolePairs, Detent: p.Detent / t1, DetentShift: p.DetentShift,
		Friction: p.DryFriction() / t1, Load: p.Load.Torque / p.Ratio / t1, OnePhase: t1}
}

// RingRadians gives the small-signal frequency √(p·k/J) in rad/s about a rest
// of the given stiffness, in T1 (Machine.Stiffness); 0 on a hill. (Jones,
// "Stepping Motor Physics", Resonance: f = √(k/µ)/2π.)
func (p *Plant) RingRadians(stiffness float64) float64 {
	return math.Sqrt(max(0, float64(p.PolePairs)*p.OnePhase()*stiffness/p.TotalInertia()))
}

// Field gives the field of a row once its currents are steady and the rotor
// stands, in units of Current.
func (p *Plant) Field(row sequence.Row) sequence.Field {
	i := p.Currents(row)
	return sequence.Field{A: (i[0] - i[2]) / p.Current, B: (i[1] - i[3]) / p.Current}
}

// adrift says whether a load that is the same everywhere is more than a row holds
// anywhere: to run that would be to spin it up for as long as it is looked at.
func (p *Plant) adrift(row sequence.Row) bool {
	_, balance := p.Machine().Rest(p.Field(row), Position{})
	return balance == Adrift && p.Load.Gravity == 0
}

// Currents gives the coil currents of a row in ampere, once they are steady and
// the rotor stands; bipolar the first two are phases A and B.
func (p *Plant) Currents(row sequence.Row) (i [4]float64) {
	feeds := p.Stage.Feeds(row, p.Drive, p.Current)
	for j := range i {
		i[j] = feeds[j].Settled(p.Supply, p.Resistance)
	}
	return i
}
