package wiring

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
)

// Test is a kind of test that a person can do with leads and a shaft.
type Test string

const (
	// Kick: energise the first lead alone, turn the shaft a little by hand so that
	// it snaps home, then add the second with the first still on. Two halves of one
	// phase can pull together: then the shaft does not turn and is held, not slack.
	Kick Test = "kick"
	// Run: energise four leads in turn, both ways, slowly and without load.
	Run Test = "run"
	// Pulse: touch a cell for an instant to the half-coil of the first lead and
	// watch a meter across that of the second.
	Pulse Test = "pulse"
	// Stiff: energise both and turn the shaft by hand.
	Stiff Test = "stiff"
	// Short: join two leads, nothing energised and the taps apart, and turn the
	// shaft by hand. It tells no mapping from another, but checks the coils.
	Short Test = "short"
	// Lamp: which output's lamp lights in a row of wave drive, no motor plugged in.
	Lamp Test = "lamp"
)

// Tests lists them.
var Tests = []Test{Kick, Run, Pulse, Stiff, Short, Lamp}

// Unclear is the answer of one who could not tell.
const Unclear = "unsure"

// outcomesOf are the words that answer each test, besides Unclear. Held is for
// 8 leads alone.
var outcomesOf = map[Test][]string{
	Kick: {"cw", "ccw", "slack", "held"}, Run: {"cw", "ccw", "buzz", "still"}, Pulse: {"up", "down", "none"},
	Stiff: {"yes", "no"}, Short: {"stiff", "free"},
}

func (t *Topology) outcomes(test Test) []string {
	words := outcomesOf[test]
	if test == Kick && !t.halves {
		return words[:3]
	}
	return words
}

// alike gives two words of a test that are one answer, by their places. On a
// geared shaft a buzz can not be told from standing still. With a common or taps
// a pulse shows the same sense for every mapping: how cell and meter are held, and
// whether the making or the breaking is seen, decides between up and down.
func (t *Topology) alike(test Test) (one, two int, ok bool) {
	switch {
	case test == Run && t.Geared:
		return 2, 3, true
	case test == Pulse && !t.untapped():
		return 0, 1, true
	}
	return 0, 0, false
}

// together gives the words of a test with their odds, two that are one answer as
// one word.
func (t *Topology) together(test Test, odds []float64) (words []string, of []float64) {
	one, two, ok := t.alike(test)
	for i, word := range t.outcomes(test) {
		switch {
		case ok && i == one:
			words, of = append(words, word+" or "+t.outcomes(test)[two]), append(of, odds[one]+odds[two])
		case !ok || i != two:
			words, of = append(words, word), append(of, odds[i])
		}
	}
	return words, of
}

// Words lists the words that answer a test.
func (t *Topology) Words(test Test) []string {
	return append(slices.Clone(t.outcomes(test)), Unclear)
}

// leadsOf is how many leads each test names.
var leadsOf = map[Test]int{Kick: 2, Run: 4, Pulse: 2, Stiff: 2, Short: 2}

// Question is a test on leads.
type Question struct {
	Test  Test
	Leads []motor.Lead
}

func (q Question) String() string {
	words := []string{string(q.Test)}
	for _, l := range q.Leads {
		words = append(words, string(l))
	}
	return strings.Join(words, " ")
}

// Reply is a question with its answer. A lamp has a row and an output instead of
// leads, both from 1.
type Reply struct {
	Question
	Word        string
	Row, Output int
	Line        int // in the file, for messages
}

func (r Reply) String() string {
	if r.Test == Lamp {
		return fmt.Sprintf("lamp %d %d", r.Row, r.Output)
	}
	return r.Question.String() + " " + r.Word
}

const mostReplies = 200

// ReadReplies reads lines of "kick BN WH cw", an answer a line, words parted by
// blanks or commas; # begins a comment. The leads must be those that can be
// energised.
func ReadReplies(file string, text []byte, of *Topology) (all []Reply, err error) {
	for i, line := range strings.Split(strings.TrimPrefix(string(text), "\ufeff"), "\n") {
		line, _, _ = strings.Cut(line, "#")
		if strings.TrimSpace(line) == "" {
			continue
		}
		r, err := of.ParseReply(line)
		if err == nil && len(all) == mostReplies {
			err = fmt.Errorf("this is answer %d; at most %d are taken", mostReplies+1, mostReplies)
		}
		if err != nil {
			return nil, &files.Complaint{File: file, Line: i + 1, What: err.Error()}
		}
		r.Line = i + 1
		all = append(all, r)
	}
	return all, nil
}

