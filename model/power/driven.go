package power

import (
	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Fed says why a motor that is run in time is fed with a voltage.
type Fed int

// A sheet's rated voltage is what a motor is fed with for its published rates. A
// stage that regulates has no use for that: it gets what Ask gives it.
const (
	AsRated Fed = iota
	AsSuits
	AsNamed
)

// Driven is a motor as it is driven when it is run in time, with what nobody named
// filled in: as Ask does it, but for a supply that was not named (Fed).
type Driven struct {
	Motor      motor.Motor
	Connection motor.Connection
	Stage      driver.Stage
	Volts      quantity.Voltage // not given for the rated voltage
	Fed        Fed
	Current    float64 // A, that a stage is set to that regulates; 0 for the rated one
	Turned     bool    // the stage wants another drive than the motor has, and its leads allow it

	Rated float64  // V, of the connection; 0 when not known
	Heat  Question // what heat is judged by, of the same that was named; the zero one when it can not be
}

// Drives says how a motor is driven: by a stage and a supply, either the zero one
// where none was named, in a connection, "" for the usual one.
func Drives(m motor.Motor, stage driver.Stage, supply driver.Supply, connection string) (d Driven, err error) {
	d = Driven{Motor: m, Stage: stage}
	drive, named := m.Drive, supply.Title != ""
	if connection != "" {
		if d.Connection, err = ConnectionNamed(m, connection); err != nil {
			return d, err
		}
		drive = d.Connection.Drive
	}
	if stage.Name == "" {
		d.Stage = driver.Usual(drive, named)
	}
	if connection == "" {
		d.Connection = ConnectionOn(m, d.Stage)
		d.Turned = d.Connection.Drive != m.Drive
	}
	if q, err := Asked(m, stage, supply, connection); err == nil {
		d.Heat = q
		if c, err := q.coil(); err == nil {
			d.Rated = c.rated * c.ohms
		}
	}
	switch {
	case supply.Volts != 0 || named && supply.Name == "":
		d.Volts, d.Fed = quantity.Volts(supply.Volts), AsNamed
	case d.Heat.Supply.Volts > 0 && (named || d.Stage.Regulates() && !d.Stage.Instant() || d.ratedTooLow()):
		d.Volts, d.Fed = quantity.Volts(d.Heat.Supply.Volts), AsSuits
	}
	return d, nil
}

// Feeds gives the voltage that it is run with; 0 when not known.
func (d *Driven) Feeds() float64 {
	if d.Volts.Given() {
		return d.Volts.Base()
	}
	return d.Rated
}

// ratedTooLow says whether a stage that was named works on what heat is judged on,
// and not on the rated voltage.
func (d *Driven) ratedTooLow() bool {
	least := d.Stage.Limits.Least
	return d.Heat.Stage.Name == d.Stage.Name && d.Rated < least && least <= d.Heat.Supply.Volts
}

// SetTo sets the stage to a current, not given for the rated one.
func (d *Driven) SetTo(current quantity.Current) error {
	if !current.Given() {
		return nil
	}
	if !d.Stage.Regulates() {
		return &files.Complaint{What: "the " + d.Stage.Title + " does not set its current", Right: "a stage that does is wanted, or nothing set"}
	}
	d.Current, d.Heat.Current = current.Base(), current.Base()
	return nil
}

// Cost says what heat comes to where the motor is held at rest as it is driven here;
// nil where that is judged of another stage, or can not be. No motor is run for it.
func (d *Driven) Cost() *Answer {
	q := d.Heat
	if q.Stage.Name == "" || q.Stage.Name != d.Stage.Name {
		return nil
	}
	q.Rate, q.aside = 0, true
	a, err := Judge(q)
	if err != nil {
		return nil
	}
	return a
}

// Works says whether the stage works at all on what is left of its supply.
func (a *Answer) Works() bool {
	c, judged := a.Check(SupplyLow)
	return !judged || c.Verdict != Not
}

// Plant puts it into time.
func (d *Driven) Plant() (rotor.Plant, []rotor.Estimate, error) {
	if what, right := Misfit(d.Motor, d.Connection, d.Stage); what != "" {
		return rotor.Plant{}, nil, &files.Complaint{What: what, Right: right + ": " + files.Either(fitting(d.Connection.Drive))}
	}
	p, estimates, err := plantIn(d.Motor, d.Connection, d.Stage, d.Volts)
	if err != nil || d.Current == 0 {
		return p, estimates, err
	}
	p.Current = d.Current // the flux is that of the motor, and stays
	return p, estimates, p.Check()
}

// plantIn puts a motor in one of its connections into time; rotor.PlantOf knows
// halves in series only.
func plantIn(m motor.Motor, c motor.Connection, stage driver.Stage, supply quantity.Voltage) (rotor.Plant, []rotor.Estimate, error) {
	m.Drive = c.Drive
	p, estimates, err := rotor.PlantOf(m, stage, supply)
	if err != nil {
		return p, nil, err
	}
	switch c.Word {
	case "parallel": // half the turns, four times the copper for each
		p.FluxConstant, p.Inductance, p.Resistance, p.Current = p.FluxConstant/2, p.Inductance/4, p.Resistance/4, 2*p.Current
	case "half":
		p.FluxConstant, p.Inductance, p.Resistance, p.Current = p.FluxConstant/2, p.Inductance/(2*(1+p.Coupling)), p.Resistance/2, c.Current.Base()
	default:
		return p, estimates, nil
	}
	if !supply.Given() {
		p.Supply = p.Current * p.Resistance
	}
	return p, estimates, p.Check()
}

// ConnectionOn gives the connection that a motor's drive means, or, where the stage
// can not feed that and the leads allow another, one that it can.
func ConnectionOn(m motor.Motor, stage driver.Stage) motor.Connection {
	if stage.Allows(m.Drive) != nil {
		for _, d := range m.Drives() {
			if stage.Allows(d) == nil {
				return connectionFor(m, d)
			}
		}
	}
	return connectionFor(m, m.Drive)
}

// Misfit says why a stage can not drive a motor in a connection, and what is
// wanted; "" where it can.
func Misfit(m motor.Motor, c motor.Connection, stage driver.Stage) (what, right string) {
	err := stage.Allows(c.Drive)
	if err == nil && (m.Allows(c.Drive) == nil || parted(m, c)) {
		return "", ""
	}
	sink := stage.Allows(sequence.Unipolar) == nil
	switch leads := len(m.Leads()); {
	case leads == 4 && sink:
		return "a stage that only sinks can not drive 4 leads: nothing would bring the current in, and it can not turn the current round", "a bridge for each coil is wanted"
	case leads == 5 && !sink:
		return "a bridge can not drive 5 leads as they are: the common joins both phases, and the bridges would drive into each other", "a stage that sinks is wanted, with the common at the supply"
	}
	return "the " + stage.Title + " can not feed a " + c.Drive.String() + " drive, as " + c.Name + " is", "another connection is wanted, or another stage"
}

// fitting lists the stages that can feed a drive, but for idealisations.
func fitting(drive sequence.Drive) (stages []string) {
	for _, s := range driver.Stages {
		if s.Limits.Output > 0 && s.Allows(drive) == nil {
			stages = append(stages, s.Name)
		}
	}
	return stages
}

// parted says whether the connection wants the common of a 5-lead motor parted,
// which its leads do not allow as they are.
func parted(m motor.Motor, c motor.Connection) bool {
	return m.Common != "" && c.Drive == sequence.Bipolar
}
