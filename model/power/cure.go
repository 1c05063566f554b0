package power

import (
	"slices"

	"coilwalk/model/driver"
	"coilwalk/sequence"
)

// ChangeKind is a kind of thing that can be done about a verdict.
type ChangeKind string

const (
	ToRest       ChangeKind = "mode"       // rest on rows with one phase on
	SwitchOff    ChangeKind = "duty"       // be on for a part of the time only
	HoldLower    ChangeKind = "hold"       // hold with a part of the current
	SetLower     ChangeKind = "current"    // set the stage to less
	AddSeries    ChangeKind = "series"     // a resistor in series with each coil
	OtherSupply  ChangeKind = "supply"     // a kind of supply, or a voltage
	OtherStage   ChangeKind = "stage"      // a driver stage
	OtherConnect ChangeKind = "connection" // the coils joined in another way
)

// Change is one thing that is done otherwise.
type Change struct {
	Kind  ChangeKind
	Name  string  // of mode, supply, stage or connection
	Value float64 // the part, A, ohm or V
}

// Cure is a change that makes a verdict better, and what it then comes to.
type Cure struct {
	Change
	Answer *Answer
}

// Cures tries what else could be done, a change at a time, and gives those that
// make the verdict better, the best first, two of a kind at most; none where it is
// fine.
func Cures(a *Answer) []Cure {
	if a.Verdict == Fine {
		return nil
	}
	var cures []Cure
	try := func(c Change, with func(q *Question)) bool {
		b, ok := a.with(with)
		if ok = ok && b.Verdict < a.Verdict; ok {
			cures = append(cures, Cure{c, b})
		}
		return ok
	}
	if _, misfit := a.Check(FitsLeads); !misfit {
		a.easier(try)
		a.supplied(try)
		a.joined(try)
	}
	a.driven(try)
	slices.SortStableFunc(cures, func(x, y Cure) int { return int(x.Answer.Verdict) - int(y.Answer.Verdict) })
	count := map[ChangeKind]int{}
	return slices.DeleteFunc(cures, func(c Cure) bool {
		count[c.Kind]++
		return count[c.Kind] > mostOfKind
	})
}

// mostOfKind is how many cures of a kind are told: more would only be more to read.
const mostOfKind = 2

// tries takes a change up if it makes a better verdict, and says whether it does.
type tries func(c Change, with func(q *Question)) bool

// easier asks less of the same parts.
func (a *Answer) easier(try tries) {
	q := &a.Question
	if a.Rate == 0 && q.Mode.Name != sequence.Wave.Name {
		try(Change{Kind: ToRest, Name: sequence.Wave.Name}, func(q *Question) { q.Mode = sequence.Wave })
	}
	for _, part := range []float64{0.75, 0.5, 0.25, 0.1} {
		if part < q.Duty && (part == 0.1 || a.better(func(q *Question) { q.Duty = part })) {
			try(Change{Kind: SwitchOff, Value: part}, func(q *Question) { q.Duty = part })
			break
		}
	}
	if q.Stage.Regulates() {
		for _, part := range []float64{0.7, 0.5, 0.35} {
			if q.Rate == 0 && part < q.Hold && (part == 0.35 || a.better(func(q *Question) { q.Hold = part })) {
				try(Change{Kind: HoldLower, Value: part}, func(q *Question) { q.Hold = part })
				break
			}
		}
		if set := nearly * q.Stage.Limits.Output; set > 0 && set < q.Current {
			try(Change{Kind: SetLower, Value: set}, func(q *Question) { q.Current = set })
		}
		return
	}
	if r, ok := a.SeriesFor(a.Rated); ok {
		try(Change{Kind: AddSeries, Value: r.Ohms}, func(q *Question) { q.Series += r.Ohms })
	}
}

// with answers the question with a change. It is not run in time, where the rate is
// not what is wrong: at rest on each row in turn it costs more than turning.
func (a *Answer) with(change func(q *Question)) (b *Answer, ok bool) {
	q := a.Question
	change(&q)
	follows, asked := a.Check(FollowsRate)
	q.aside, q.slowly = true, !asked || follows.Verdict == Fine
	b, err := Judge(q)
	return b, err == nil
}

// better says whether a change makes a better verdict.
func (a *Answer) better(change func(q *Question)) bool {
	b, ok := a.with(change)
	return ok && b.Verdict < a.Verdict
}

// supplied goes through the other supplies.
func (a *Answer) supplied(try tries) {
	c := coil{ohms: a.Ohms, rated: a.Rated}
	for _, s := range driver.Supplies {
		if s.Name == a.Supply.Name || s.Never != "" {
			continue
		}
		if s.Volts == 0 {
			s.Volts = a.usualVolts(c)
		}
		try(Change{Kind: OtherSupply, Name: s.Name, Value: s.Volts}, func(q *Question) { q.Supply = s })
	}
}

// joined goes through the other connections that the stage can feed.
func (a *Answer) joined(try tries) {
	for _, c := range a.Motor.Connections() {
		if c.Name == a.Connection.Name || a.Stage.Allows(c.Drive) != nil {
			continue
		}
		try(Change{Kind: OtherConnect, Name: c.Name}, func(q *Question) { q.Connect(c) })
	}
}

// driven goes through the other stages, in the connection that suits each, on the
// same supply, or else, where that is no more than a voltage, on one that suits it. One that regulates is set to what it
// stands.
func (a *Answer) driven(try tries) {
	supplies := []driver.Supply{a.Supply}
	if _, misfit := a.Check(FitsLeads); a.Supply.Name == "" || misfit { // a bare voltage can be set to what suits
		other := driver.Supply{}
		if a.Supply.Name == "" {
			other.Limit, other.Ohms = a.Supply.Limit, a.Supply.Ohms
		}
		supplies = append(supplies, other)
	}
	for _, s := range driver.Stages {
		if s.Name == a.Stage.Name || s.Instant() || s.Limits.Output == 0 {
			continue
		}
		for _, supply := range supplies {
			q, err := Ask(a.Motor, s, supply)
			if err != nil {
				continue
			}
			change := Change{Kind: OtherStage, Name: s.Name}
			if s.Regulates() {
				q.Current = min(q.Current, nearly*s.Limits.Output)
				change.Value = q.Current
			}
			if try(change, func(was *Question) {
				was.Stage, was.Connection, was.Current, was.Supply = s, q.Connection, q.Current, q.Supply
			}) {
				break
			}
		}
	}
}
