package report

import (
	"fmt"
	"strings"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// RatesMode is what a step mode starts and follows, beside another; in full steps a
// second, so that they can be compared.
type RatesMode struct {
	Mode      string       `json:"mode"`
	StartStop float64      `json:"start_stop_full"`
	Windows   [][2]float64 `json:"windows_full"`
	Holes     [][2]float64 `json:"holes_full"`
	PullOut   float64      `json:"pull_out_full"`
}

// Compare adds the rates of a step mode.
func (r *Rates) Compare(mode sequence.Mode, found rotor.Rates) {
	full := func(all []rotor.Band) []rotor.Band {
		scaled := []rotor.Band{}
		for _, b := range all {
			scaled = append(scaled, rotor.Band{From: b.From / float64(mode.PerStep), To: b.To / float64(mode.PerStep)})
		}
		return scaled
	}
	found = sameEdge(found)
	found = rotor.Rates{StartStop: found.StartStop / float64(mode.PerStep), Windows: full(found.Windows), Holes: full(found.Holes), PullOut: found.PullOut / float64(mode.PerStep)}
	told := starting(found)
	r.Compared = append(r.Compared, RatesMode{Mode: mode.Name, StartStop: told.of(found.StartStop),
		Windows: told.bands(found.Windows), Holes: told.bands(found.Holes), PullOut: perSecond(found.PullOut)})
}

// Words puts a mode's rates into a line.
func (m RatesMode) Words() string {
	words := []string{"starts at none swept from below"}
	if m.StartStop > 0 {
		words[0] = "starts to " + Told(m.StartStop)
	}
	for i, h := range m.Holes {
		words = append(words, fmt.Sprintf("not %s to %s, again to %s", Told(h[0]), Told(h[1]), Told(m.Windows[i][1])))
	}
	if m.StartStop == 0 {
		for _, w := range m.Windows {
			words = append(words, fmt.Sprintf("but from %s to %s", Told(w[0]), Told(w[1])))
		}
	}
	if m.PullOut == 0 {
		return strings.Join(append(words, "follows none"), "; ")
	}
	return strings.Join(append(words, "follows to "+Told(m.PullOut)), "; ")
}
