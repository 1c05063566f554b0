package report

import (
	"fmt"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// PowerQuestion says what was asked, in a line.
func PowerQuestion(a *power.Answer) string {
	words := []string{a.Motor.Title, a.Stage.Title, a.Supply.Title}
	if a.Supply.Name != "" || !strings.Contains(a.Supply.Title, " V") {
		words[2] += ", " + volts(a.Supply.Volts)
	}
	does := fmt.Sprintf("%s, held at rest", a.Mode.Title)
	if a.Rate > 0 {
		does = fmt.Sprintf("%s, turning at %s", a.Mode.Title, rows(a.Rate))
	}
	if a.Duty < 1 {
		does += fmt.Sprintf(" for %s of the time", whole(a.Duty))
	}
	if a.For > 0 {
		does += ", " + lasting(a.For) + " long"
	} else {
		does += ", for good"
	}
	return strings.Join(append(words, does, celsius(a.Ambient)+" around it"), "; ")
}

var verdictWords = map[power.Verdict]string{power.Fine: "Fine", power.Marginal: "Marginal", power.Not: "Not so"}

// PowerDecides says the verdict and the one figure that decides it.
func PowerDecides(a *power.Answer) string {
	if a.Verdict == power.Fine {
		words := fmt.Sprintf("Fine: %s in a coil, %s from the supply, and no part gets too hot", amperes(a.Driver.OutputAmpere), amperes(a.Cold.Ampere))
		if within, burns := burnsWithin(a.After); burns { // the motor stands it, a hand does not
			words += fmt.Sprintf(" for itself; its case, at %s, burns skin within %s", celsius(a.After), within)
		}
		return words + "."
	}
	return verdictWords[a.Verdict] + ": " + CheckText(a, a.Checks[0]) + "."
}

// PowerVerdict says the verdict and all figures that decide it.
func PowerVerdict(a *power.Answer) string {
	if a.Verdict == power.Fine {
		return PowerDecides(a)
	}
	var parts []string
	for _, c := range a.Checks {
		if c.Verdict == a.Verdict {
			parts = append(parts, CheckText(a, c))
		}
	}
	return verdictWords[a.Verdict] + ": " + strings.Join(parts, "; ") + "."
}

// powerNotes explain what people ask about such a question.
func powerNotes(a *power.Answer) (words []string) {
	add := func(format string, values ...any) { words = append(words, fmt.Sprintf(format, values...)) }
	label := a.Ohms * a.Rated
	switch {
	case a.Stage.Regulates() && !a.Stage.Instant():
		add("The %s of its label are current times resistance, which hold %s at rest. A chopper wants several times that (%s are %s times), to bring the current up quickly; it takes only %s from them.",
			volts(label), amperes(a.Rated), volts(a.Supply.Volts), Fixed(a.Supply.Volts/label, 1), amperes(a.Cold.Ampere))
		add("A module that is set to full step usually holds 71 %% of its set current in each phase; then set √2 times.")
	case a.Driver.OutputAmpere > 1.1*a.Rated:
		add("%s bring %s through a coil of %s; its label's %s are what brings the rated %s. Nothing in this stage limits it.",
			volts(a.Supply.Volts), amperes(a.Driver.OutputAmpere), quantity.Ohms(a.Ohms).Rounded(3), volts(label), amperes(a.Rated))
	}
	switch {
	case a.NotRun != nil:
		add("Nothing is said of turning: %s.", a.NotRun)
	case a.Rate > 0 && a.Turns && !a.Followed:
		add("It does not follow that rate; the watts are those of stepping slowly.")
	case a.Rate > 0 && !a.Followed:
		add("So slowly the rows are taken at rest, in turn: what happens as a row begins hardly counts.")
	}
	words = append(words, misconnected(a)...)
	if a.Both != nil {
		add("A row with both halves of a phase on takes %s, twice that of one, and gives no field at all.", amperes(a.Both.Ampere))
	}
	if s := a.Supply; s.Note != "" {
		add("%s: %s.", Sentence(s.Title), s.Note)
	}
	if a.Motor.Common != "" && a.Connection.Drive == sequence.Unipolar {
		add("As bipolar it would hold √2 times as much, but its common joins both phases: %s.", bipolarOf(a.Motor))
	}
	return words
}

// misconnected says what comes of the two wrong connections that are made most: of
// the inner ends, and of the clamps' common.
func misconnected(a *power.Answer) []string {
	m := a.Motor
	inner := "the inner ends"
	switch {
	case m.Common != "":
		inner = "the common " + string(m.Common)
	case m.Taps[0] != "":
		inner = fmt.Sprintf("the taps %s and %s", m.Taps[0], m.Taps[1])
	}
	switch {
	case a.Connection.Drive == sequence.Unipolar:
		return []string{fmt.Sprintf("With %s left open no current flows at all. With the clamps' common on ground instead of the supply every coil conducts through them, all the time: it gets hot and does not turn.", inner)}
	case m.Taps[0] != "":
		return []string{fmt.Sprintf("With %s at the supply, as for a sink, half a coil would carry current past the bridge: leave them open, insulated.", inner)}
	}
	return nil
}

// bipolarOf says what makes a 5-lead motor bipolar.
func bipolarOf(m motor.Motor) string {
	for _, c := range m.Connections() {
		if c.Drive == sequence.Bipolar {
			return c.How
		}
	}
	return ""
}

// Text writes the answer in plain words.
func (p *Power) Text() string {
	a := p.answer
	var b strings.Builder
	line := func(name, format string, values ...any) {
		fmt.Fprintf(&b, "  %-14s %s\n", name, fmt.Sprintf(format, values...))
	}
	fmt.Fprintf(&b, "%s.\n%s\n", PowerQuestion(a), PowerVerdict(a))
	if len(p.Cures) > 0 {
		b.WriteString("What would do:\n")
		for _, c := range p.Cures {
			line(c.Verdict, "%s", c.Text)
		}
	} else if a.Verdict != power.Fine {
		b.WriteString("No single change of mode, supply, connection, stage or current would do better.\n")
	}
	if p.Coil == nil {
		return b.String()
	}
	b.WriteString("\n")
	p.figures(line)
	fmt.Fprintf(&b, "\nFrom the supply, cold:\n  %-14s %-10s %-10s %s\n", "mode", "mean", "peak", "at rest")
	for _, m := range a.Modes {
		rest := amperes(m.Rest.Ampere)
		if m.Least.Ampere < 0.99*m.Rest.Ampere {
			rest = amperes(m.Least.Ampere) + " to " + rest
		}
		line(m.Mode.Title, "%-10s %-10s %s", amperes(m.Average), amperes(m.Peak), rest)
	}
	if len(p.Supplies) > 0 {
		b.WriteString("\nOn other supplies:\n")
		for _, s := range p.Supplies {
			line(s.Verdict, "%s: %s", s.title, s.Text)
		}
	}
	if len(p.Connections) > 1 {
		b.WriteString("\nConnected otherwise:\n")
		for _, c := range p.Connections {
			line(c.Verdict, "%s", c.Line())
		}
	}
	if len(p.Estimates) > 0 {
		b.WriteString("\nEstimated, not given by the motor:\n")
		for _, e := range p.Estimates {
			fmt.Fprintf(&b, "  %-18s %s; %s\n", strings.ReplaceAll(e.Figure, "_", " "), e.shown, e.Why)
		}
	}
	b.WriteString("\n")
	for _, n := range append(p.Notes, p.Cautions...) {
		b.WriteString(n + "\n")
	}
	for _, s := range p.Sources {
		fmt.Fprintf(&b, "Source: %s.\n", s)
	}
	return b.String()
}

// figures writes what was worked out, a line a thing.
func (p *Power) figures(line func(name, format string, values ...any)) {
	a := p.answer
	line("connected", "%s; %s", a.Connection.Name, a.Connection.How)
	line("a coil", "%s", CoilLine(a))
	for k, part := range BalanceParts(a) {
		name := ""
		if k == 0 {
			name = "who gets it"
		}
		line(name, "%-9s %-10s %s", part.Name, watts(part.Watts), strings.Repeat("#", int(30*part.Share+0.5)))
	}
	line("winding", "%s", WindingLine(a))
	line("driver", "%s", DriverLine(a))
	line("torque", "%s", TorqueLine(a))
	if a.Rise.Constant > 0 {
		line("current rises", "%s", RiseLine(a))
	}
	if a.Stored > 0 {
		line("stored", "%s in a coil; it goes %s", joules(a.Stored), orNothing(a.Stage.ClampsTo))
	}
	if len(p.Off) > 0 {
		line("held or off", "%s", OffLine(a))
	}
	if r := p.Reference; r != nil {
		line("setting", "%s: reference %s, with sense resistors of %s", amperes(r.Ampere), volts(r.Volts), quantity.Ohms(r.Sense).Rounded(2))
	}
	if r := p.Resistor; r != nil {
		line("or a resistor", "%s in series with each coil bring its rated current; %s of heat", quantity.Ohms(r.Ohms).Rounded(2), watts(r.Watts))
	}
	line("inputs", "%s", p.Input)
}

func orNothing(words string) string {
	if words == "" {
		return "nowhere: an ideal stage"
	}
	return words
}

// joules writes an energy, which has the prefixes of a power.
func joules(v float64) string { return strings.TrimSuffix(watts(v), "W") + "J" }
