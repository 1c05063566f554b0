package main

import (
	"fmt"
	"math"
	"math/big"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// asked are the commands of the README's "What people ask", in its order, and
// what their answers have to say. Figures are reckoned here anew, from what a
// motor's page says of it and school physics; else the source stands beside.
var asked = []struct {
	command string
	status  int
	says    []string
}{
	// 1, 2: which orders rock, and that two exchanges cure each, is counted in TestOrdersOfFourLeads.
	{"trouble it only buzzes", 0, []string{"20 rows a second", "two leads swapped", "each wrong order has two single exchanges that cure it", "coilwalk leads --answers"}},
	{"trouble it turns the same way whatever I ask", 0, []string{"the direction command never arrives", "two leads swapped", "it is only rocking and chance or a load decides"}},
	// 3: Ohm's law: 104.3 less 52.3 is one half-coil, and 0.3 are left for the meter's leads.
	{"leads readings.csv", 0, []string{"It is a 5-lead motor", "common VT", "52 ohm of a half-coil", "300 mohm of the meter's own leads", "Only the shaft tells"}},
	{"explain mapping", 0, []string{"Of the 24 ways to plug four leads, 4 turn the motor forward, 4 turn it back, and in the other 16 it only rocks"}},
	{"explain pin order", 0, []string{"AABB, ABAB or ABBA", "1-3-2-4", "three orders meet at a driver"}},
	// 6: 1010 0110 0101 1001 never has columns 1 and 2, nor 3 and 4, on together: they are the ends of the coils.
	{"check my-firmware.c", 0, []string{"sound for one wiring: full step", "Columns 1 and 2 must be the two ends of one coil", "1-3 and 2-4: not sound", "1-2 and 3-4: sound, full"}},
	// 7: common practice, no source.
	{"motors show hybrid-6", 0, []string{"taps YE and WH to the supply", "taps YE and WH open, insulated", "Halves in parallel need 8 leads"}},
	{"explain swap", 0, []string{"two reverse a motor that turns: those of the two ends of one coil", "Supply off first"}},
	{"shaft", 0, []string{stepsToATurn().RatString() + " rows to a turn = " + stepsToATurn().FloatString(6)}},
	{"shaft --believe 42:1", 0, []string{fmt.Sprintf("each turn comes out %.3f° short", driftOfATurn(42))}},
	{"rates --for 3000", 1, []string{"does not follow 3000 rows/s", "once it turns it follows up to", "it starts at up to", "estimated"}},
	// 12: a quarter of a turn of half steps, and the row that is left over.
	{"ramp --turn 90deg --rate 2000/s", 0, []string{quarterTurn() + " rows of half step", "starts at", "speeds up", "run through it, follows"}},
	{"trouble it fails only in a band of rates", 0, []string{"resonance", "Wiring is right if it works on both sides", "half step"}},
	// 14: P = UI at rest; that a held motor may burn is ISO 13732-1 (from memory).
	{"trouble it is hot at rest", 0, []string{"A motor draws most when it stands", "burn", "Where does the rotor go when the coils are switched off?"}},
	// 15: TestCurrentsBySchoolPhysics reckons the current.
	{"power --motor hybrid-4 --stage small-bridge --supply 12V", 1, []string{"Not so", "through an output that stands 600 mA", "label's 3 V", "chopper module"}},
	// 16: USB 2.0 section 7.2.1: 100 mA before a port has granted more.
	{"power --motor geared-can --supply usb", 0, []string{"Marginal", "a port promises 100 mA; 500 mA only once the host grants them", "9 V block battery", "pin of a controller, 5 V", "no clamp for the coil's kick"}},
	{"trouble the lamps run but the motor does not", 0, []string{"not what reaches the coils", "the common VT not at the supply", "a lead or its coil open"}},
	{"trouble is the motor dead", 0, []string{"does nothing at all", "coilwalk leads readings.csv", "What do the pins really do?"}},
	{"trouble it starts in a random direction", 0, []string{"throw it to either side", "Hold the first row for a moment", "It turns back when held"}},
	// 20: 45 degrees are an eighth of a turn; 200 steps to a turn by 8 are 1600 pulses.
	{`shaft --motor hybrid-4 --observed "200 steps = 45 deg"`, 0, []string{"200 rows to a turn", "1/8 of a step", "microstep divisor is set to 8"}},
}

// confused are what beginners confuse, and the sentence that says it where it
// arises.
var confused = []struct{ confusion, command, says string }{
	{"pin order, plug order, phase order", "explain pin order", "the pins on your board, that of the leads in the plug, and that of the phases"},
	{"1A 1B 2A 2B", "explain pin order", "the digit may be the coil or the end"},
	{"swap any two to reverse", "explain swap", "Of the six exchanges two reverse a motor that turns"},
	{"swapping a coil's ends cures jitter", "explain swap", "they never cure one that rocks"},
	{"both ends of a phase on is a row", "check both.c --wiring A+,B+,A-,B-", "both-ends-on"},
	{"both ends of a phase on is a row", "power --motor geared-can --supply usb", "gives no field at all"},
	{"half steps counted as full", "explain half step", "half steps that are counted as full turn the shaft by half"},
	{"nominal and exact train", "shaft --motor geared-can", "This ratio is as printed. If the teeth were never counted, the real one may differ, and positions drift."},
	{"degrees taken for steps", `shaft --motor hybrid-4 --observed "90 deg = 162 deg"`, "Degrees were given where steps are wanted"},
	{"rpm with wrong steps to a turn", "ramp --believes 2048 --rpm 12", "it turns at"},
	{"whole numbers: 60000/2048 = 29", "ramp --believes 2048 --rpm 12", "multiply before you divide"},
	{"half a millisecond is 0", "ramp --believes 200 --rpm 300 --twice", "that is no wait at all"},
	{"where a centre tap goes, sinks", "explain centre tap", "With a low-side driver it goes to the motor supply"},
	{"where a centre tap goes, bridge", "explain centre tap", "with a bridge it stays open"},
	{"where the clamp pin goes", "explain clamp diode", "its pin goes to the motor supply, not to ground"},
	{"sinks on a 4-lead motor", "power --motor hybrid-4 --stage darlington", "a stage that only sinks can not drive 4 leads"},
	{"label voltage and chopper supply", "explain rated voltage", "Behind a chopper only the rated current counts, and the supply may be much higher"},
	{"all leads of a 5-lead motor are joined", "explain common", "is no short"},
	{"ohms and the phases of 5 leads", "leads readings.csv", "Which two ends are one phase: every end reads the same"},
	{"ohms and the halves of 8 leads", "leads eight.csv", "Which two halves are one phase"},
	{"colours differ between makers", "explain lead", "Colours differ between makers"},
	{"a geared motor seems not to move", "trouble it does nothing", "Is a step too small to see?"},
	{"resonance taken for bad wiring", "explain resonance", "It is often taken for bad wiring"},
	{"cut between moves it settles elsewhere", "rates --motor hybrid-4 --mode full", "a position is lost when the current is cut between moves"},
	{"a right table, a wrong loop", "check wrap.c", "open-wrap"},
	{"0110 in C is octal", "check octal.c", "the language takes it as a number in another base"},
}

// deskFiles are what a person who asks has beside them; invented.
var deskFiles = map[string]string{
	"readings.csv":  "BN,VT,52.3\nWH,VT,52.3\nGN,VT,52.3\nGY,VT,52.3\nBN,WH,104.3\n",
	"eight.csv":     "",
	"my-firmware.c": "const char rows[4] = {0b1010, 0b0110, 0b0101, 0b1001};\n",
	"both.c":        "const char rows[4] = {0b1100, 0b1010, 0b0011, 0b1001};\n",
	"wrap.c":        "const char rows[3] = {0b1100, 0b0110, 0b0011};\n",
	"octal.c":       "const int rows[4] = {1000, 0100, 0010, 0001};\n",
}

func TestWhatPeopleAsk(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(readme), "## What people ask\n")
	section, _, _ = strings.Cut(section, "\n## ")
	rows := regexp.MustCompile("(?m)^\\| .* \\| `coilwalk (.*)` \\|$").FindAllStringSubmatch(section, -1)
	if len(rows) != len(asked) {
		t.Fatalf("the README has %d questions with their command, here are %d", len(rows), len(asked))
	}
	desk(t)
	for k, q := range asked {
		if rows[k][1] != q.command {
			t.Errorf("question %d: the README says coilwalk %s, here it is %s", k+1, rows[k][1], q.command)
		}
		r := call(t, "", split(q.command)...)
		if r.status != q.status {
			t.Errorf("coilwalk %s: status %d, want %d: %s", q.command, r.status, q.status, r.errs)
		}
		for _, want := range q.says {
			if !saysInWords(r.out, want) {
				t.Errorf("coilwalk %s does not say %q:\n%s", q.command, want, r.out)
			}
		}
	}
}

