package report

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/motor"
)

// ShaftSeen is what explains what a person saw at the shaft.
type ShaftSeen struct {
	Seen         []string       `json:"seen"`
	Explanations []ShaftReason  `json:"explanations"`
	Decide       *ShaftDeciding `json:"decide"`
}

// mostReasons is how many explanations are put into words.
const mostReasons = 5

// ShaftReason is one explanation.
type ShaftReason struct {
	Text    string    `json:"text"`
	Odds    float64   `json:"odds"`
	Expects []float64 `json:"expects_deg"`
}

// ShaftDeciding is the measurement that parts the two likeliest.
type ShaftDeciding struct {
	Ask  string     `json:"ask"`
	Ends [2]float64 `json:"ends_deg"`
	Past [2]float64 `json:"past_mark_deg"`
}

// Observe adds what explains what was seen; nothing when nothing was.
func (s *Shaft) Observe(b motor.Belief, seen []motor.Observed) {
	if len(seen) == 0 {
		return
	}
	o := &ShaftSeen{}
	told := motor.Explain(b, seen)
	for _, one := range seen {
		o.Seen = append(o.Seen, one.String())
	}
	for _, e := range told {
		reason := ShaftReason{Text: e.Text, Odds: math.Round(e.Odds*1e4) / 1e4}
		for _, deg := range e.Expects {
			reason.Expects = append(reason.Expects, degrees(deg))
		}
		o.Explanations = append(o.Explanations, reason)
	}
	if d, ok := b.Decide(told, seen); ok {
		o.Decide = &ShaftDeciding{Ask: d.Ask, Ends: [2]float64{degrees(d.Ends[0]), degrees(d.Ends[1])}, Past: [2]float64{degrees(d.Past[0]), degrees(d.Past[1])}}
	}
	s.Observed = o
}

func (o *ShaftSeen) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Seen: %s. What explains it:\n", strings.Join(o.Seen, "; "))
	for i, e := range o.Explanations {
		if i == mostReasons {
			fmt.Fprintf(&b, "  and %d less likely ones; another observation, by more turns, parts them\n", len(o.Explanations)-i)
			break
		}
		expects := make([]string, len(e.Expects))
		for k, deg := range e.Expects {
			expects[k] = Angle(deg, 1)
		}
		fmt.Fprintf(&b, "  %d  %-12s %s (expects %s)\n", i+1, percent(e.Odds), Sentence(e.Text), strings.Join(expects, ", "))
	}
	if d := o.Decide; d != nil {
		fmt.Fprintf(&b, "To decide: mark the shaft and ask for %s, always the same way round. %s means 1, %s means 2.\n", d.Ask, past(d.Ends[0], d.Past[0]), past(d.Ends[1], d.Past[1]))
	} else if len(o.Explanations) > 1 {
		b.WriteString("No number of turns up to 100 parts the two likeliest by eye.\n")
	}
	return b.String()
}

// past says where the mark ends: "10 turns and 17.9° too far".
func past(ends, deg float64) string {
	turns := math.Round((ends - deg) / 360)
	words := Fixed(turns, 0) + " turns"
	switch turns {
	case 0:
		return Angle(ends, 1)
	case 1:
		words = "one turn"
	}
	switch {
	case math.Abs(deg) < 0.05:
		return words + ", back on the mark,"
	case deg > 0:
		return words + " and " + Angle(deg, 1) + " too far"
	}
	return words + " less " + Angle(-deg, 1)
}
