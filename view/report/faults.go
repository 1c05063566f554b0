package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/wiring"
)

// Faults is the answer of the command "faults": what explains what a motor does.
type Faults struct {
	Coilwalk  int          `json:"coilwalk"`
	Motor     string       `json:"motor"`
	Symptoms  []FaultSeen  `json:"symptoms"`
	Faults    []FaultOdds  `json:"faults"`
	Next      *FaultsTrial `json:"next"`
	NotJudged []string     `json:"not_judged"`
}

// FaultSeen is one thing that was seen.
type FaultSeen struct {
	Mode      string   `json:"mode"`
	Direction string   `json:"direction"`
	Seen      string   `json:"seen"`
	Places    *int     `json:"places"`
	Rate      *float64 `json:"rate"` // null for slowly
}

// FaultOdds is one thing that may be wrong, or several that no trial parts.
type FaultOdds struct {
	Kind *string `json:"kind"` // null where no fault of wiring or driver is meant
	Odds float64 `json:"odds"`
	Text string  `json:"text"`
	Cure string  `json:"cure"`
}

// FaultsTrial is what to try next.
type FaultsTrial struct {
	Mode      *string `json:"mode"` // null for a test by hand
	Direction *string `json:"direction"`
	Why       string  `json:"why"`
}

// TableNotJudged is what looks like a fault of wiring and is none: symptoms can not
// tell it from one, and only its text shows it.
const TableNotJudged = "a wrong row in your own step table (coilwalk check FILE finds it)"

// NewFaults puts what was judged into its object.
func NewFaults(m motor.Motor, symptoms []wiring.Symptom, j wiring.Judged) Faults {
	out := Faults{Coilwalk: Version, Motor: m.Name, Symptoms: []FaultSeen{}, Faults: []FaultOdds{}, NotJudged: append(slices.Clone(j.NotJudged), TableNotJudged)}
	for _, s := range symptoms {
		seen := FaultSeen{Mode: s.Mode.Name, Direction: s.Way.String(), Seen: string(s.Seen)}
		if s.Places > 0 {
			seen.Places = &s.Places
		}
		if s.Rate > 0 {
			seen.Rate = &s.Rate
		}
		out.Symptoms = append(out.Symptoms, seen)
	}
	for _, d := range j.Ranked {
		f := FaultOdds{Odds: math.Round(d.Odds*1e4) / 1e4, Text: d.Text, Cure: d.Cure}
		if len(d.Faults) > 0 {
			f.Kind = maybe(string(d.Faults[0].Kind))
		}
		out.Faults = append(out.Faults, f)
	}
	if n := j.Next; n != nil {
		out.Next = &FaultsTrial{Why: n.Why}
		if !n.ByHand {
			out.Next.Mode, out.Next.Direction = maybe(n.Trial.Mode.Name), maybe(n.Trial.Way.String())
		}
	}
	return out
}

// toldOdds is the least odds of what is put into words.
const toldOdds = 0.02

// Text writes the answer in plain words.
func (f Faults) Text() string {
	var b strings.Builder
	if len(f.Symptoms) == 0 {
		b.WriteString("Nothing was seen yet. Try slowly, at some 20 rows a second, without load, and say what it does.\n")
	} else {
		b.WriteString("What explains it:\n")
	}
	if len(f.Symptoms) > 0 {
		for i, d := range f.Faults {
			if d.Odds < toldOdds && i > 0 {
				break
			}
			fmt.Fprintf(&b, "  %-7s %s\n", percent(d.Odds), Sentence(d.Text))
			if d.Cure != "" {
				fmt.Fprintf(&b, "          cure: %s\n", d.Cure)
			}
		}
	}
	if n := f.Next; n != nil {
		if n.Mode != nil {
			fmt.Fprintf(&b, "Try next: %s, commanded %s: %s.\n", modeTitle(*n.Mode), *n.Direction, n.Why)
		} else {
			fmt.Fprintf(&b, "To decide: %s.\n", n.Why)
		}
	}
	fmt.Fprintf(&b, "Not judged here: %s.\n", strings.Join(f.NotJudged, "; "))
	b.WriteString("Supply off before you touch a lead; a held motor gets hot.\n")
	return b.String()
}

// FaultsLine lists the faults that were put in on the bench; "" for none.
func FaultsLine(m motor.Motor, faults []wiring.Fault) string {
	parts := make([]string, len(faults))
	for i, f := range faults {
		parts[i] = f.Text(m)
	}
	return strings.Join(parts, "; ")
}