func TestWhatPeopleConfuse(t *testing.T) {
	desk(t)
	for _, c := range confused {
		if r := call(t, "", split(c.command)...); !saysInWords(r.out, c.says) {
			t.Errorf("%s: coilwalk %s does not say %q:\n%s%s", c.confusion, c.command, c.says, r.out, r.errs)
		}
	}
}

// The counts that the answers give: every order of four leads is walked, and
// every exchange tried.
func TestOrdersOfFourLeads(t *testing.T) {
	axes := [4]int{0, 90, 180, 270} // of A+ B+ A- B-
	turns := func(p [4]int) int {   // +1 forward, -1 back, 0 rocks
		step := (axes[p[1]] - axes[p[0]] + 360) % 360
		for k := range p {
			if (axes[p[(k+1)%4]]-axes[p[k]]+360)%360 != step {
				return 0
			}
		}
		return map[int]int{90: 1, 270: -1}[step]
	}
	count := map[int]int{}
	for a := range 4 {
		for b := range 4 {
			for c := range 4 {
				p := [4]int{a, b, c, 6 - a - b - c}
				if a == b || a == c || b == c {
					continue
				}
				count[turns(p)]++
				after := map[int]int{}
				for i := range 4 {
					for j := i + 1; j < 4; j++ {
						q := p
						q[i], q[j] = q[j], q[i]
						after[turns(q)]++
					}
				}
				if way := turns(p); way == 0 && (after[1] != 1 || after[-1] != 1) {
					t.Errorf("%v rocks: exchanges turn it %v, want one each way", p, after)
				} else if way != 0 && (after[-way] != 2 || after[0] != 4) {
					t.Errorf("%v turns: exchanges do %v, want two back and four that rock", p, after)
				}
			}
		}
	}
	if count[1] != 4 || count[-1] != 4 || count[0] != 16 {
		t.Errorf("of the 24: %v", count)
	}
}

