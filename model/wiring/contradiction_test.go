package wiring

import (
	"strings"
	"testing"

	"coilwalk/model/motor"
)

// asked reads answers to a motor of so many leads: p q r s, with a common or taps
// where it has them; 4 leads with coils p-r and q-s, 8 with the halves a1-a2 to d1-d2.
func asked(t *testing.T, leads int, geared bool, text string) *Sitting {
	t.Helper()
	four := []motor.Lead{"p", "q", "r", "s"}
	var of *Topology
	var err error
	switch leads {
	case 4:
		of, err = OfCoils([][2]motor.Lead{{"p", "r"}, {"q", "s"}})
	case 5:
		of, err = OfFive(four, "z")
	case 6:
		of, err = OfSix([2]motor.Lead{"p", "r"}, [2]motor.Lead{"q", "s"}, [2]motor.Lead{"y", "z"})
	case 8:
		of, err = OfCoils([][2]motor.Lead{{"a1", "a2"}, {"b1", "b2"}, {"c1", "c2"}, {"d1", "d2"}})
	}
	if err != nil {
		t.Fatal(err)
	}
	of.Geared = geared
	replies, err := ReadReplies("x", []byte(text), of)
	if err != nil {
		t.Fatal(err)
	}
	s := Sit(of)
	s.Answer(replies)
	return s
}

// What a sound motor can not do is named, each answer by its line, and nothing else.
func TestWhatDoesNotFitIsNamed(t *testing.T) {
	for _, c := range []struct {
		leads  int
		geared bool
		text   string
		want   map[int]string // line → part of what is said
	}{
		{5, false, "kick p q cw\nkick p r slack\nkick p s ccw\nstiff p r yes", map[int]string{4: "the other answers make it no"}},
		{5, false, "kick p q cw\nkick p r slack\nkick p s ccw\nstiff p r no\nstiff p q yes", nil},
		{5, false, "kick p q cw\nkick p q ccw", map[int]string{1: "does not fit together", 2: "does not fit together"}},
		{5, false, "kick p q cw\nkick p q unsure\nkick p r slack", nil},
		{5, false, "stiff p q no\nstiff p r no", map[int]string{1: "does not fit together", 2: "does not fit together"}},
		{4, false, "short p r free\nkick p q cw", map[int]string{1: "as the coils are known, it must be stiff"}},
		{4, false, "short p q stiff", map[int]string{1: "as the coils are known, it must be free"}},
		{4, false, "short p r stiff\nshort p q free", nil},
		{6, false, "short q s free", map[int]string{1: "must be stiff"}},
		{6, false, "kick p r cw\nkick p q cw", map[int]string{1: "must be slack"}},
		{6, false, "kick p q slack", map[int]string{1: "must be cw or ccw"}},
		{6, false, "pulse p q up\npulse p r down", map[int]string{1: "must be none"}},
		{6, false, "pulse p r none", map[int]string{1: "must be up or down"}},
		{8, false, "kick a1 b1 held\nstiff a1 b1 yes\nshort a1 a2 stiff\nshort a1 c2 free", nil},
		{8, false, "kick a1 b1 held\nstiff a1 b2 no\npulse a1 b1 none", map[int]string{3: "the other answers make it up"}},
		{5, true, "run p q r s cw\nrun p q r s cw\nrun p s r q buzz", map[int]string{3: "the other answers make it ccw"}},
		{5, true, "run p q r s buzz\nrun p r q s cw\nrun p q r s still", nil},
		{5, true, "run p r q s cw\nrun p r q s cw\nrun p q r s cw\n", map[int]string{3: "make it buzz or still"}},
		{5, true, "kick p q cw\nkick p q ccw\nstiff p q no\nstiff p r no", nil}, // guesses
		{5, false, "lamp 1 3\nlamp 2 3\nlamp 1 4", map[int]string{1: "together with lamp 2 3", 2: "together with lamp 1 3", 3: "together with lamp 1 3"}},
		{5, false, "lamp 1 3\nkick p q cw\nlamp 1 3\nlamp 2 4", nil},
	} {
		found := map[int]bool{}
		for _, no := range asked(t, c.leads, c.geared, c.text).Contradictions() {
			found[no.Reply.Line] = true
			if part, named := c.want[no.Reply.Line]; !named || !strings.Contains(no.Text, part) {
				t.Errorf("%d leads, %q: %s: %s", c.leads, c.text, no.Reply, no.Text)
			}
		}
		if len(found) != len(c.want) {
			t.Errorf("%d leads, %q: lines %v, want %v", c.leads, c.text, found, c.want)
		}
	}
}

