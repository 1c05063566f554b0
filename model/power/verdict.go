package power

import (
	"math"
	"slices"

	"coilwalk/model/rotor"
)

// Verdict is what a question comes to in a word.
type Verdict int

const (
	Fine Verdict = iota
	Marginal
	Not
)

func (v Verdict) String() string { return [...]string{"fine", "marginal", "not"}[v] }

// Kind is what a check looks at.
type Kind string

const (
	FitsLeads     Kind = "leads"          // the stage can drive what the leads offer
	NeverSupply   Kind = "no-supply"      // a supply that is none
	SupplyLow     Kind = "supply-low"     // V, against the least that the stage works with
	SupplyHigh    Kind = "supply-high"    // V, against the most that it stands
	SupplyCurrent Kind = "supply-current" // A, peak, against what the supply may give
	SupplyLasts   Kind = "supply-lasts"   // s, against the time asked about
	OutputCurrent Kind = "output-current" // A, against what an output stands
	AllOutputs    Kind = "all-outputs"    // A, against what the package stands
	Junction      Kind = "junction"       // °C, of a part that loses as much as it may
	WindingHeat   Kind = "winding"        // °C, against the class of the insulation
	CoilCurrent   Kind = "coil-current"   // A, as heat counts it, against the rating
	Hold          Kind = "hold"           // of the rated torque, warm
	LoadHeld      Kind = "load"           // N·m, that it holds warm against the load
	LogicLevel    Kind = "logic"          // V, that an input needs, against what the controller gives
	GetsUp        Kind = "rise"           // rows a second, against the rate at which current gets up
	FollowsRate   Kind = "rate"           // rows a second
)

// Check is one figure held against its limit.
type Check struct {
	Kind         Kind
	Verdict      Verdict
	Value, Limit float64
}

// Where fine ends and marginal begins: common practice, no source.
const (
	nearly     = 0.8  // of what a supply or an output may carry
	nearClass  = 15   // K below the class of the insulation
	overRated  = 1.1  // times the rated current
	farOver    = 1.42 // twice the rated heat
	weak       = 0.7  // of the rated torque
	nothing    = 0.05 // of the rated torque: as good as none
	loadTwice  = 2    // a load should not need more than half of the hold
	doubtful   = 1.5  // a rise that was estimated may be off by this
	gateNearly = 0.7  // of the input that is asked for
	dayLong    = 24 * 3600
)

// upTo judges a value that must stay below a limit.
func upTo(value, fine, limit float64) Verdict {
	switch {
	case value <= fine:
		return Fine
	case value <= limit:
		return Marginal
	}
	return Not
}

