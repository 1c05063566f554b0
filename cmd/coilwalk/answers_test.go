package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// golden holds an answer against a file under testdata. COILWALK_RECORD=1
// writes it anew: then look at what changed.
func golden(t *testing.T, name, text string) {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "answers", name)
	if os.Getenv("COILWALK_RECORD") != "" {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if text != string(want) {
		t.Errorf("the answer is not as recorded in %s: %s\nCOILWALK_RECORD=1 records it anew; the whole is\n%s", path, firstDifference(string(want), text), text)
	}
}

// A driver module's lines: enabled, 3 steps one way, then 2 the other with the
// direction set too late.
const stepLines = "time [us],STEP,DIR,EN\n0,0,0,1\n5,0,1,0\n20,1,1,0\n22,0,1,0\n120,1,1,0\n122,0,1,0\n220,1,1,0\n222,0,1,0\n319.5,0,0,0\n320,1,0,0\n322,0,0,0\n420,1,0,0\n422,0,0,0\n"

func TestGoldenAnswers(t *testing.T) {
	for _, g := range []struct {
		name   string
		in     string
		args   string
		status int
	}{
		{"order-half.txt", "", "order", 0},
		{"order-half.json", "", "order --json", 0},
		{"order-full-reverse.json", "", "order --mode full --reverse --start 3 --motor hybrid-4 --json", 0},
		{"order-micro.txt", "", "order --mode micro --divide 4 --levels 7 --motor hybrid-6 --drive bipolar", 0},
		{"motors-list.txt", "", "motors list", 0},
		{"motors-list.json", "", "motors list --json", 0},
		{"motors-show.txt", "", "motors show hybrid-8", 0},
		{"motors-show.toml", "", "motors show vent-flap --toml", 0},
		{"plain-walk.txt", "next 3\nback\nrewind\nmode full\nnext\nswap 2 3\nrun\nrewire\ndrive\ngo 1000000000000000\nwhere\nnxet\nwiring\nquit\n", "--plain", 0},
		{"plain-micro.txt", "mode micro 16\nnext 2\nreverse\nnext\nmode\nmode sine\nback x\ngo\nrewind 99\n", "--plain --motor hybrid-4", 0},
		{"plain-run.txt", "run 600 200\nback\nrewind 2\nswap 2 3\nrun 20 40\nrun 20 x\nrun 1e9\nrun 0.5 1 2\nquit\n", "--plain", 0},
		{"shaft.txt", "", "shaft --believe 42:1 --stops 45", 0},
		{"shaft-published.json", "", "shaft --mode half --train 9:32,11:22,9:26,10:31 --believe 64:1 --turn 90deg --json", 0},
		{"shaft-counted.txt", "", "shaft --motor hybrid-4 --rotor-teeth 50 --step-angle 0.9deg --steps 30", 0},
		{"shaft-backlash.json", "", "shaft --train 10:40,12:30 --backlash 2deg,1.5deg --json", 0},
		{"leads-five.txt", "", "leads ../../testdata/readings/flap.csv", 0},
		{"leads-five.json", "", "leads ../../testdata/readings/flap.csv --json", 0},
		{"leads-six.txt", "", "leads ../../testdata/readings/six.csv", 0},
		{"leads-eight.txt", "", "leads ../../testdata/readings/eight.csv", 0},
		{"leads-four.txt", "", "leads ../../testdata/readings/four.csv", 0},
		{"leads-broken.txt", "", "leads ../../testdata/readings/broken.csv", 1},
		{"leads-exchanged.json", "", "leads ../../testdata/readings/exchanged.csv --json", 1},
		{"leads-few.txt", "BN,VT,52\nWH,VT,51\nGN,WH,104\n", "leads -", 0},
		{"leads-bare.txt", "BK,RD,open\nBK,BU,60\nRD,GN,120\nBK,WH,open\nBK,YE,120\n", "leads -", 0},
		{"leads-bare.json", "BK,RD,open\nBK,BU,60\nRD,GN,120\nBK,WH,open\nBK,YE,120\n", "leads - --json", 0},
		{"leads-open.txt", "BK,RD,open\nBK,BU,60\nRD,GN,120\nBK,WH,open\nBK,YE,120\nWH,RD,open\n", "leads -", 1},
		{"plain-leads.txt", "leads\nreading BN VT 52\nreading WH VT 51\nreading BN WH\nreading BN\nreading GN VT open\nreading GN VT\nquit\n", "--plain", 0},
		{"answers-first.txt", "", "leads --answers - --ends BN,WH,GN,GY --common VT", 0},
		{"answers-found.json", "kick BN GN ccw\nkick BN GY slack\nkick GN GY ccw\n", "leads --answers - --ends BN,WH,GN,GY --common VT --json", 0},
		{"answers-against.txt", "kick BN GN ccw\nkick BN GY slack\nkick GN GY ccw\nkick WH BN slack\nkick BN WH cw\n", "leads --answers - --ends BN,WH,GN,GY --common VT", 1},
		{"answers-geared.txt", "run BN WH GN GY buzz\nrun BN GN WH GY cw\nrun BN GY WH GN ccw\nlamp 1 1\n", "leads --answers - --motor vent-flap", 0},
		{"answers-eight.txt", "pulse BK RD up\n", "leads ../../testdata/readings/eight.csv --answers - --geared", 0},
		{"answers-six.txt", "kick BK RD cw\nkick RD GN cw\n", "leads --answers - --ends BK,RD,GN,BU --taps YE,WH", 0},
		{"answers-phases.txt", "kick BK RD slack\nkick BK GN slack\n", "leads --answers - --ends BK,RD,GN,BU --taps YE,WH", 1},
		{"answers-lamps.txt", "lamp 1 3\nkick BN WH cw\nlamp 2 3\nlamp 1 4\n", "leads --answers - --ends BN,WH,GN,GY --common VT", 1},
		{"answers-stiff.txt", "kick BN WH cw\nkick BN GN slack\nkick BN GY ccw\nstiff BN GN yes\n", "leads --answers - --ends BN,WH,GN,GY --common VT", 1},
		{"answers-hidden.txt", "kick BN WH cw\nstiff BN GN no\n", "leads --answers - --motor vent-flap", 0},
		{"answers-reached.txt", "kick BN WH cw\nstiff BN GN no\n", "leads --answers - --motor vent-flap --geared=false", 0},
		{"answers-rows.json", "run BN WH GN GY still\n", "leads --answers - --motor geared-can --ends BN,WH,GN,GY --common VT --json", 0},
		{"answers-held.txt", "kick BK RD held\nkick BK BN unsure\n", "leads ../../testdata/readings/eight.csv --answers -", 0},
		{"plain-answers.txt", "answer cw\nask ungeared\nanswer slack\nanswer smoke\nanswer kick BN GN cw\nanswer cw\nask sideways\ntakeback 1\ntakeback 9\ntakeback\nanswer unsure\nquit\n", "--plain", 0},
		{"faults-first.txt", "", "faults -", 0},
		{"faults-buzz.txt", "half forward buzz\nhalf reverse buzz\nfull forward buzz 2\n", "faults - --motor hybrid-4", 1},
		{"faults-still.json", "half forward still\nwave reverse still\nfull reverse unsure\n", "faults - --json", 1},
		{"faults-sound.txt", "half forward cw\nhalf reverse ccw\nfull forward cw\n", "faults - --motor hybrid-6", 0},
		{"faults-sag.txt", "full forward weak\nhalf forward weak\nwave forward cw\nwave reverse ccw\n", "faults - --motor hybrid-6", 1},
		{"plain-faults.txt", "fault swap 2 3\nnext 2\nfault open BN\nfault swap 2 3\nrewire\nfault smoke\nfaults\ndoes half forward buz\ndoes half forward buzz\ndoes half forward cw\nquit\n", "--plain", 0},
		{"explain.txt", "", "explain", 0},
		{"explain-load-angle.txt", "", "explain load angle", 0},
		{"explain-step-mode.txt", "", "explain Modes --ascii", 0},
		{"explain-pull-in.json", "", "explain pull-in --json", 0},
		{"trouble.txt", "", "trouble", 0},
		{"trouble-hums.txt", "", "trouble it hums --motor hybrid-4", 0},
		{"trouble-drifts.txt", "", "trouble drifts", 0},
		{"trouble-hot.json", "", "trouble it overheats --motor geared-can --json", 0},
		{"plain-trouble.txt", "trouble\ntrouble it skips\nfaults\ntrouble xyzzy\nexplain lag\nexplain baklash\nexplain\nquit\n", "--plain", 0},
		{"read-sound.txt", "", "read ../../testdata/recordings/flap.vcd", 0},
		{"read-sound.json", "", "read ../../testdata/recordings/flap.vcd --json --motor vent-flap", 0},
		{"read-faults.txt", "", "read ../../testdata/recordings/flap-faults.vcd --motor vent-flap", 1},
		{"read-faults.json", "", "read ../../testdata/recordings/flap-faults.vcd --wiring A+,B+,A-,B- --json", 1},
		{"read-rows.csv", "", "read ../../testdata/recordings/flap.vcd --rows --from 0.02s --to 0.03s", 0},
		{"read-steps.txt", stepLines, "read - --pins step-direction --divide 16 --setup 1us --enable low", 1},
		{"ramp.txt", "", "ramp --turn 90deg --rate 1100/s --start 400/s --accel 2000 --clock 16MHz --prescale 8 --stop 200", 0},
		{"ramp-back.json", "", "ramp --turn -15deg --rate 300/s --start 200/s --accel 500 --after forward --shape s --json", 0},
		{"ramp-lost.txt", "", "ramp --steps 400 --rate 2500/s --start 2400/s --motor vent-flap", 1},
		{"ramp-timer.txt", "", "ramp --steps 400 --rate 600/s --start 0/s --accel 800 --clock 16MHz --no-motor", 1},
		{"ramp-recurrence.txt", "", "ramp --steps 40 --rate 600/s --accel 800 --method recurrence --no-motor", 0},
		{"ramp-believes.txt", "", "ramp --believes 2048 --rpm 12", 1},
		{"ramp-nothing.json", "", "ramp --believes 200 --rpm 300 --twice --json", 1},
		{"power-usb.txt", "", "power --motor geared-can --supply usb", 0},
		{"power-usb.json", "", "power --motor geared-can --supply usb --json", 0},
		{"power-small-bridge.txt", "", "power --motor hybrid-4 --stage small-bridge --supply 12V", 1},
		{"power-misfit.json", "", "power --motor hybrid-4 --stage darlington --supply 12V --json", 1},
		{"power-chopper.txt", "", "power --motor hybrid-8 --stage chopper --supply 24V --mode full --current 0.7A --hold 70% --load 10N.cm", 0},
		{"power-turning.txt", "", "power --motor vent-flap --supply 12V --rate 300 --duty 50% --for 20min --logic 3.3V", 0},
		{"power-file.json", "", "power --motor geared-can --stage ../../testdata/stages/board.toml --supply 5V --series 10ohm --json", 0},
		{"plain-power.txt", "power darlington usb\npower\nmode wave\npower usb\npower steam\npower darlington steam\nquit\n", "--plain --motor geared-can", 0},
		{"write-c.txt", "", "write c --port PORTD --bits 7,5,6,3 --active low --mode full", 0},
		{"write-stepper.txt", "", "write c --stepper --port PORTB --ramp 20000,15000,12000 --idle-off", 0},
		{"write-cpp.txt", "", "write cpp --motor hybrid-4 --stepper", 0},
		{"write-rust.txt", "", "write rust --mode wave --bits 8,9,10,11", 0},
		{"write-micropython.txt", "", "write micropython --pins 2,3,4,5 --rate 250/s --clock 1MHz --prescale 1", 0},
		{"write-csv.txt", "", "write csv --motor hybrid-6 --mode micro --divide 4", 0},
		{"write.json", "", "write json --pins 2,3,4,5 --wiring A+,A-,B+,B-", 0},
		{"write-vcd.txt", "", "write vcd --mode wave --rows 4", 0},
		{"write-markdown.txt", "", "write markdown --motor hybrid-8 --mode full", 0},
		{"write-text.txt", "9000, 7000 # slowly\n5000\n", "write text --ramp - --clock 1MHz --prescale 1", 0},
		{"write-told.json", "", "write text --mode wave --json", 0},
		{"check-sound.txt", "1000\n1100\n0100\n0110\n0010\n0011\n0001\n1001\n", "check -", 0},
		{"check-pairs.json", "1010\n0110\n0101\n1001\n", "check - --json", 0},
		{"check-permuted.txt", "1000\n1010\n0010\n0110\n0100\n0101\n0001\n1001\n", "check - --wiring A+,B+,A-,B-", 1},
		{"check-permuted.json", "1000\n1010\n0010\n0110\n0100\n0101\n0001\n1001\n", "check - --wiring A+,B+,A-,B- --json", 1},
		{"check-octal.json", "int t[] = {1000, 1100, 0100, 0110, 0010, 0011, 0001, 1001};\n", "check - --json", 1},
		{"check-skipped.txt", "1000\n1100\n0100\n0110\n0010\n0001\n1001\n", "check -", 1},
		{"check-bytes.txt", "const unsigned char port[] = {0x90, 0xc0, 0x60, 0x30};\n", "check - --motor geared-can", 0},
	} {
		t.Run(g.name, func(t *testing.T) {
			r := call(t, g.in, strings.Fields(g.args)...)
			if r.status != g.status || r.errs != "" {
				t.Errorf("status %d, want %d; said %q", r.status, g.status, r.errs)
			}
			if strings.HasSuffix(g.name, ".json") {
				var object map[string]any
				if err := json.Unmarshal([]byte(r.out), &object); err != nil || object["coilwalk"] != 1.0 {
					t.Errorf("no JSON object of ours (%v):\n%s", err, r.out)
				}
			}
			golden(t, g.name, r.out)
		})
	}
}

