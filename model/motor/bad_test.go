package motor

import (
	"errors"
	"strings"
	"testing"
	"unicode"

	"coilwalk/model/files"
)

const outputsRight = "; the leads on outputs 1 to 4 are wanted, each of BN WH GN GY once"

// bad is what each bad file of the corpus is told. "…" stands for words that
// the TOML library chooses.
var bad = map[string]string{
	"unknown-field":      `:5:1: there is no field "winding.comon"; did you mean "common"?`,
	"unknown-field-far":  `:8:1: there is no field "rotor.flux"; known here: pole_pairs, rings, teeth, rotor_teeth, step_angle`,
	"rings-alone":        ":6:2: rings and teeth of a ring go together",
	"rings-negative":     ":7:1: -4 can not be counted; leave the line out if it was not counted",
	"counts-against":     ":7:1: 8 pole pairs are 32 full steps to a turn, but 4 rings of 12 teeth would make 48; count again; leave out what is not sure",
	"counts-open":        ":6:2: the rotor's pole pairs are missing, and the counts leave them open: 4 rings of 12 teeth: 48 full steps to a rotor turn; a step angle of 11.25° would make 32: one of them must be wrong; count again; pole_pairs is wanted under [rotor]: full steps to a rotor turn divided by 4",
	"counts-bare":        ":9:14: rotor.step_angle: …",
	"backlash-count":     `:11:1: 3 angles of backlash for 2 meshes; one for each, or one at the output shaft, is wanted; as backlash = "8deg", or one angle for each mesh`,
	"backlash-negative":  `:11:12: …a backlash of "-1deg" can not be; 0 to 180 degrees are wanted`,
	"backlash-no-train":  `:10:1: without a gear train there is no backlash; as backlash = "8deg", or one angle for each mesh`,
	"unknown-table":      `:9:2: there is no field "figure"; did you mean "figures"?`,
	"unit-of-another":    `:10:14: …52 mH is an inductance; a resistance is wanted: ohm, kohm or mohm`,
	"unit-unknown":       `:10:14: …52 Ohmm has an unknown unit; write ohm, kohm or mohm, as in 52 ohm`,
	"no-unit-text":       `:10:11: …12 has no unit; write V, mV or kV, as in 12 V`,
	"two-ways-comma":     `:10:11: …1,500 can be read in two ways; write 1.5 or 1500`,
	"ends-five":          ":4:1: 5 coil ends are named; four are wanted, in the order A+ B+ A- B-",
	"ends-three":         ":4:1: 3 coil ends are named; four are wanted, in the order A+ B+ A- B-",
	"ends-missing":       ":3:2: 0 coil ends are named; four are wanted, in the order A+ B+ A- B-",
	"taps-three":         ":5:1: 3 taps are named; two are wanted, of phase A and of phase B",
	"inner-none":         ":5:1: 0 inner ends are named; four are wanted, of the halves A+ B+ A- B-",
	"lead-twice":         ":3:2: the lead BN is named twice; each lead is one end; tell like colours apart by a name, as BK1 and BK2",
	"lead-twice-common":  ":3:2: the lead GY is named twice; each lead is one end; tell like colours apart by a name, as BK1 and BK2",
	"lead-twice-folded":  ":3:2: the lead coil-a is named twice; each lead is one end; tell like colours apart by a name, as BK1 and BK2",
	"lead-case":          `:4:27: …"case" stands for the motor's case; name the lead otherwise`,
	"lead-joined":        ":4:27: …rdwh does not say which colour is the base; write RD/WH or WH/RD",
	"lead-blank":         ":4:27: …a lead has no name; a colour (BN, brown) or a name of your own is wanted",
	"escape-lead":        `:4:27: …the lead name "\x1b[31m" holds '\x1b'; letters, digits and / + - _ . are wanted`,
	"common-and-taps":    ":3:2: more than one of common, taps and inner is given; common is for 5 leads, taps for 6, inner for 8, none for 4",
	"taps-and-inner":     ":3:2: more than one of common, taps and inner is given; common is for 5 leads, taps for 6, inner for 8, none for 4",
	"pole-pairs-0":       ":7:1: the rotor can not have 0 pole pairs; a number from 1 to 500 is wanted: full steps per rotor turn divided by 4",
	"pole-pairs-501":     ":7:1: the rotor can not have 501 pole pairs; a number from 1 to 500 is wanted: full steps per rotor turn divided by 4",
	"pole-pairs-missing": ":6:2: the rotor's pole pairs are missing; pole_pairs is wanted under [rotor]: full steps to a rotor turn divided by 4",
	"pole-pairs-endless": ":7:14: …pole_pairs…too large…",
	"train-twice":        ":11:1: the train is given twice, as meshes and as a ratio; keep the meshes if the teeth were counted",
	"train-strokes":      `:10:10: …"11-22" is no mesh; the teeth of the driving and the driven gear are wanted, as 9:32`,
	"train-ratio-word":   `:10:9: …"sixty-four" is no ratio; turns of the rotor to one of the shaft are wanted, as 64:1`,
	"outputs-three":      ":10:1: 3 outputs are given" + outputsRight,
	"outputs-stranger":   ":11:1: output 3 feeds VT, which is no coil end" + outputsRight,
	"outputs-twice":      ":11:1: one lead stands on two outputs" + outputsRight,
	"drive-word":         `:10:1: there is no drive "both"; unipolar or bipolar is wanted`,
	"drive-unipolar-4":   ":10:1: a 4-lead motor has no tap to put to the supply; its drive is bipolar; or name the common or the taps under [winding]",
	"drive-bipolar-5":    ":11:1: the common of a 5-lead motor joins both phases; its drive is unipolar",
	"insulation-letter":  `:10:14: …"C" is no class of insulation; one of Y, A, E, B, F, H is wanted`,
	"thermal-none":       ":10:1: thermal_resistance must be above zero; leave the line out if it is not known",
	"figure-negative":    ":11:1: current must be above zero; leave the line out if it is not known",
	"figure-zero":        ":11:1: inertia must be above zero; leave the line out if it is not known",
	"torque-twice":       ":11:1: the holding torque is given twice; with two phases on it is √2 times that with one; keep the one that was measured",
	"detent-word":        `:10:1: the detents can not be at "45"; one-phase or two-phase is wanted`,
	"syntax-quote":       ":4:21: …",
	"syntax-no-quotes":   ":1:8: …",
	"field-twice":        ":8:1: …pole_pairs…",
	"name-missing":       `: the motor has no usable name; one word of at most 32 characters is wanted, as name = "vent-flap"`,
	"name-two-words":     `:1:1: the motor has no usable name; one word of at most 32 characters is wanted, as name = "vent-flap"`,
	"name-long":          `:1:1: the motor has no usable name; one word of at most 32 characters is wanted, as name = "vent-flap"`,
	"name-escape":        `:1:1: the motor has no usable name; one word of at most 32 characters is wanted, as name = "vent-flap"`,
	"title-long":         ":2:1: the title is too long, or holds control characters; at most 60 plain characters are wanted",
	"title-bidi":         ":2:1: the title is too long, or holds control characters; at most 60 plain characters are wanted",
	"origin-long":        ":2:1: the origin is too long, or holds control characters; at most 300 plain characters on one line are wanted",
	"origin-lines":       ":2:1: the origin is too long, or holds control characters; at most 300 plain characters on one line are wanted",
	"empty":              `: the motor has no usable name; one word of at most 32 characters is wanted, as name = "vent-flap"`,
	"junk":               ":1:1: …",
	"not-utf8":           ":2:5: …UTF-8…",
	"utf16":              ": this is UTF-16 text…save the file as UTF-8",
	"escape-field":       `:2:1: there is no field "\x1b]0;x\a"; known here: name, title, origin, winding, rotor, train, wiring, figures`,
}