// judge holds all figures against their limits. The deciding check comes first.
func (a *Answer) judge() {
	add := func(k Kind, v Verdict, value, limit float64) {
		a.Checks = append(a.Checks, Check{k, v, value, limit})
	}
	q, l, d := &a.Question, a.Stage.Limits, &a.Driver
	if what, _ := Misfit(q.Motor, q.Connection, q.Stage); what != "" {
		add(FitsLeads, Not, 0, 0)
		a.Verdict = Not
		return
	}
	if q.Supply.Never != "" {
		add(NeverSupply, Not, d.OutputAmpere, q.Supply.Limit)
	}
	if l.Least > 0 {
		add(SupplyLow, upTo(l.Least, a.Cold.Volts, a.Cold.Volts), a.Cold.Volts, l.Least)
	}
	if l.Most > 0 {
		add(SupplyHigh, upTo(q.Supply.Volts, nearly*l.Most, l.Most), q.Supply.Volts, l.Most)
	}
	if q.Supply.Limit > 0 {
		peak := a.Cold.Ampere
		if q.Rate > 0 {
			peak = a.peak()
		}
		fine := nearly * q.Supply.Limit
		if q.Supply.Promised > 0 {
			fine = q.Supply.Promised
		}
		add(SupplyCurrent, upTo(peak, fine, q.Supply.Limit), peak, q.Supply.Limit)
	}
	if a.Lasts > 0 {
		asked := q.For
		if asked == 0 {
			asked = dayLong
		}
		add(SupplyLasts, upTo(asked, nearly*a.Lasts, a.Lasts), a.Lasts, asked)
	}
	if l.Output > 0 {
		add(OutputCurrent, upTo(d.OutputAmpere, nearly*l.Output, l.Output), d.OutputAmpere, l.Output)
	}
	if l.Together > 0 {
		add(AllOutputs, upTo(d.PackageAmpere, nearly*l.Together, l.Together), d.PackageAmpere, l.Together)
	}
	if l.Thermal > 0 {
		add(Junction, upTo(d.JunctionMost, l.Keep, l.Hottest), d.JunctionMost, l.Hottest)
	}
	add(WindingHeat, a.windingVerdict(), a.After, a.Body.Class)
	heating := d.OutputAmpere * math.Sqrt(q.Duty)
	add(CoilCurrent, upTo(heating, overRated*a.Rated, farOver*a.Rated), heating, a.Rated)
	wanted := weak // of what is asked for: to hold with less is a choice
	if q.Rate == 0 {
		wanted *= q.Hold
	}
	strong := Fine
	switch {
	case a.Part < nothing:
		strong = Not
	case a.Part < wanted && !(q.Load > 0 && a.WarmShaft > 0): // a load that is told decides by itself
		strong = Marginal
	}
	add(Hold, strong, a.Part, wanted)
	if q.Load > 0 && a.WarmShaft > 0 {
		add(LoadHeld, upTo(q.Load, a.WarmShaft/loadTwice, a.WarmShaft), a.WarmShaft, q.Load)
	}
	if q.Logic > 0 {
		needs := q.Stage.Input.Needs.At(d.OutputAmpere)
		add(LogicLevel, upTo(gateNearly*needs, gateNearly*q.Logic, q.Logic), q.Logic, needs)
	}
	if a.Turns && !a.Followed && !q.slowly {
		v := Not
		if slices.ContainsFunc(a.Estimates, func(e rotor.Estimate) bool { return e.Figure == "inertia" }) {
			v = Marginal // what rests on an estimate is a caution
		}
		add(FollowsRate, v, q.Rate, 0)
	}
	if q.Rate > 0 && a.Rise.Rate > 0 && a.Rise.Rate < q.Rate {
		add(GetsUp, Marginal, q.Rate, a.Rise.Rate)
	}
	slices.SortStableFunc(a.Checks, func(x, y Check) int { return int(y.Verdict) - int(x.Verdict) })
	a.Verdict = a.Checks[0].Verdict
}

// windingVerdict judges the winding's temperature. One that rests on an estimated
// thermal resistance says not only where the rise would be too much by far.
func (a *Answer) windingVerdict() Verdict {
	v := upTo(a.After, a.Body.Class-nearClass, a.Body.Class)
	if v == Not && !a.Motor.Figures.Thermal.Given() && a.Ambient+(a.After-a.Ambient)/doubtful <= a.Body.Class {
		return Marginal
	}
	return v
}

// peak gives the most that is drawn from the supply on any row of the mode, cold.
func (a *Answer) peak() float64 {
	for _, m := range a.Modes {
		if m.Mode.Name == a.Mode.Name {
			return m.Peak
		}
	}
	return a.Cold.Ampere
}

// Check gives the check of a kind; ok is false when it was not made.
func (a *Answer) Check(k Kind) (Check, bool) {
	for _, c := range a.Checks {
		if c.Kind == k {
			return c, true
		}
	}
	return Check{}, false
}

// Stays says whether the rotor stays where it is when all is switched off, from
// each row of the mode; known is false where the motor can not be run.
func (a *Answer) Stays() (stays, known bool) {
	stays = true
	for _, off := range a.Off {
		stays = stays && len(off.Degrees) == 1 && math.Abs(off.Degrees[0]) < 0.01
	}
	return stays && a.Off != nil, a.Off != nil
}