// These have blanks within an option.
func TestShaftExplainsWhatWasSeen(t *testing.T) {
	for _, g := range []struct {
		name string
		args []string
	}{
		{"shaft-observed.txt", []string{"shaft", "--motor", "hybrid-4", "--observed", "200 steps = 45 deg"}},
		{"shaft-observed.json", []string{"shaft", "--motor", "geared-can", "--train", "9:32,11:22,9:26,10:31", "--believe", "64:1", "--observed", "512 steps = 90 deg", "--json"}},
	} {
		r := call(t, "", g.args...)
		if r.status != 0 || r.errs != "" {
			t.Errorf("%s: status %d, said %q", g.name, r.status, r.errs)
		}
		golden(t, g.name, r.out)
	}
}

func TestBadInput(t *testing.T) {
	folder := t.TempDir()
	broken := filepath.Join(folder, "broken.toml")
	if err := os.WriteFile(broken, []byte("name = \"x\"\n[rotor]\npole_pears = 8\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, b := range []struct {
		args string
		want []string
	}{
		{"odrer", []string{`"odrer" is neither a command nor a file`, `"coilwalk order"`}},
		{"zebra", []string{"the commands are", "check", "motors", "order"}},
		{"power --stage darlinton", []string{"did you mean darlington?"}},
		{"power --stage ../../testdata/stages/bad.toml", []string{"bad.toml:7:1", "3 drops for 2 currents"}},
		{"power --supply ubs", []string{"--supply", "did you mean usb?"}},
		{"power --supply 0V", []string{"more than 0 V"}},
		{"power --duty 150%", []string{"--duty", "30% or 0.3"}},
		{"power --hold 50%", []string{"--hold", "does not set its current"}},
		{"power --current 1A", []string{"--current", "the supply and the coil do"}},
		{"power --rate -5", []string{"the rate can not be -5"}},
		{"power --connection parallel", []string{"can not be connected", "unipolar, parted"}},
		{"power --cooling 5ohm", []string{"thermal resistance is wanted"}},
		{"power --ambient 5V", []string{"a temperature is wanted"}},
		{"explain detant torque", []string{`"detant torque"`, `did you mean "detent torque"?`}},
		{"explain zzz", []string{`"explain" without a word lists them all`}},
		{"trouble xyzzy", []string{`"xyzzy"`, "coilwalk trouble lists them"}},
		{"trouble it hums --motor hybrid4", []string{"did you mean the built-in motor hybrid-4?"}},
		{"order extra", []string{"nothing more is wanted"}},
		{"order --mode sine", []string{`"sine"`, "wave, full, half and micro"}},
		{"order --mdoe half", []string{"--mdoe", "did you mean --mode?"}},
		{"order --divide 8", []string{"--mode micro"}},
		{"order --mode micro --divide 1", []string{"from 2 to 256"}},
		{"order --start 9", []string{"1 to 8 is wanted"}},
		{"order --drive bipolar", []string{"5-lead", "unipolar"}},
		{"order --drive unipolar --motor hybrid-4", []string{"4-lead", "bipolar"}},
		{"order --motor hybrid4", []string{"did you mean the built-in motor hybrid-4?"}},
		{"order --motor " + broken, []string{"broken.toml:3:1", "pole_pears", `did you mean "pole_pairs"?`}},
		{"check nowhere.c", []string{"nowhere.c", "no such file"}},
		{"check", []string{"exactly one file with a step table"}},
		{"check - --wiring A+,B+,A-", []string{"not 3", "A+,B+,A-,B-"}},
		{"check - --direction reverse", []string{"needs the wiring"}},
		{"order --start x", []string{"--start", "whole number"}},
		{"motors new /nowhere/at/all.toml", []string{"no folder"}},
		{"check - --wiring A+,B+,A-,A+", []string{"twice"}},
		{"check - --bits middle", []string{"msb, lsb"}},
		{"check - --pins five", []string{"five"}},
		{"check " + folder, []string{"this is a folder"}},
		{"shaft --train 9", []string{`"9" is no mesh`}},
		{"shaft --turn 90", []string{"90 has no unit"}},
		{"shaft --turn 90deg --stops 4", []string{"one of --turn, --steps and --stops"}},
		{"shaft --stops 0", []string{"1 to 1000000"}},
		{"shaft --believe x", []string{"64:1", "2048"}},
		{"shaft --rings 4", []string{"--rings and --teeth go together"}},
		{"shaft --rings 3 --teeth 8", []string{"no two-phase motor"}},
		{"shaft --step-angle 0deg", []string{"up to 90°"}},
		{"shaft --train 9:32 --backlash 1deg,2deg", []string{"2 angles of backlash for 1 meshes"}},
		{"shaft --backlash 3", []string{"3 has no unit"}},
		{"shaft --teeth -2 --rings 4", []string{"--teeth -2 can not be counted"}},
		{"shaft --observed 200=45", []string{"--observed", "200 steps = 45 deg"}},
		{"leads", []string{"exactly one file of readings", "--answers"}},
		{"leads --answers nowhere.txt --coils BK/GN,RD/BU", []string{"nowhere.txt", "no such file"}},
		{"leads --answers -", []string{"what the motor is is missing"}},
		{"leads - --answers -", []string{"can not come from standard input together"}},
		{"leads --answers - --ends BN,WH,GN", []string{"3 leads are given where four"}},
		{"leads --answers - --ends BN,WH,GN,GY", []string{"--ends needs --common"}},
		{"leads --answers - --ends BN,WH,GN,GY --common BN", []string{"BN stands twice"}},
		{"leads --answers - --ends BN,WH,GN,GY --taps VT", []string{"two are wanted"}},
		{"leads --answers - --ends BN,WH,GN,GY --taps VT,PK,TQ", []string{"of the first and third end"}},
		{"leads --answers - --coils BK,GN", []string{`"BK" is no coil`}},
		{"leads --answers - --coils BK/GN", []string{"two are wanted for 4 leads"}},
		{"leads --answers - --taps BK,GN", []string{"go with --ends"}},
		{"leads ../../testdata/readings/broken.csv --answers -", []string{"do not settle"}},
		{"leads -", []string{"no reading stands here", "BN, VT, 52"}},
		{"faults", []string{"exactly one file of symptoms"}},
		{"faults - --motor -", []string{"can not both come from standard input"}},
		{"faults nowhere.txt", []string{"nowhere.txt", "no such file"}},
		{"rates --stage bridge", []string{"a bridge can not drive 5 leads", "darlington or mosfet"}},
		{"rates --stage mosfett", []string{"did you mean mosfet?"}},
		{"rates --motor hybrid-4 --stage darlington", []string{"can not drive 4 leads", "a bridge for each coil is wanted: bridge,"}},
		{"read ../../testdata/recordings/flap.vcd --motor hybrid-6 --stage chopper", []string{"can not feed a unipolar drive"}},
		{"rates --ring 90 --starts 600", []string{"both fit the inertia"}},
		{"rates --ring 0", []string{"above 0, in Hz"}},
		{"rates --starts 99999", []string{"no inertia makes the motor start"}},
		{"rates --for 0", []string{"above 0"}},
		{"rates --backlash 3", []string{"3 has no unit"}},
		{"rates --motor hybrid-4 --backlash 3deg", []string{"without a gear train"}},
		{"rates --supply 12", []string{"12 has no unit"}},
		{"rates --plot curves.pdf", []string{"none of .csv, .svg and .png"}},
		{"rates --plot curves", []string{"--plot: the name \"curves\" has no ending; one in .csv, .svg or .png is wanted"}},
		{"motors", []string{"list, show, check or new"}},
		{"motors shwo", []string{`"coilwalk motors show"`}},
		{"motors show", []string{"exactly one motor"}},
		{"motors check " + broken, []string{"broken.toml:3:1"}},
		{"motors new " + broken, []string{"is there already", "--force"}},
		{"--json", []string{"no JSON"}},
		{"", []string{"needs a terminal", "--plain"}},
		{"--theme dusk --plain", []string{"auto, dark, light"}},
		{"-", []string{"standard input"}},
		{"--motor - --plain", []string{"standard input"}},
		{"check - --motor -", []string{"both come from standard input"}},
		{broken, []string{"broken.toml:3:1"}},
		{broken + " --motor can-48", []string{"give one of them"}},
	} {
		t.Run(b.args, func(t *testing.T) {
			call(t, "", strings.Fields(b.args)...).complains(t, b.want...)
		})
	}
}

// A test that would do harm, or tell nothing, is refused with its line.
func TestBadShaftAnswers(t *testing.T) {
	for _, b := range []struct {
		in, args string
		want     []string
	}{
		{"# one coil\nkick BK GN slack\n", "--coils BK/GN,RD/BU", []string{":2: ", "short the supply", "as kick BK RD"}},
		{"stiff BU RD yes\n", "--coils BK/GN,RD/BU", []string{":1: ", "short the supply", "as stiff BU BK"}},
		{"short BN GN free\n", "--ends BN,WH,GN,GY --common VT", []string{":1: ", "every pair brakes"}},
	} {
		call(t, b.in, append([]string{"leads", "--answers", "-"}, strings.Fields(b.args)...)...).complains(t, b.want...)
	}
}

func TestHelpGoesToStandardOutput(t *testing.T) {
	for _, args := range []string{"--help", "order --help", "check --help", "motors --help", "motors new --help"} {
		r := call(t, "", strings.Fields(args)...)
		if r.status != 0 || r.errs != "" || !strings.Contains(r.out, "Usage:") {
			t.Errorf("%s: status %d, said %q", args, r.status, r.errs)
		}
	}
}

// The rates of the built-in motor, as figures that another machine's rounding can
// not move far; and a rate that is not followed ends with 1.
func TestRates(t *testing.T) {
	folder := t.TempDir()
	var object struct {
		Coilwalk           int
		Motor, Mode, Stage string
		StartStop          float64 `json:"start_stop"`
		PullOut            float64 `json:"pull_out"`
		Holes, Windows     [][2]float64
		Estimates, Curve   []map[string]any
		For                struct {
			Followed, Starts bool
			RampFrom         *float64 `json:"ramp_from"`
			Text             string
		}
		Response struct {
			Overshoot float64
			RingHz    float64 `json:"ring_hz"`
		}
		Reversal struct {
			Play   float64 `json:"play_rows"`
			Stands float64 `json:"stands_rows"`
			Lost   int     `json:"lost_rows"`
		}
		Compared []struct {
			Mode      string
			StartStop float64 `json:"start_stop_full"`
		}
	}
	r := call(t, "", "rates", "--for", "300", "--backlash", "8deg", "--json")
	if err := json.Unmarshal([]byte(r.out), &object); err != nil || r.status != 0 {
		t.Fatalf("status %d, %v, said %q:\n%s", r.status, err, r.errs, r.out)
	}
	// 8° of the shaft are 60.4 half steps; what friction holds stands for as many.
	if o := object; math.Abs(o.Reversal.Play-60.4) > 0.05 || math.Abs(o.Reversal.Stands-60.4) > 2 || o.Reversal.Lost != 0 ||
		len(o.Compared) != 2 || o.Compared[0].Mode != "full" || o.Compared[1].Mode != "half" || math.Abs(2*o.Compared[1].StartStop-o.StartStop) > 2 {
		t.Errorf("%+v, %+v", o.Reversal, o.Compared)
	}
	r = call(t, "", "rates", "--for", "1500", "--curve", "--plot", filepath.Join(folder, "c.svg"), "--json")
	if err := json.Unmarshal([]byte(r.out), &object); err != nil || r.status != 0 {
		t.Fatalf("status %d, %v, said %q:\n%s", r.status, err, r.errs, r.out)
	}
	if o := object; o.Coilwalk != 1 || o.Motor != "vent-flap" || o.Stage != "darlington" || o.StartStop < 900 || o.StartStop > 1500 || o.PullOut < 2000 ||
		len(o.Holes) != 0 || o.For.Starts || !o.For.Followed || o.For.RampFrom == nil || len(o.Curve) != 16 || len(o.Estimates) < 2 || o.Response.RingHz < 80 || o.Response.RingHz > 110 {
		t.Errorf("%+v", o)
	}
	if svg, err := os.ReadFile(filepath.Join(folder, "c.svg")); err != nil || !strings.Contains(string(svg), "<svg") || !strings.Contains(string(svg), "pull-out") {
		t.Errorf("the plot: %v\n%.200s", err, svg)
	}
	for name, begins := range map[string]string{"c.png": "\x89PNG", "c.csv": "load_nm,"} {
		call(t, "", "rates", "--motor", "hybrid-4", "--mode", "full", "--plot", filepath.Join(folder, name))
		if text, err := os.ReadFile(filepath.Join(folder, name)); err != nil || !strings.HasPrefix(string(text), begins) {
			t.Errorf("%s: %v, begins %.10q", name, err, text)
		}
	}
	kept := filepath.Join(folder, "c.csv")
	if err := os.WriteFile(kept, []byte("measured by hand\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	plot := []string{"rates", "--motor", "hybrid-4", "--mode", "full", "--plot", kept}
	call(t, "", plot...).complains(t, "c.csv: this file is there already", "--force")
	if text, err := os.ReadFile(kept); err != nil || string(text) != "measured by hand\n" {
		t.Errorf("what was there is now %.60q, %v", text, err)
	}
	r = call(t, "", append(plot, "--force")...)
	if text, err := os.ReadFile(kept); r.status != 0 || err != nil || !strings.HasPrefix(string(text), "load_nm,") {
		t.Errorf("with --force: status %d, %.60q, %v", r.status, text, err)
	}
	r = call(t, "", "rates", "--motor", "hybrid-4", "--mode", "full", "--for", "250")
	if r.status != 1 || !strings.Contains(r.out, "a resonance lies there") || !strings.Contains(r.out, "then again up to") ||
		!strings.Contains(r.out, "half step starts to 20") || !strings.Contains(r.out, "so it can not be turned round there") {
		t.Errorf("status %d:\n%s", r.status, r.out)
	}
	r = call(t, "", "rates", "--motor", "hybrid-4", "--for", "90000")
	if r.status != 1 || !strings.Contains(r.out, "does not follow 90000 rows/s") {
		t.Errorf("status %d:\n%s", r.status, r.out)
	}
}
