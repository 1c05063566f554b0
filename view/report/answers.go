package report

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/wiring"
)

// Answers is the answer of "leads --answers": which lead goes where, from what
// the shaft did.
type Answers struct {
	Coilwalk       int              `json:"coilwalk"`
	Kind           string           `json:"kind"`
	Geared         bool             `json:"geared"`
	Answers        []string         `json:"answers"`
	Mappings       []AnswersMapping `json:"mappings"`
	Settled        bool             `json:"settled"`
	Outputs        []string         `json:"outputs"`
	Swaps          [][2]string      `json:"swaps"`
	Columns        []int            `json:"columns"`
	Prove          *string          `json:"prove"`
	ProveRows      *int             `json:"prove_rows"`
	Meant          string           `json:"meant"` // by a lead in a test
	Next           *AnswersNext     `json:"next"`
	Contradictions []AnswersAgainst `json:"contradictions"`
	Notes          []string         `json:"notes"`
	lines          []string
}

// AnswersMapping is one way in which the leads may sit on the coil ends.
type AnswersMapping struct {
	Order []string    `json:"order"`
	Joins [][2]string `json:"joins"`
	Odds  float64     `json:"odds"`
}

// AnswersNext is the test to do next.
type AnswersNext struct {
	Test  string   `json:"test"`
	Leads []string `json:"leads"`
	Words []string `json:"words"`
	Rows  *int     `json:"rows"`
	Why   string   `json:"why"`
	How   string   `json:"how"`
}

// AnswersAgainst is an answer that does not fit the others.
type AnswersAgainst struct {
	Answer string `json:"answer"`
	Line   int    `json:"line"`
	Text   string `json:"text"`
}

// NewAnswers puts a sitting into its object. Now are the leads on outputs 1 to 4
// as they are wired, empty where that is not known.
func NewAnswers(s *wiring.Sitting, now [4]motor.Lead) Answers {
	t := s.Topology()
	out := Answers{Coilwalk: Version, Kind: t.Kind(), Geared: t.Geared, Answers: []string{}, Mappings: []AnswersMapping{},
		Settled: s.Settled(), Meant: s.Meant(now), Outputs: []string{}, Swaps: [][2]string{}, Columns: []int{}, Contradictions: []AnswersAgainst{},
		Notes: append([]string{}, s.Notes()...)}
	for _, r := range s.Replies() {
		out.Answers = append(out.Answers, r.String())
	}
	for _, m := range s.Mappings() {
		one := AnswersMapping{Order: names(m.Order[:]), Joins: [][2]string{}, Odds: math.Round(m.Odds*1e4) / 1e4}
		for _, j := range m.Joins {
			one.Joins = append(one.Joins, [2]string{string(j[0]), string(j[1])})
		}
		out.Mappings = append(out.Mappings, one)
	}
	if out.Settled {
		settled := s.Settle(now)
		out.Outputs, out.Prove, out.lines = names(settled.Outputs[:]), maybe(settled.Prove), settled.Text()
		if settled.Rows > 0 {
			out.ProveRows = &settled.Rows
		}
		for _, pair := range settled.Swaps {
			out.Swaps = append(out.Swaps, [2]string{string(pair[0]), string(pair[1])})
		}
		if settled.Columns[0] > 0 {
			out.Columns = settled.Columns[:]
		}
	}
	if ask, ok := s.Next(); ok {
		out.Next = &AnswersNext{Test: string(ask.Test), Leads: names(ask.Leads), Words: t.Words(ask.Test), Why: ask.Why, How: ask.How}
		if rows, counted := t.RunRows(); ask.Test == wiring.Run && counted {
			out.Next.Rows = &rows
		}
	}
	for _, c := range s.Contradictions() {
		out.Contradictions = append(out.Contradictions, AnswersAgainst{c.Reply.String(), c.Reply.Line, c.Text})
	}
	return out
}

// Lines says what to do with a mapping that was found, a line a thing.
func (a Answers) Lines() []string { return a.lines }

// Sound says whether no answer contradicts the others.
func (a Answers) Sound() bool { return len(a.Contradictions) == 0 }

// shownMappings is how many mappings are put into words.
const shownMappings = 4

// Text writes the answer in plain words.
func (a Answers) Text() string {
	var b strings.Builder
	article, plural := "A", "s"
	if a.Kind == wiring.EightLead {
		article = "An"
	}
	if len(a.Answers) == 1 {
		plural = ""
	}
	fmt.Fprintf(&b, "%s %s motor, %d answer%s. ", article, a.Kind, len(a.Answers), plural)
	if a.Settled {
		fmt.Fprintf(&b, "Found (%s): A+ B+ A- B- are %s.\n", percent(a.Mappings[0].Odds), strings.Join(a.Mappings[0].Order, " "))
		for _, line := range a.lines {
			b.WriteString("  " + line + "\n")
		}
		b.WriteString("  a motor file of it: coilwalk motors new mine.toml, with --readings and --answers\n")
	} else {
		b.WriteString("A+ B+ A- B- may be:\n")
		for i, m := range a.Mappings {
			if i == shownMappings {
				fmt.Fprintf(&b, "  and %d more\n", len(a.Mappings)-i)
				break
			}
			fmt.Fprintf(&b, "  %-7s %s\n", percent(m.Odds), strings.Join(m.Order, " "))
		}
	}
	for _, c := range a.Contradictions {
		where := ""
		if c.Line > 0 {
			where = fmt.Sprintf("line %d, ", c.Line)
		}
		fmt.Fprintf(&b, "  does not fit: %s%s: %s.\n", where, c.Answer, c.Text)
	}
	for _, note := range a.Notes {
		fmt.Fprintf(&b, "  %s.\n", Sentence(note))
	}
	if n := a.Next; n != nil {
		fmt.Fprintf(&b, "Next: %s %s (%s).\n  %s.\n  Here %s.\n", n.Test, strings.Join(n.Leads, " "), n.Why, Sentence(n.How), a.Meant)
	}
	b.WriteString("Supply off while you move a lead. Energise at the rated voltage at most; where none is known, from 3 V up until the shaft holds. Energised coils get hot: a few seconds are enough.\n")
	return b.String()
}
