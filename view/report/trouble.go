package report

import (
	"fmt"
	"math/big"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/sequence"
	"coilwalk/view/trouble"
)

// Troubles is the answer of the command "trouble": those that the words may mean,
// the likeliest first; all of them without a word.
type Troubles struct {
	Coilwalk int           `json:"coilwalk"`
	Motor    *string       `json:"motor"` // that the model was run for; null where none was
	Troubles []TroubleTold `json:"troubles"`

	example bool // the motor is the built-in one, and nobody named it
}

// TroubleTold is one trouble.
type TroubleTold struct {
	Trouble string       `json:"trouble"`
	Says    string       `json:"text"`
	First   string       `json:"first"`
	Care    string       `json:"care"`
	Asks    []TroubleAsk `json:"questions"`
}

// TroubleAsk is a question, and where it is answered.
type TroubleAsk struct {
	Ask     string   `json:"question"`
	Screen  *string  `json:"screen"` // of the explorer; null where the command alone answers
	Command string   `json:"command"`
	Model   []string `json:"model"` // what the model of the motor says to it at once
}

// NewTroubles lists troubles, with commands for a motor file and its drive.
func NewTroubles(found []trouble.Trouble, file string, drive sequence.Drive) *Troubles {
	out := &Troubles{Coilwalk: Version, Troubles: []TroubleTold{}}
	for _, t := range found {
		told := TroubleTold{Trouble: t.Word, Says: t.Says, First: t.First, Care: t.Care, Asks: []TroubleAsk{}}
		for _, a := range t.Asks {
			ask := TroubleAsk{Ask: a.Text, Command: a.Types(file, drive), Model: []string{}}
			if a.Screen != "" {
				ask.Screen = maybe(a.Screen)
			}
			told.Asks = append(told.Asks, ask)
		}
		out.Troubles = append(out.Troubles, told)
	}
	return out
}

// Ask runs the model for the questions of the first trouble. The motor of an
// example is one that nobody named.
func (t *Troubles) Ask(first trouble.Trouble, m motor.Motor, example bool) {
	t.Motor, t.example = maybe(m.Name), example
	said := map[trouble.Engine]bool{}
	for i, a := range first.Asks {
		if said[a.Engine] {
			continue // it was told above
		}
		said[a.Engine] = true
		found, err := a.Ask(m)
		if err != nil {
			t.Troubles[0].Asks[i].Model = []string{Sentence(err.Error()) + "."}
			continue
		}
		t.Troubles[0].Asks[i].Model = FoundLines(m, found)
	}
}

// mostTold is how many explanations of a trouble are told; the command or the
// screen has all.
const mostTold = 3

// FoundLines puts what the model found into sentences.
func FoundLines(m motor.Motor, f trouble.Found) []string {
	lines := []string{}
	if f.Judged != nil {
		for i, d := range f.Judged.Ranked {
			if i == mostTold || i > 0 && d.Odds < toldOdds {
				break
			}
			words := strings.TrimSpace(percent(d.Odds)) + ": " + d.Text
			if d.Cure != "" {
				words += "; cure: " + d.Cure
			}
			lines = append(lines, Sentence(words)+".")
		}
		if n := f.Judged.Next; n != nil && !n.ByHand {
			lines = append(lines, fmt.Sprintf("Try next, slowly: %s, commanded %s.", n.Trial.Mode.Title, n.Trial.Way))
		} else if n != nil && n.Why != f.Judged.Ranked[0].Cure {
			lines = append(lines, "To decide: "+n.Why+".")
		}
		lines = append(lines, "Not judged here: "+TableNotJudged+".")
	}
	for _, r := range f.Rates {
		one := &Rates{}
		one.Compare(r.Mode, r.Rates)
		lines = append(lines, Sentence(r.Mode.Title+", in full steps a second: "+one.Compared[0].Words())+".")
	}
	if f.Stage.Name == "current" {
		lines = append(lines, "That is on a current source; a real driver falls far below: name your --stage and --supply.")
	}
	if f.Power != nil {
		lines = append(lines, PowerDecides(f.Power), fmt.Sprintf("Reckoned with %s at %s.", f.Power.Stage.Title, volts(f.Power.Supply.Volts)))
	}
	if s := f.Shaft; s != nil {
		lines = append(lines, fmt.Sprintf("In half step a turn of the shaft is %s rows, a row %s.", number(s.Rows), Angle(rounded(new(big.Rat).Quo(big.NewRat(360, 1), s.Rows)), 4)))
		if s.Rounded != nil {
			lines = append(lines, fmt.Sprintf("Firmware that believes %s:1 comes out %s degrees wrong at each turn.", s.Rounded.Num(), abs(s.Drift.DegPerTurn, 2)))
		}
		if w := Against(m.Train); w != "" {
			lines = append(lines, w)
		} else if m.Train.Geared() {
			lines = append(lines, "An even number of meshes: the shaft turns with the rotor.")
		}
	}
	return lines
}

// Text lists the troubles; where there are few, the first is told in full.
func (t *Troubles) Text() string {
	var b strings.Builder
	if t.Motor == nil {
		for _, one := range t.Troubles {
			fmt.Fprintf(&b, "%-12s %s\n", one.Trouble, one.Says)
		}
		b.WriteString("\ncoilwalk trouble WORDS leads on; say it in your own words, as: it hums.\n")
		return b.String()
	}
	first := t.Troubles[0]
	writeWrapped(&b, ended(Sentence(first.Says)), "")
	writeWrapped(&b, "First: "+first.First, "  ")
	writeWrapped(&b, "Care: "+first.Care, "  ")
	if t.example {
		writeWrapped(&b, "What a model says below is of the built-in "+*t.Motor+", as an example: name yours with --motor.", "  ")
	}
	for i, a := range first.Asks {
		b.WriteString("\n")
		writeWrapped(&b, fmt.Sprintf("%d. %s", i+1, a.Ask), "   ")
		fmt.Fprintf(&b, "     %s\n", a.Command)
		if len(a.Model) > 0 {
			fmt.Fprintf(&b, "   The model of %s says:\n", *t.Motor)
			for _, line := range a.Model {
				writeWrapped(&b, "     "+line, "       ")
			}
		}
	}
	if len(t.Troubles) > 1 {
		b.WriteString("\nOr did you mean:\n")
		for _, one := range t.Troubles[1:] {
			fmt.Fprintf(&b, "  %-12s %s\n", one.Trouble, one.Says)
		}
	}
	return b.String()
}

// ended closes a sentence that is not closed yet.
func ended(text string) string {
	if strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}