// ParseReply reads one answer.
func (t *Topology) ParseReply(text string) (r Reply, err error) {
	words := strings.FieldsFunc(text, func(c rune) bool { return c == ' ' || c == ',' || c == '\t' || c == '\r' })
	if len(words) == 0 {
		return r, fmt.Errorf("no answer stands here; as kick %s %s cw", t.Leads[0], t.Leads[1])
	}
	r.Test = Test(strings.ToLower(words[0]))
	if !slices.Contains(Tests, r.Test) {
		names := make([]string, len(Tests))
		for i, k := range Tests {
			names[i] = string(k)
		}
		what := fmt.Sprintf("there is no test %s", files.Quoted(words[0]))
		if near := files.Nearest(words[0], names); near != "" {
			return r, fmt.Errorf("%s; did you mean %q?", what, near)
		}
		return r, fmt.Errorf("%s; %s is wanted", what, strings.Join(names, ", "))
	}
	if r.Test == Lamp {
		return t.parseLamp(words)
	}
	n := leadsOf[r.Test]
	can := t.Words(r.Test)
	wanted := fmt.Sprintf("%s takes %d leads and %s", r.Test, n, strings.Join(can, ", "))
	if len(words) != n+2 {
		return r, fmt.Errorf("%d words stand here; %s", len(words), wanted)
	}
	for _, w := range words[1 : n+1] {
		if named, err := motor.ParseLead(w); err == nil && named == t.Common {
			return r, fmt.Errorf("%s is the common, which stays at the supply; a coil end is wanted", named)
		}
		lead, err := motor.Find(t.Leads, w)
		if err != nil {
			return r, err
		}
		if slices.Contains(r.Leads, lead) {
			return r, fmt.Errorf("%s stands twice; %s", lead, wanted)
		}
		r.Leads = append(r.Leads, lead)
	}
	r.Word = strings.ToLower(words[n+1])
	if !slices.Contains(can, r.Word) {
		if near := files.Nearest(r.Word, can); near != "" {
			return r, fmt.Errorf("%s answers no %s; did you mean %q?", files.Quoted(words[n+1]), r.Test, near)
		}
		return r, fmt.Errorf("%s answers no %s; %s", files.Quoted(words[n+1]), r.Test, wanted)
	}
	return r, t.allows(r.Question)
}

// allows says why a test can not have been meant, or would do harm.
func (t *Topology) allows(q Question) error {
	if q.Test == Short && t.Common != "" {
		return fmt.Errorf("short tells nothing on a 5-lead motor: through the common %s every pair brakes, whatever they are; take the line out, run and pulse tell, and kick where a tick can be seen", t.Common)
	}
	if !t.untapped() || len(q.Leads) != 2 || q.Test == Short {
		return nil
	}
	a, b := slices.Index(t.Leads, q.Leads[0]), slices.Index(t.Leads, q.Leads[1])
	if t.other[a] != b {
		return nil
	}
	what, why := "coil", "both energised would short the supply"
	if t.halves {
		what = "half"
	}
	if q.Test == Pulse {
		why = "the meter would only see the cell"
	}
	elsewhere := slices.IndexFunc(t.Leads, func(l motor.Lead) bool { return !slices.Contains(q.Leads, l) })
	return fmt.Errorf("%s and %s are the two ends of one %s: %s; a lead of another %s is wanted, as %s %s %s", q.Leads[0], q.Leads[1], what, why, what, q.Test, q.Leads[0], t.Leads[elsewhere])
}

func (t *Topology) parseLamp(words []string) (r Reply, err error) {
	r.Test = Lamp
	wanted := fmt.Errorf("a row of wave drive and the output whose lamp lights are wanted, each from 1 to 4, as lamp 1 3")
	if len(words) != 3 {
		return r, wanted
	}
	for i, to := range []*int{&r.Row, &r.Output} {
		if *to, err = strconv.Atoi(words[i+1]); err != nil || *to < 1 || *to > 4 {
			return r, wanted
		}
	}
	return r, nil
}
