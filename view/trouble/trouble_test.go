package trouble

import (
	"regexp"
	"strings"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/sequence"
)

// What people say, and the trouble that they mean.
func TestFreeWordsLeadToATrouble(t *testing.T) {
	for said, want := range map[string]string{
		"it hums": "buzzes", "vibrates": "buzzes", "just buzzing, does not turn": "buzzes", "rocks to and fro": "buzzes",
		"overheats": "hot", "the motor gets very HOT when idle": "hot", "smells burnt": "hot",
		"skips": "loses-steps", "losing steps": "loses-steps", "misses steps sometimes at speed": "loses-steps",
		"stalls at high speed": "stalls", "stops when I go faster": "stalls",
		"turns only one way": "one-way", "ignores the direction": "one-way", "same direction whatever I send": "one-way",
		"runs backwards": "wrong-way", "it turns in the wrong direction": "wrong-way",
		"starts in a random direction": "random",
		"nothing happens":              "nothing", "dead": "nothing", "motor does not move": "nothing",
		"LEDs blink but the motor is still": "lamps", "lamps run": "lamps",
		"fails only between two speeds, resonance": "band",
		"drifts": "drifts", "after many turns the position is off": "drifts",
		"weak": "weak", "no torque": "weak",
		"which wire goes where": "leads", "I don't know my leads": "leads",
		"is my power supply ok": "driver", "can I use USB": "driver",
		"hums at one place of its cycle": "one-place", "it stumbles": "one-place", "always sticks at the same spot": "one-place", "jerks once a turn": "one-place",
		"hums at some speeds": "band", "jitters on USB": "driver", "buzs it hums": "buzzes", "baz it jiters": "loses-steps", "overheets": "hot", "stales": "stalls", "it shivers": "buzzes", "buzzes": "buzzes", "one-way": "one-way",
	} {
		found, err := Match(said)
		if err != nil {
			t.Errorf("%q: %v", said, err)
		} else if found[0].Word != want {
			t.Errorf("%q leads to %s, want %s", said, found[0].Word, want)
		}
	}
	for _, said := range []string{"", "xyzzy", "42", "   ", "ホット"} {
		if found, err := Match(said); err == nil {
			t.Errorf("%q leads to %s", said, found[0].Word)
		}
	}
	if found, _ := Match("jitters"); len(found) < 2 || found[0].Word != "loses-steps" { // it may be either
		t.Errorf("jitters means %v", found)
	}
}

// A trouble finds itself by its own words, and the same each time.
func TestATroubleFindsItself(t *testing.T) {
	for _, one := range All() {
		for _, said := range []string{one.Word, one.Says} {
			found, err := Match(said)
			if err != nil || found[0].Word != one.Word || len(found) != 1 {
				t.Errorf("%q leads to %v, %v", said, found, err)
			}
		}
	}
}

// Troubles are told in short sentences of plain marks, with something to look at
// first, a caution, and questions; what they name can be read.
func TestTroublesAreWhole(t *testing.T) {
	words := map[string]bool{}
	for _, one := range All() {
		if words[one.Word] {
			t.Errorf("%s is there twice", one.Word)
		}
		words[one.Word] = true
		if one.First == "" || one.Care == "" || len(one.Asks) < 3 || len(one.Asks) > 9 {
			t.Errorf("%s is not whole: %+v", one.Word, one)
		}
		if len(one.Says) > 34 || len(one.Care) > 78 {
			t.Errorf("%s: too long for the screen: %q, %q", one.Word, one.Says, one.Care)
		}
		text := one.Says + one.First + one.Care
		for _, a := range one.Asks {
			text += a.Text
			for _, told := range a.Told {
				if _, err := wiring.ParseSymptom(told); err != nil {
					t.Errorf("%s: %v", one.Word, err)
				}
			}
			if a.Told == nil && a.Command == "" || a.Told != nil && (a.Screen != "Faults" || a.Engine != Faults) {
				t.Errorf("%s: %q leads nowhere", one.Word, a.Text)
			}
		}
		if strings.ContainsFunc(text, func(r rune) bool { return r < 0x20 || r > 0x7e }) {
			t.Errorf("%s: not only ASCII", one.Word)
		}
		for _, sentence := range regexp.MustCompile(`[.?:;] `).Split(one.First, -1) {
			if n := len(strings.Fields(sentence)); n > 28 {
				t.Errorf("%s: a sentence of %d words: %s", one.Word, n, sentence)
			}
		}
	}
}