// Ohm's law at rest, of what the answer itself names: 12 V, a coil of 2 ohm, the
// old bridge's drop of 2 to 4.9 V (its data sheet's greatest, both sides, at 1 A).
func TestCurrentsBySchoolPhysics(t *testing.T) {
	r := call(t, "", "power", "--motor", "hybrid-4", "--stage", "small-bridge", "--supply", "12V")
	match := regexp.MustCompile(`a coil +([\d.]+) A cold`).FindStringSubmatch(r.out)
	if match == nil {
		t.Fatalf("no current: %s", r.out)
	}
	var amps float64
	fmt.Sscan(match[1], &amps)
	if least, most := (12-4.9)/2, (12-2.0)/2; amps < least || amps > most {
		t.Errorf("%.2f A, want %.2f to %.2f", amps, least, most)
	}
}

// stepsToATurn: the vent flap has 4 rings of 8 teeth, 8 pole pairs of 4 steps;
// its meshes are 9:23 10:27 11:29 12:28.
func stepsToATurn() *big.Rat {
	return big.NewRat(4*8*23*27*29*28, 9*10*11*12)
}

// driftOfATurn is how far the shaft is off after a turn, in degrees, where
// another ratio is believed.
func driftOfATurn(believed float64) float64 {
	real, _ := new(big.Rat).Quo(stepsToATurn(), big.NewRat(32, 1)).Float64()
	return math.Abs(360*believed/real - 360)
}

func quarterTurn() string {
	rows, _ := new(big.Rat).Quo(stepsToATurn(), big.NewRat(2, 1)).Float64()
	return fmt.Sprint(math.Round(rows))
}

// desk goes to a folder with the files of a person who asks.
func desk(t *testing.T) {
	t.Helper()
	eight, err := os.ReadFile("../../testdata/readings/eight.csv")
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	for name, text := range deskFiles {
		if name == "eight.csv" {
			text = string(eight)
		}
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(folder)
}

// split cuts a command into words as a shell does, as far as it is needed here.
func split(command string) (words []string) {
	for k, part := range strings.Split(command, `"`) {
		if k%2 == 1 {
			words = append(words, part)
		} else {
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

// saysInWords looks for words, however the lines are broken and whatever begins
// with a capital.
func saysInWords(text, want string) bool {
	return strings.Contains(strings.ToLower(strings.Join(strings.Fields(text), " ")), strings.ToLower(want))
}
