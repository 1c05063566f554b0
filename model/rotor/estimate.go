package rotor

import (
	"fmt"
	"math"

	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// Estimate is a figure that the motor does not give.
type Estimate struct {
	Figure string  // as a motor file calls it; damping and coupling have no place there
	Value  float64 // SI, at the rotor
	Shown  string  // with its unit
	Why    string
}

// PlantOf puts a motor behind a driver stage and a supply, with no load but
// what the motor's own figures have. Missing figures are estimated from kind
// and size, and listed. Without a holding torque and a phase current there is
// nothing to estimate from: the error says what is needed. A bipolar drive of
// 5, 6 or 8 leads has the halves in series. Without a supply the rated voltage
// counts, except for a chopper, which needs more than that.
func PlantOf(m motor.Motor, stage driver.Stage, supply quantity.Voltage) (Plant, []Estimate, error) {
	if err := stage.Allows(m.Drive); err != nil {
		return Plant{}, nil, err
	}
	need := func(what, right string) (Plant, []Estimate, error) {
		return Plant{}, nil, &files.Complaint{File: m.Name, What: what, Right: right}
	}
	statics := Of(m)
	if statics.OnePhase <= 0 {
		return need("the motor gives no holding torque, and without it nothing can be said of its motion", "give holding_torque, or one_phase_torque, under [figures]; to measure it, hang more and more weight on a lever at the held output shaft until it gives way: 100 g at 5 cm is 49 mN.m")
	}
	current, ok := m.PhaseCurrent()
	if !ok {
		return need("the motor gives no phase current, and without it its holding torque says nothing of other currents",
			"give current, or voltage and resistance, under [figures]")
	}
	rated := current.Base()
	ratio, _ := m.Train.Ratio().Float64()
	p := Plant{PolePairs: m.PolePairs, Drive: m.Drive, Stage: stage, Current: rated, FluxConstant: statics.OnePhase / (float64(m.PolePairs) * rated),
		Resistance: m.Figures.Resistance.Base(), Inductance: m.Figures.Inductance.Base(), Inertia: m.Figures.Inertia.Base(),
		Friction: statics.Friction * statics.OnePhase, Detent: statics.Detent * statics.OnePhase, DetentShift: statics.DetentShift,
		Ratio: ratio, Load: Load{Torque: m.Figures.Load.Base()}}
	if p.Resistance == 0 && m.Figures.Voltage.Given() {
		p.Resistance = m.Figures.Voltage.Base() / rated
	}
	if p.Resistance == 0 && !stage.Instant() {
		return need("the motor gives no resistance, which sets its currents", "give resistance, or voltage and current, under [figures]")
	}
	halves := len(m.Leads()) > 4
	estimates := p.fill(m.Figures, halves)
	if halves && m.Drive == sequence.Bipolar {
		p.inSeries()
	}
	p.Supply = supply.Base()
	switch {
	case supply.Given():
	case stage.Regulates() && !stage.Instant():
		return need("a chopper was given no supply voltage", "several times the motor's rated voltage is usual")
	default:
		p.Supply = p.Current * p.Resistance
	}
	return p, estimates, p.Check()
}

// inSeries joins the halves of each phase into one coil: twice the turns at
// 1/√2 of the rating, for equal heat (motor.Connections).
func (p *Plant) inSeries() {
	p.Current /= math.Sqrt2
	p.FluxConstant *= 2
	p.Resistance *= 2
	p.Inductance *= 2 * (1 + p.Coupling)
}

// manyPoles tells a hybrid from a can motor: hybrids have 50 pole pairs, or
// 100; claws of sheet metal leave room for 24 at most.
const manyPoles = 25

// fill estimates what the figures leave out. The plant is still that of the
// half-coils.
func (p *Plant) fill(given motor.Figures, halves bool) []Estimate {
	var list []Estimate
	note := func(figure string, value float64, shown, why string) {
		list = append(list, Estimate{figure, value, shown, why})
	}
	kind, hybrid := "can motors", p.PolePairs >= manyPoles
	if hybrid {
		kind = "hybrids"
	}
	t2 := math.Sqrt2 * p.OnePhase()
	if !given.Inertia.Given() {
		// Hybrids of 42 mm: 28 N·cm 34 g·cm², 40 N·cm 54, 52 N·cm 68 (a maker's
		// catalogue of 42 mm hybrids, p. 9). A can of 73 mN·m has some 12.5 g·cm² (from
		// memory). That small motors go in the same proportion is a guess.
		perTorque := 12.5e-7 / 0.0734
		if hybrid {
			perTorque = 54e-7 / 0.40
		}
		p.Inertia = perTorque * t2
		note("inertia", p.Inertia, quantity.KilogramSquareMetres(p.Inertia).Rounded(2),
			fmt.Sprintf("in proportion to the holding torque, as %s have it; within a factor of two", kind))
	}
	if !given.Detent.Given() {
		// 2.2 of 40 N·cm, 2.6 of 52 (the same catalogue); cans have twice as
		// much or more (common practice, no source).
		part := 0.10
		if hybrid {
			part = 0.05
		}
		p.Detent = part * t2
		note("detent_torque", p.Detent, quantity.NewtonMetres(p.Detent).Rounded(2), fmt.Sprintf("%.0f %% of the holding torque, as %s have it", 100*part, kind))
	}
	if !given.Inductance.Given() && p.Resistance > 0 {
		// L/R of hybrids 0.8 to 2.3 ms (two makers' data sheets), of a can
		// 0.8 to 0.9 ms (from memory).
		rise := 0.85e-3
		if hybrid {
			rise = 1.6e-3
		}
		p.Inductance = rise * p.Resistance
		note("inductance", p.Inductance, quantity.Henries(p.Inductance).Rounded(2), fmt.Sprintf("a time constant L/R of %.2g ms, as %s have it", rise*1e3, kind))
	}
	const ratio = 0.05
	p.Damping = 2 * ratio * p.TotalInertia() * p.RingRadians(1)
	note("damping", p.Damping, fmt.Sprintf("%.2g N.m.s", p.Damping),
		fmt.Sprintf("a damping ratio of %g with one phase on and its current held; common practice, no source", ratio))
	if halves {
		p.Coupling = 0.98
		note("coupling", p.Coupling, "0.98", "the halves of a phase are wound side by side; common practice, no source")
	}
	if !given.Friction.Given() {
		note("friction", 0, "0 mN.m", "none is given, and none is counted")
	}
	return list
}
