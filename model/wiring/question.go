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
	// it snaps home, then add the second with the first still on.
	Kick Test = "kick"
	// Run: energise four leads in turn, both ways, slowly and without load.
	Run Test = "run"
	// Pulse: touch a cell for an instant to the half-coil of the first lead and
	// watch a meter across that of the second.
	Pulse Test = "pulse"
	// Stiff: energise both and turn the shaft by hand.
	Stiff Test = "stiff"
	// Short: join two leads, nothing energised, and turn the shaft by hand.
	Short Test = "short"
	// Lamp: which output's lamp lights in a row of wave drive, no motor plugged in.
	Lamp Test = "lamp"
)

// Tests lists them.
var Tests = []Test{Kick, Run, Pulse, Stiff, Short, Lamp}

// Unclear is the answer of one who could not tell.
const Unclear = "unsure"

// outcomes are the words that answer each test, besides Unclear.
var outcomesOf = map[Test][]string{
	Kick: {"cw", "ccw", "slack"}, Run: {"cw", "ccw", "buzz", "still"}, Pulse: {"up", "down", "none"},
	Stiff: {"yes", "no"}, Short: {"stiff", "free"},
}

// Words lists the words that answer a test.
func Words(t Test) []string { return append(slices.Clone(outcomesOf[t]), Unclear) }

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
			err = fmt.Errorf("more than %d answers", mostReplies)
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
		what := fmt.Sprintf("there is no test %q", files.Shown(words[0]))
		if near := files.Nearest(words[0], names); near != "" {
			return r, fmt.Errorf("%s; did you mean %q?", what, near)
		}
		return r, fmt.Errorf("%s; %s is wanted", what, strings.Join(names, ", "))
	}
	if r.Test == Lamp {
		return t.parseLamp(words)
	}
	n := leadsOf[r.Test]
	can := append(slices.Clone(outcomesOf[r.Test]), Unclear)
	wanted := fmt.Sprintf("%s takes %d leads and %s", r.Test, n, strings.Join(can, ", "))
	if len(words) != n+2 {
		return r, fmt.Errorf("%d words stand here; %s", len(words), wanted)
	}
	for _, w := range words[1 : n+1] {
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
			return r, fmt.Errorf("%q answers no %s; did you mean %q?", files.Shown(words[n+1]), r.Test, near)
		}
		return r, fmt.Errorf("%q answers no %s; %s", files.Shown(words[n+1]), r.Test, wanted)
	}
	return r, nil
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
