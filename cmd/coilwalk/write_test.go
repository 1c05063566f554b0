package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"coilwalk/model/handoff"
	"coilwalk/model/motor"
)

func TestWriteReplacesNothingUnasked(t *testing.T) {
	file := filepath.Join(t.TempDir(), "flap.c")
	r := call(t, "", "write", "c", "--out", file)
	first, err := os.ReadFile(file)
	if r.status != 0 || err != nil || !strings.HasPrefix(r.out, "Written: "+file) {
		t.Fatalf("status %d, %v, said %q", r.status, err, r.out+r.errs)
	}
	if r = call(t, "", "write", "c", "--out", file, "--mode", "wave"); r.status != 2 || !strings.Contains(r.errs, "is there already; choose another name, or give --force") {
		t.Errorf("status %d, said %q", r.status, r.errs)
	}
	if same, _ := os.ReadFile(file); string(same) != string(first) {
		t.Error("the file was replaced")
	}
	if r = call(t, "", "write", "c", "--out", file, "--mode", "wave", "--force"); r.status != 0 {
		t.Errorf("status %d, said %q", r.status, r.errs)
	}
	if other, _ := os.ReadFile(file); string(other) == string(first) || len(other) == 0 {
		t.Error("the file was not replaced")
	}
}

// What was written is what check and read take from it.
func TestWhatIsWrittenIsSound(t *testing.T) {
	folder := t.TempDir()
	for _, kind := range []string{"c", "cpp", "rust", "python", "csv", "vcd"} {
		for _, mode := range []string{"wave", "full", "half"} {
			file := filepath.Join(folder, kind+mode)
			ending := map[string]string{"c": ".c", "cpp": ".cpp", "rust": ".rs", "python": ".py", "csv": ".csv", "vcd": ".vcd"}[kind]
			if r := call(t, "", "write", kind, "--mode", mode, "--out", file+ending); r.status != 0 {
				t.Fatalf("%s: %s", kind, r.errs)
			}
			command := "check"
			if kind == "vcd" {
				command = "read"
			}
			args := []string{command, file + ending, "--motor", "vent-flap"}
			if kind != "vcd" && kind != "python" && kind != "csv" {
				args = append(args, "--bits", "lsb") // output 1 is on bit 0
			}
			if r := call(t, "", args...); r.status != 0 || !strings.Contains(r.out, "sound") {
				t.Errorf("%v: status %d\n%s%s", args, r.status, r.out, r.errs)
			}
		}
	}
}

// The simulator's recording of the firmware that was written, there and back by 90
// degrees of the flap, has a clean bill; the motor follows it.
func TestTheControllersRecordingIsClean(t *testing.T) {
	text, err := os.ReadFile("../../testdata/reference/avr/flap.txt")
	if err != nil {
		t.Fatal(err)
	}
	for range 3 { // the head
		_, after, _ := strings.Cut(string(text), "\n")
		text = []byte(after)
	}
	r := call(t, string(text), "read", "-", "--motor", "vent-flap", "--rotor")
	if r.status != 0 || !strings.Contains(r.out, "loses no step") || !strings.Contains(r.out, "commanded position 0.0 full steps") {
		t.Errorf("status %d, said\n%s%s", r.status, r.out, r.errs)
	}
}

