package report

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/wiring"
)

// Leads is the answer of the command "leads": what ohmmeter readings say of a
// motor.
type Leads struct {
	Coilwalk     int          `json:"coilwalk"`
	Leads        []string     `json:"leads"`
	Topologies   []LeadsKind  `json:"topologies"`
	Common       *string      `json:"common"`
	Commons      []string     `json:"commons"`
	Phases       []LeadsPhase `json:"phases"`
	CoilOhm      *float64     `json:"coil_ohm"`
	CoilOhmRange []float64    `json:"coil_ohm_range"`
	Faults       []LeadsFault `json:"faults"`
	Undetermined []string     `json:"undetermined"`
	Next         *LeadsNext   `json:"next"`
	answer       wiring.Answer
	readings     []wiring.Reading
}

// LeadsKind is a kind of motor and its odds.
type LeadsKind struct {
	Kind string  `json:"kind"`
	Odds float64 `json:"odds"`
}

// LeadsPhase is leads that belong together.
type LeadsPhase struct {
	Ends []string `json:"ends"`
	Tap  *string  `json:"tap"`
}

// LeadsFault is a fault or a contradiction.
type LeadsFault struct {
	Kind  string   `json:"kind"`
	Leads []string `json:"leads"`
	Text  string   `json:"text"`
}

// LeadsNext is the reading to take next.
type LeadsNext struct {
	Leads []string `json:"leads"`
	Why   string   `json:"why"`
}

// NewLeads puts an answer into its object.
func NewLeads(readings []wiring.Reading, a wiring.Answer) Leads {
	l := Leads{Coilwalk: Version, Leads: names(a.Leads), Topologies: []LeadsKind{}, Commons: names(a.Common), Phases: []LeadsPhase{},
		CoilOhmRange: []float64{}, Faults: []LeadsFault{}, Undetermined: append([]string{}, a.Undetermined...), answer: a, readings: readings}
	for _, k := range a.Kinds {
		l.Topologies = append(l.Topologies, LeadsKind{k.Kind, math.Round(k.Odds*1e4) / 1e4})
	}
	if len(l.Commons) > 0 {
		l.Common = &l.Commons[0]
	}
	for _, p := range a.Phases {
		phase := LeadsPhase{Ends: names(p.Ends)}
		if p.Tap != "" {
			tap := string(p.Tap)
			phase.Tap = &tap
		}
		l.Phases = append(l.Phases, phase)
	}
	if a.Ohm > 0 {
		ohm := math.Round(a.Ohm*1000) / 1000
		l.CoilOhm = &ohm
		l.CoilOhmRange = []float64{math.Round(a.Least*1000) / 1000, math.Round(a.Most*1000) / 1000}
	}
	for _, f := range a.Faults {
		l.Faults = append(l.Faults, LeadsFault{f.Kind, names(f.Leads), f.Text})
	}
	if a.Next != nil {
		l.Next = &LeadsNext{names([]motor.Lead{a.Next.A, a.Next.B}), a.Next.Why}
	}
	return l
}

// Sound says whether no fault and no contradiction was found.
func (l Leads) Sound() bool { return len(l.Faults) == 0 }

// Text writes the answer in plain words.
func (l Leads) Text() string {
	a := l.answer
	var b strings.Builder
	fmt.Fprintf(&b, "%s of %d leads: %s\n", counted(len(l.readings), "reading"), len(a.Leads), strings.Join(l.Leads, " "))
	best := a.Kinds[0]
	switch {
	case a.TooFew:
		b.WriteString("Too few readings yet to say what it is.\n")
	case best.Kind == wiring.Other && best.Odds >= 0.95:
		b.WriteString("No two-phase motor with 4, 5, 6 or 8 leads reads so.\n")
	case best.Odds >= 0.95:
		article := "a"
		if best.Kind == wiring.EightLead {
			article = "an"
		}
		fmt.Fprintf(&b, "It is %s %s motor (%s).\n", article, best.Kind, percent(best.Odds))
	default:
		words := make([]string, 0, len(a.Kinds))
		for _, k := range a.Kinds {
			if k.Odds >= 0.005 {
				words = append(words, fmt.Sprintf("%s %s", k.Kind, percent(k.Odds)))
			}
		}
		fmt.Fprintf(&b, "It may be: %s.\n", strings.Join(words, ", "))
	}
	if len(a.Common) > 0 {
		fmt.Fprintf(&b, "  common  %s\n", strings.Join(l.Commons, " and "))
	}
	for i, p := range l.Phases {
		tap := ""
		if p.Tap != nil {
			tap = ", tap " + *p.Tap
		}
		fmt.Fprintf(&b, "  coil %d  %s%s\n", i+1, strings.Join(p.Ends, " and "), tap)
	}
	if a.Ohm > 0 {
		of := "a half-coil"
		if best.Kind == wiring.FourLead || best.Kind == wiring.EightLead {
			of = "a coil"
		}
		fmt.Fprintf(&b, "  %s of %s, read from %s to %s\n", quantity.Ohms(a.Ohm).Rounded(3), of, quantity.Ohms(a.Least).Rounded(3), quantity.Ohms(a.Most).Rounded(3))
		if a.Meter > 0.05 {
			fmt.Fprintf(&b, "  some %s of the meter's own leads is taken off each reading\n", quantity.Ohms(a.Meter).Rounded(1))
		}
	}
	said := ""
	for _, f := range a.Faults {
		if f.Text != said { // two readings that were exchanged say the same
			fmt.Fprintf(&b, "  fault: %s: %s\n", f.Kind, f.Text)
		}
		said = f.Text
	}
	for _, u := range a.Undetermined {
		if !a.TooFew {
			u = "not told by ohms: " + u
		}
		fmt.Fprintf(&b, "  %s\n", u)
	}
	if a.TooFew && a.Next == nil {
		b.WriteString("Measure on.\n")
	} else if a.Next != nil {
		fmt.Fprintf(&b, "Measure next: %s and %s; %s.\n", a.Next.A, a.Next.B, a.Next.Why)
	} else {
		b.WriteString("No further reading between these leads would tell more.\n")
		if len(a.Faults) == 0 && a.Kinds[0].Kind != wiring.Other {
			b.WriteString("Then the shaft is asked which lead goes where: coilwalk leads READINGS --answers answers.txt, or a on the screen Leads.\n" +
				"coilwalk motors new mine.toml --readings READINGS makes a motor file of it.\n")
		}
	}
	b.WriteString("For readings that count: the motor unplugged from everything, its shaft at rest, no finger on a probe.\n")
	return b.String()
}

// counted writes a number and its noun: "1 reading", "2 readings".
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

func percent(odds float64) string {
	if odds > 0.9995 {
		return "over 99.9 %"
	}
	return Fixed(100*odds, 1) + " %"
}
