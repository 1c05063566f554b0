package power

import (
	"math"
	"slices"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Answer is what a question comes to.
type Answer struct {
	Question
	Ohms, Rated float64 // of a coil of the connection, at 25 °C, and the A it is rated for

	Modes     []ModeCost // wave, full and half step, and the one asked about where it is none of them
	Both      *Cost      // both halves of a phase on; nil where there are none
	Cold      Cost       // as it begins: the row that it is held on, or the costliest
	Row       int        // which, from 1
	Warm      Cost       // the same once it is warm
	Balance   Balance    // warm
	Turns     bool       // it was run in time, at the rate
	Followed  bool       // it follows the rate
	NotRun    error      // why it could not be run
	Driver    Driver
	Body      Body
	Final     float64 // °C of the winding, for good
	After     float64 // °C at the end of the time asked about
	Course    []Warm
	ColdShaft float64 // N·m, held at the shaft by the row; 0 when not known
	WarmShaft float64
	Part      float64 // of what the row holds at the rated current, warm
	Rise      Rise
	Stored    float64     // J in one coil; 0 when its inductance is not known
	Off       []rotor.Off // where the rotor goes when all is switched off; nil when not known
	Lasts     float64     // s that a supply lasts which runs out; else 0

	Checks    []Check // the deciding one first
	Verdict   Verdict
	Estimates []rotor.Estimate
}

// Driver is what the driver stage turns into heat, warm.
type Driver struct {
	OutputAmpere  float64 // A, through the output that carries most, cold
	PackageAmpere float64 // A, through all outputs of a package, cold
	Output        float64 // W, of the output that is warmest
	Package       float64 // W, of the package
	PackageMost   float64 // W, where a part loses as much as it may
	Junction      float64 // °C
	JunctionMost  float64 // °C, where a part loses as much as it may
}

// Rise is how long a coil's current takes to get up.
type Rise struct {
	Constant float64 // s, L/R of coil and way; 0 when the inductance is not known
	Seconds  float64 // until 90 % of what it comes to, or all of what the stage holds; 0 where it never does
	Rate     float64 // rows a second, above which a coil is off again before; 0 when not known
}

// Judge answers a question by itself, without what else could be done.
func Judge(q Question) (*Answer, error) {
	if err := q.Check(); err != nil {
		return nil, err
	}
	c, err := q.coil()
	if err != nil {
		return nil, err
	}
	a := &Answer{Question: q, Ohms: c.ohms, Rated: c.rated}
	if what, _ := Misfit(q.Motor, q.Connection, q.Stage); what != "" {
		a.judge()
		return a, nil
	}
	a.Body, a.Estimates = q.body()
	if both, ok := q.bothHalves(c); ok {
		a.Both = &both
	}
	asked := q.modeCosts(q.Mode, c, q.Ambient, q.Ambient)
	for _, mode := range sequence.Modes {
		a.Modes = append(a.Modes, q.modeCosts(mode, c, q.Ambient, q.Ambient))
	}
	if !slices.ContainsFunc(sequence.Modes[:], func(m sequence.Mode) bool { return m.Name == q.Mode.Name }) {
		a.Modes = append(a.Modes, asked)
	}
	a.Cold, a.Row = asked.Rest, asked.Row
	a.warmUp(c, asked)
	a.inTime(c, asked)
	a.judge()
	return a, nil
}

// Sketch is Judge without any run in time: a motor that turns is taken as stepping
// slowly, which costs more. It is quick enough for every letter that is typed.
func Sketch(q Question) (*Answer, error) {
	q.slowly = true
	return Judge(q)
}

// warmUp finds the temperatures that belong together: the winding's by its copper
// loss, the junction's by the stage's, and both change the currents.
func (a *Answer) warmUp(c coil, slow ModeCost) {
	q := &a.Question
	row := q.Mode.Order().Row(int64(a.Row - 1))
	windingC, junctionC := q.Ambient, q.Ambient
	var watts func(celsius float64) float64
	rounds := 3 // the second already changes little: a junction's warmth is a small part of a coil's current
	if q.runs() {
		rounds = 1 // and a run is dear
	}
	for range rounds {
		at := junctionC
		switch {
		case q.Rate == 0:
			watts = func(t float64) float64 { return q.Duty * q.costs(row, c, t, at).Copper }
		case !q.runs():
			watts = func(t float64) float64 { return q.Duty * q.modeCosts(q.Mode, c, t, at).Copper }
		default:
			watts = a.turningWatts(c, at, slow)
		}
		windingC = settles(q.Ambient, a.Body.Thermal, watts)
		junctionC = a.driver(c, row, windingC, slow)
	}
	a.Final, a.After = windingC, windingC
	span := q.For
	if span == 0 {
		span = 5 * a.Body.Seconds
	}
	if q.For > 0 || !q.aside {
		a.Course = a.Body.warms(q.Ambient, span, watts)
	}
	if q.For > 0 {
		a.After = a.Course[len(a.Course)-1].Celsius
	}
	a.Warm = q.costs(row, c, a.After, min(junctionC, Hottest))
	a.Part = a.Warm.Strength / row.Field().Strength()
	if th := q.Motor.Figures; th.HoldingTorque.Given() || th.OnePhase.Given() {
		one := th.OnePhase.Base()
		if th.HoldingTorque.Given() {
			one = th.HoldingTorque.Base() / math.Sqrt2
		}
		one *= q.Connection.Torque
		a.ColdShaft, a.WarmShaft = one*a.Cold.Strength, one*a.Warm.Strength
	}
}

// turningWatts gives the copper loss of a turning motor at any temperature of the
// winding, by the straight line through runs at two.
func (a *Answer) turningWatts(c coil, junctionC float64, slow ModeCost) func(float64) float64 {
	q := &a.Question
	const apart = 60 // K
	var loss [2]float64
	for k := range loss {
		at := q.Ambient + apart*float64(k)
		run, ok := q.turning(c, at, junctionC, slow)
		if !ok || !run.followed {
			a.Turns = ok
			return func(t float64) float64 { return q.Duty * q.modeCosts(q.Mode, c, t, junctionC).Copper }
		}
		a.Turns, a.Followed = true, true
		loss[k] = q.balance(run.spent, c, at).Copper
	}
	return func(t float64) float64 {
		return q.Duty * max(0, loss[0]+(loss[1]-loss[0])*(t-q.Ambient)/apart)
	}
}

// driver works out the stage's heat with the winding at a temperature, and gives
// the junction's.
func (a *Answer) driver(c coil, row sequence.Row, windingC float64, slow ModeCost) (junctionC float64) {
	q := &a.Question
	l := q.Stage.Limits
	d := &a.Driver
	sink := q.Connection.Drive == sequence.Unipolar
	for _, i := range a.Cold.Coils {
		d.OutputAmpere = max(d.OutputAmpere, math.Abs(i))
	}
	d.PackageAmpere = 0
	if sink && l.PerPackage == 4 {
		for _, i := range a.Cold.Coils {
			d.PackageAmpere += i
		}
	}
	heat := func(tj float64) (output, pack, most float64) {
		if a.Followed {
			run, _ := q.turning(c, windingC, tj, slow)
			a.Balance = q.balance(run.spent, c, windingC)
		} else if q.Rate > 0 {
			a.Balance = stepping(q.modeCosts(q.Mode, c, windingC, tj))
		}
		cost := q.costs(row, c, windingC, tj)
		if q.Rate == 0 {
			a.Balance = standing(cost)
		}
		return q.shares(a.Balance, cost, tj)
	}
	if a.Followed { // a run is dear, and a drop changes little with warmth
		d.Output, d.Package, d.PackageMost = heat(q.Ambient)
		d.Junction = min(Hottest, q.Ambient+l.Thermal*d.Package)
		d.Output, d.Package, d.PackageMost = heat(d.Junction)
		d.Junction = min(Hottest, q.Ambient+l.Thermal*d.Package)
		d.JunctionMost = min(Hottest, q.Ambient+l.Thermal*d.PackageMost)
		return d.Junction
	}
	d.JunctionMost = settles(q.Ambient, l.Thermal, func(tj float64) float64 { _, _, most := heat(tj); return most })
	d.Junction = settles(q.Ambient, l.Thermal, func(tj float64) float64 { _, pack, _ := heat(tj); return pack })
	_, _, d.PackageMost = heat(d.JunctionMost)
	d.Output, d.Package, _ = heat(d.Junction)
	return d.Junction
}

// shares gives what the warmest output and the warmest package make of the stage's
// heat. A bridge's loop goes through two outputs. Diodes in the package count as
// well.
func (q *Question) shares(b Balance, row Cost, junctionC float64) (output, pack, most float64) {
	loops := row.Lost
	if q.Rate > 0 { // in turn, all alike
		n := 2.0
		if q.Connection.Drive == sequence.Unipolar {
			n = 4
		}
		loops = [4]float64{b.Stage / n, b.Stage / n}
		if n == 4 {
			loops[2], loops[3] = loops[0], loops[0]
		}
	}
	worse, ampere := 1.0, 0.0
	loss := 0.0
	for j, w := range loops {
		loss = max(loss, w)
		ampere = max(ampere, math.Abs(row.Coils[j]))
	}
	if typical := q.Stage.Around(ampere, junctionC).Switch.At(ampere); typical > 0 {
		worse = max(1, q.Stage.Worst(ampere, junctionC)/typical)
	}
	sum := loops[0] + loops[1] + loops[2] + loops[3] + b.Clamp
	output = loss
	if q.Connection.Drive == sequence.Bipolar {
		output = loss / 2
	}
	switch q.Stage.Limits.PerPackage {
	case 1:
		pack = output
	case 2:
		pack = max(loops[0]+loops[2], loops[1]+loops[3]) // the two outputs of a phase
	default:
		pack = sum
	}
	return output, pack, pack * worse
}

// inTime works out what hangs on inductance and rotor.
func (a *Answer) inTime(c coil, slow ModeCost) {
	q := &a.Question
	p, estimates, err := q.plant(c, q.Ambient, q.Ambient, max(a.Cold.Volts, 1e-3), a.Driver.OutputAmpere)
	henries := c.henries
	if err == nil {
		henries = p.Inductance
		if len(q.Motor.Leads()) > 4 && q.Connection.Drive == sequence.Bipolar && c.henries > 0 {
			henries = c.henries
		}
		a.Off = rotor.SwitchedOff(p, q.Mode)
		for _, e := range estimates {
			if e.Figure == "inductance" || q.Rate > 0 || e.Figure == "detent_torque" {
				a.Estimates = append(a.Estimates, e)
			}
		}
	}
	a.NotRun = err
	if henries > 0 {
		i := a.Driver.OutputAmpere
		a.Stored = henries * i * i / 2
		a.Rise = q.rises(c, henries, i)
	}
	if q.Supply.Capacity > 0 && slow.Average > 0 {
		drawn := a.Cold.Ampere
		if q.Rate > 0 {
			drawn = slow.Average
		}
		a.Lasts = q.Supply.Capacity / max(drawn*q.Duty, 1e-12)
	}
}

// rises gives how long the current of a coil takes from none to what it comes to.
// A back-EMF, which slows it further, is not in it.
//
//	t = −L/R · ln(1 − i·R/(supply − drop))
func (q *Question) rises(c coil, henries, ampere float64) Rise {
	way := q.Stage.Around(ampere, q.Ambient).Switch
	ohms := c.at(q.Ambient) + q.Series + way.Ohms
	r := Rise{Constant: henries / ohms}
	volts := q.Supply.Leaves(ampere) - way.Volts
	part := 0.9
	if q.Stage.Regulates() {
		part = q.set() * ohms / max(volts, 1e-12)
	}
	if q.Stage.Instant() || part >= 1 {
		return r
	}
	r.Seconds = -r.Constant * math.Log1p(-part)
	on := 2*q.Mode.PerStep - 1 // rows that a coil is on: one in wave drive, three in half step
	if q.Mode.Name == sequence.Full.Name {
		on = 2
	}
	r.Rate = float64(on) / r.Seconds
	return r
}