// The card says of every built-in motor what goes where, in words.
func TestTheCardNamesEveryLead(t *testing.T) {
	for _, name := range motor.Names() {
		m, _ := motor.BuiltIn(name)
		r := call(t, "", "write", "card", "--motor", name, "--mode", "full")
		if r.status != 0 {
			t.Fatalf("%s: %s", name, r.errs)
		}
		for k := range 4 {
			lead := m.Output(m.Wiring, k)
			for _, words := range []string{">" + string(lead) + "<", ">" + lead.Words() + "<", ">" + m.Wiring[k].String() + "<"} {
				if !strings.Contains(r.out, words) {
					t.Errorf("the card of %s does not say %s", name, words)
				}
			}
		}
		if drives := m.Drives(); len(drives) > 1 {
			if r := call(t, "", "write", "card", "--motor", name, "--drive", drives[1].String(), "--mode", "micro"); r.status != 0 {
				t.Errorf("%s: %s", name, r.errs)
			}
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	for _, c := range []struct{ args, says string }{
		{"write c --start 300/s", "--start goes with --accel"},
		{"write c --accel 500 --ramp 20000,15000", "--ramp and --accel both say how a move speeds up"},
		{"write c --accel 500 --rate 900/s --start 1000/s", "is above --rate"},
		{"write c --accel 0.001 --rate 900/s", "to speed up from 0 to 900 rows a second takes"},
		{"write c --baud 9600", "--baud goes with firmware only"},
		{"write firmware --mode full", "--mode says nothing of firmware: what rows there are, and when, is told it on its serial line"},
		{"write firmware --ramp 20000,15000", "--ramp says nothing of firmware"},
		{"write firmware --stepper", "--stepper says nothing of firmware"},
		{"write firmware --rows 64", "--rows goes with vcd only"},
		{"write firmware --bits 0,1,2,8", "PORTB has no bit 8; it has bits 0 to 7"},
		{"write firmware --port PORTC", "pins 14 and 16 do not change in one message"},
		{"write firmware --port PORTA", "give those of outputs 1 to 4, as --pins 24,25,26,27"},
		{"write firmware --port PORTD", "pins 0 and 1 are the serial line"},
		{"write firmware --baud 1200", "9600 to 250000 are wanted"},
		{"write firmware --clock 1MHz", "gets no nearer to 57600 baud than +8.5 %"},
		{"write", "one kind of file is wanted: c, cpp"},
		{"write micropyton", `did you mean "coilwalk write micropython"?`},
		{"write fortran", `"fortran" is no kind of file; c, cpp`},
		{"write micropython", "as --pins 2,3,4,5"},
		{"write c --port 8PORT", `--port: "8PORT" is no name of a register`},
		{"write c --bits 0,1,2", "four bits are wanted"},
		{"write c --bits 0,1,2,2", "bit 2 stands there twice"},
		{"write c --bits 0,1,2,16", `"16" is no bit; a number from 0 to 15`},
		{"write c --mode micro", "needs currents between off and on"},
		{"write rust --stepper", "stepping source in c and cpp only"},
		{"write c --ramp 100,30", "interval 2 is 30 ticks, 15 us; 20 us is the least"},
		{"write c --ramp 1000,2000", "longer than the 1000 before it"},
		{"write c --ramp 9000,2000", "less than a quarter of the 9000 before it"},
		{"write c --ramp 9000,7000 --rate 100/s", "--rate is for a move without a ramp"},
		{"write c --ramp /no/such", "/no/such"},
		{"write c --rate 0/s", "a rate of 0 rows a second is none"},
		{"write c --rate 1e-6/s", "2^31 is the most"},
		{"write c --clock 0Hz", "1 Hz to 1 GHz is wanted"},
		{"write c --clock 1.5Hz", "whole cycles a second are wanted"},
		{"write c --prescale 0", "a prescale of 0 is none"},
		{"write c --rows 10", "--rows goes with vcd only"},
		{"write vcd --rows 7", "from one cycle, 8"},
		{"write c --drive bipolar", "so its drive is unipolar"},
		{"write card --out card.pdf", `a card can not be written as ".pdf"; a name that ends in .svg, .html, .png is wanted`},
		{"write card --stepper", "stepping source in c and cpp only"},
		{"write c --out /no/such/folder/x.c", "/no/such/folder"},
	} {
		r := call(t, "", strings.Fields(c.args)...)
		if r.status != 2 || !strings.Contains(r.errs, c.says) || strings.Count(r.errs, "\n") != 1 || r.out != "" {
			t.Errorf("%s: status %d, said %q%q, want %q", c.args, r.status, r.out, r.errs, c.says)
		}
	}
}

// The bench firmware goes into a file as it is printed, and what is said of it is
// what its board needs.
func TestWriteFirmware(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bench.c")
	printed := call(t, "", "write", "firmware", "--active", "low", "--port", "PORTC", "--bits", "5,4,3,2", "--baud", "38400")
	r := call(t, "", "write", "firmware", "--active", "low", "--port", "PORTC", "--bits", "5,4,3,2", "--baud", "38400", "--out", file)
	text, err := os.ReadFile(file)
	if r.status != 0 || err != nil || string(text) != printed.out {
		t.Fatalf("status %d, %v, %d and %d bytes: %s", r.status, err, len(text), len(printed.out), r.errs)
	}
	for _, words := range []string{"read back and found to be for the board that was meant", "Caution: in reset and in its boot loader a pin floats: put 10 kOhm from each output's pin to the logic supply"} {
		if !strings.Contains(r.out, words) {
			t.Errorf("%q is not said in\n%s", words, r.out)
		}
	}
	for _, words := range []string{"\n#define COIL_PORT PORTC ", "\n#define COIL_PIN_1 19 ", "\n#define COIL_BIT_4 2\n", "\n#define COIL_ON 0 ", "\n#define BAUD 38400UL\n"} {
		if !strings.Contains(printed.out, words) {
			t.Errorf("%q is not in the file", words)
		}
	}
	told := call(t, "", "write", "firmware", "--json")
	for _, words := range []string{`"mode": null`, `"rate": null`, `"kind": "firmware"`} {
		if !strings.Contains(told.out, words) {
			t.Errorf("the JSON has not %s: %.300s", words, told.out)
		}
	}
}

// What does not read back is a fault of ours, not of the person's.
func TestUnprovenIsOurFault(t *testing.T) {
	var errs strings.Builder
	p := &program{errs: &errs}
	if got := p.status(fmt.Errorf("%w (c: a reason)", handoff.ErrUnproven)); got != exitOurs || !strings.Contains(errs.String(), "nothing was written (c: a reason); this is a fault of coilwalk's own") {
		t.Errorf("status %d, said %q", got, errs.String())
	}
}

// What is written for leads on other outputs than the motor states is sound when it is
// checked for that motor: its head says the plug that it was made for. Another wiring
// that is given counts, and a file that says nothing is held against the motor's.
func TestTheHeadsPlugCounts(t *testing.T) {
	file := filepath.Join(t.TempDir(), "moved.c")
	if r := call(t, "", "write", "c", "--wiring", "A+,A-,B+,B-", "--out", file); r.status != 0 {
		t.Fatal(r.errs)
	}
	r := call(t, "", "check", file, "--motor", "vent-flap")
	if r.status != 0 || !strings.Contains(r.out, "sound: half step, forward") || !strings.Contains(r.out, "The file's head has the leads otherwise than the motor states: WH and GN swapped.") {
		t.Errorf("status %d:\n%s", r.status, r.out)
	}
	if r := call(t, "", "check", file, "--motor", "vent-flap", "--wiring", "A+,B+,A-,B-"); r.status != 1 || strings.Contains(r.out, "The file's head") {
		t.Errorf("status %d:\n%s", r.status, r.out)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	silent := strings.ReplaceAll(string(text), "coil end", "end")
	if r := call(t, silent, "check", "-", "--motor", "vent-flap"); r.status != 1 || strings.Contains(r.out, "The file's head") {
		t.Errorf("status %d:\n%s", r.status, r.out)
	}
}

// The command that ramp tells makes the ramp that it showed: its intervals are the same
// to a tick.
func TestTheCommandOfRampMakesItsRamp(t *testing.T) {
	r := call(t, "", "ramp", "--turn", "360deg", "--rate", "1500")
	_, command, told := strings.Cut(r.out, "a file with such a ramp: coilwalk ")
	command, _, _ = strings.Cut(command, "\n")
	_, shown, listed := strings.Cut(r.out, "from each row to the next:\n")
	if r.status != 0 || !told || !listed {
		t.Fatalf("status %d:\n%s", r.status, r.out)
	}
	made := call(t, "", strings.Fields(command)...)
	_, ramp, _ := strings.Cut(made.out, "coil_ramp[")
	_, ramp, _ = strings.Cut(ramp, "{")
	ticks := strings.FieldsFunc(ramp, func(r rune) bool { return r < '0' || r > '9' })
	for k, want := range strings.Fields(shown)[:12] {
		a, _ := strconv.Atoi(want)
		b, err := strconv.Atoi(ticks[k])
		if err != nil || a < 100 || a-b > 1 || b-a > 1 {
			t.Errorf("row %d: %s ticks are told, %s written", k+1, want, ticks[k])
		}
	}
}