// fits says whether text is like pattern, where "…" stands for anything.
func fits(text, pattern string) bool {
	parts := strings.Split(pattern, "…")
	if len(parts) == 1 {
		return text == pattern
	}
	last := parts[len(parts)-1]
	if !strings.HasPrefix(text, parts[0]) || !strings.HasSuffix(text, last) {
		return false
	}
	for _, part := range parts {
		i := strings.Index(text, part)
		if i < 0 {
			return false
		}
		text = text[i+len(part):]
	}
	return true
}

// unsafe gives what in a message could steer a terminal or end its line.
func unsafe(message string) string {
	for _, r := range message {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == 0x2028 || r == 0x2029 {
			return string(r)
		}
	}
	return ""
}

// told opens a bad file and gives its message, after what holds for each.
func told(t *testing.T, file string) string {
	t.Helper()
	m, err := Open(file, nil)
	var c *files.Complaint
	if !errors.As(err, &c) {
		t.Fatalf("%s: error %v of type %T, want a complaint", file, err, err)
	}
	if !sameMotor(m, Motor{}) {
		t.Errorf("%s: %v, and still a motor comes back: %+v", file, err, m)
	}
	if r := unsafe(err.Error()); r != "" {
		t.Errorf("%s: the message %q holds %q", file, err, r)
	}
	if len([]rune(err.Error())) > 600 {
		t.Errorf("%s: the message is %d characters long", file, len([]rune(err.Error())))
	}
	if !strings.HasPrefix(err.Error(), file+":") {
		t.Errorf("%s: the message %q does not begin with the file", file, err)
	}
	return strings.TrimPrefix(err.Error(), file)
}

func TestBadFiles(t *testing.T) {
	t.Chdir(corpus + "bad")
	for name, want := range bad {
		if got := told(t, name+".toml"); !fits(got, want) {
			t.Errorf("%s:\ngot  %s\nwant %s", name, got, want)
		}
	}
}

func TestEveryBadFileHasItsMessage(t *testing.T) {
	each(t, "bad", func(file string, _ []byte) {
		name := strings.TrimSuffix(file, ".toml")
		_, inOne := bad[name]
		_, inOther := harder[name]
		if inOne == inOther {
			t.Errorf("bad/%s stands in both tables of messages, or in none", file)
		}
	})
}

// The file that is bad in several ways is told the same thing each time.
func TestTheSameMessageEachTime(t *testing.T) {
	text := []byte("name = \"x\"\n[winding]\nends = [\"a\", \"b\", \"c\", \"d\"]\n[rotor]\npole_pairs = 8\n[figures]\n" +
		"voltage = \"-1 V\"\ncurrent = \"-1 A\"\nresistance = \"-1 ohm\"\ninductance = \"-1 mH\"\ninertia = \"-1 g.cm2\"\n")
	_, first := Parse("x", text)
	for range 50 {
		if _, err := Parse("x", text); err == nil || err.Error() != first.Error() {
			t.Fatalf("now %v, before %v", err, first)
		}
	}
}