// The model's own answers are those of the engine for the motor that is asked:
// other symptoms and other motors give others.
func TestTheModelAnswers(t *testing.T) {
	hybrid, _ := motor.BuiltIn("hybrid-4")
	flap, _ := motor.BuiltIn("vent-flap")
	first := func(word string, m motor.Motor) wiring.FaultKind {
		found, err := Match(word)
		if err != nil {
			t.Fatal(err)
		}
		f, err := found[0].Asks[0].Ask(m)
		if err != nil || f.Judged == nil {
			t.Fatalf("%s: %v", word, err)
		}
		if faults := f.Judged.Ranked[0].Faults; len(faults) > 0 {
			return faults[0].Kind
		}
		return ""
	}
	for _, c := range []struct {
		word string
		m    motor.Motor
		kind wiring.FaultKind
	}{{"buzzes", hybrid, wiring.Swapped}, {"one-way", hybrid, wiring.Deaf}, {"wrong-way", flap, wiring.CoilReversed}, {"lamps", flap, wiring.TapOff}} {
		if got := first(c.word, c.m); got != c.kind {
			t.Errorf("%s with %s: %s, want %s", c.word, c.m.Name, got, c.kind)
		}
	}
	f, err := Ask{Engine: Rates}.Ask(flap)
	if err != nil || len(f.Rates) != 2 || !(f.Rates[1].Rates.PullOut > f.Rates[1].Rates.StartStop && f.Rates[1].Rates.StartStop > 600) {
		t.Errorf("rates: %+v, %v", f.Rates, err)
	}
	// 23·27·29·28 / (9·10·11·12) is 42.445…: firmware that believes 42 is (42.445 − 42)/42.445 of a turn short.
	f, _ = Ask{Engine: Shaft}.Ask(flap)
	exact := 23.0 * 27 * 29 * 28 / (9 * 10 * 11 * 12)
	if deg, _ := f.Shaft.Drift.DegPerTurn.Float64(); deg > -(exact-42)/exact*360+1e-9 || deg < -(exact-42)/exact*360-1e-9 {
		t.Errorf("drift of %v degrees", deg)
	}
	if f, _ = (Ask{Engine: Shaft}).Ask(hybrid); f.Shaft.Rounded != nil {
		t.Error("a ratio was rounded without a train")
	}
	bare := hybrid
	bare.Figures = motor.Figures{}
	if _, err := (Ask{Engine: Rates}).Ask(bare); err == nil {
		t.Error("rates of a motor without figures")
	}
}

// A command names the person's own file, as a shell takes it.
func TestCommandsNameTheMotor(t *testing.T) {
	for _, one := range All() {
		for _, a := range one.Asks {
			if strings.Contains(a.Types(Motor, sequence.Unipolar), "bridge") || strings.Contains(a.Types(Motor, sequence.Bipolar)+Stage, Stage+" ") {
				t.Errorf("%s", a.Types(Motor, sequence.Bipolar))
			}
			if got := a.Types("a b's.toml", sequence.Unipolar); strings.Contains(got, Motor) || strings.Contains(a.Types(Motor, sequence.Bipolar), Motor) && !strings.Contains(got, `'a b'\''s.toml'`) {
				t.Errorf("%s", got)
			}
			if !regexp.MustCompile(`(^|\| )coilwalk [a-z]+ `).MatchString(a.Types(Motor, sequence.Bipolar)) {
				t.Errorf("no command: %s", a.Types(Motor, sequence.Bipolar))
			}
		}
	}
}