// Lamps that clash say nothing of the outputs; the one that nobody doubts does.
func TestLampsThatClashDoNotCount(t *testing.T) {
	s := asked(t, 5, false, "kick p q cw\nkick p r slack\nkick q r cw\nlamp 1 2\nlamp 1 3\nlamp 4 1")
	if out := s.Settle([4]motor.Lead{}).Outputs; out != [4]motor.Lead{"s", "q", "r", "p"} {
		t.Errorf("row 4 lights output 1, and of row 1 nothing is known: %v", out)
	}
}

// Behind gears a tick is guessed at: a person who answers kick and stiff at
// random must not be led to a mapping, and is told so. Where the rotor can be
// reached the same answers count.
func TestGearsHideATick(t *testing.T) {
	const text = "kick p q cw\nkick p r slack\nkick q r cw\nkick p s ccw\nstiff p r no\nstiff p q yes\n"
	s := asked(t, 5, true, strings.Repeat(text, 2))
	if best := s.Mappings()[0]; best.Odds > 0.5 || s.Settled() {
		t.Errorf("from twelve guesses %v", best)
	}
	for _, one := range strings.Split(strings.TrimSpace(text), "\n") {
		all := asked(t, 5, true, one).Mappings()
		if most, least := all[0].Odds, all[len(all)-1].Odds; most > 1.1*least {
			t.Errorf("%s: odds from %.3f to %.3f are made of a guess", one, least, most)
		}
	}
	notes := strings.Join(s.Notes(), "\n")
	if !strings.Contains(notes, "stiff p r no") || !strings.Contains(notes, "almost nothing") || !strings.Contains(notes, "--geared=false") {
		t.Errorf("it is not said: %q", notes)
	}
	if bare := asked(t, 5, false, text); !bare.Settled() || len(bare.Notes()) > 0 {
		t.Errorf("without gears: %v, %q", bare.Mappings()[0], bare.Notes())
	}
	if ran := asked(t, 5, true, "run p q r s cw\npulse p r up\nkick p q unsure"); len(ran.Notes()) > 0 {
		t.Errorf("runs and pulses are no guesses: %q", ran.Notes())
	}
}

// Two halves that pull together hold the shaft; two that pull against each other
// leave it slack. One answer each parts them.
func TestHeldIsNotSlack(t *testing.T) {
	for word, same := range map[string]bool{"held": true, "slack": false} {
		s := asked(t, 8, false, "kick a1 b1 "+word)
		sum := 0.0
		for _, m := range s.Mappings() {
			for _, j := range m.Joins { // halves of one phase that are joined outer to inner
				if same && (j == [2]motor.Lead{"a2", "b1"}) || !same && (j == [2]motor.Lead{"a2", "b2"}) {
					sum += m.Odds
				}
			}
		}
		if sum < 0.55 { // 4 mappings of 24 before
			t.Errorf("%s: odds %.2f for what it means", word, sum)
		}
	}
	if words := strings.Join(asked(t, 8, false, "").Topology().Words(Kick), " "); words != "cw ccw slack held unsure" {
		t.Error(words)
	}
	if words := strings.Join(asked(t, 5, false, "").Topology().Words(Kick), " "); words != "cw ccw slack unsure" {
		t.Error(words)
	}
}

// What would short a supply, or tell nothing, is refused, with what would do.
func TestTestsThatCanNotBeMeant(t *testing.T) {
	for _, c := range []struct {
		leads      int
		text, want string
	}{
		{4, "kick p r slack", "p and r are the two ends of one coil: both energised would short the supply; a lead of another coil is wanted, as kick p q"},
		{4, "stiff s q no", "as stiff s p"},
		{4, "pulse q s up", "the meter would only see the cell"},
		{8, "kick a1 a2 slack", "a1 and a2 are the two ends of one half"},
		{8, "stiff d2 d1 no", "as stiff d2 a1"},
		{8, "pulse b1 b2 down", "one half"},
		{5, "short p q free", "through the common z every pair brakes"},
		{5, "kick p q held", `"held" answers no kick`},
	} {
		of := asked(t, c.leads, false, "").Topology()
		_, err := ReadReplies("a.txt", []byte("\n"+c.text), of)
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "a.txt:2: ") {
			t.Errorf("%d leads, %s: %v, want %q", c.leads, c.text, err, c.want)
		}
	}
	// With a tap at the supply both ends of a phase can be on; in a run one is at a time.
	for leads, text := range map[int]string{4: "run p q r s cw\nshort p r stiff", 6: "kick p r slack\nstiff p r no\npulse p r up", 8: "run a1 b1 a2 b2 cw\nshort a1 a2 stiff"} {
		asked(t, leads, false, text)
	}
}
