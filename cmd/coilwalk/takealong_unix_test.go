//go:build linux || darwin

package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// flapRamp is the ramp of the source that the simulator ran.
const flapRamp = "9000,6543,5000,4321,4000"

// The whole way: on the screen a stepping source is chosen for the vent flap's
// motor and saved; it is to the letter what the command writes. Compiled for a
// controller and run in a simulator by 90 degrees of the flap, there and back, its
// pins were recorded; opened in the explorer that recording has a clean bill.
func TestFromTheScreenToTheControllerAndBack(t *testing.T) {
	file := filepath.Join(t.TempDir(), "coil.c")
	x := open(t, reckoner, 120, 36)
	x.shows("row  1 of 8")
	x.press("A")
	x.shows("[Take Along]", "vent-flap.c", "read back: it is the half order")
	const down = "\x1b[B"
	x.press(down + down + right + down + enter + "PORTB" + enter)
	x.shows("stepper", "PORTB bit 3")
	x.press(down + down + down + down + right + down + down + enter + flapRamp + enter)
	x.shows("off", "as the ramp ends", "5 intervals")
	x.press("c")
	x.shows("sent to the clipboard; the terminal may refuse")
	x.press("s")
	x.shows("save it to which file?", "vent-flap.c")
	x.press(file + enter)
	x.shows("Written: " + file)
	x.press("s" + strings.Repeat(backspace, len("vent-flap.c")) + file + enter) // or edited
	x.shows("is there already; choose another name")
	x.press(escape)
	x.shows("q quit")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
	x.isRestored()

	saved, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	wrote := call(t, "", "write", "c", "--stepper", "--port", "PORTB", "--ramp", flapRamp, "--idle-off")
	if wrote.status != 0 || wrote.out != string(saved) {
		t.Errorf("status %d; the command writes another file than the screen:\n%s", wrote.status, wrote.out)
	}
	if _, after, ok := strings.Cut(string(x.sent()), "\x1b]52;c;"); !ok {
		t.Error("nothing was sent to the clipboard")
	} else {
		text, _, _ := strings.Cut(after, "\x1b\\")
		if got, err := base64.StdEncoding.DecodeString(text); err != nil || !bytes.Equal(got, saved) {
			t.Errorf("%v: the clipboard got %d bytes, the file has %d", err, len(got), len(saved))
		}
	}

	turn := call(t, "", "ramp", "--turn", "90deg", "--rate", "500/s", "--json")
	if !strings.Contains(turn.out, `"rows": 679,`) {
		t.Fatalf("90 degrees of the flap are other rows than 679:\n%s", turn.out)
	}
	vcd := filepath.Join(t.TempDir(), "flap.vcd")
	write(t, vcd, string(controllersRecording(t, saved, 679)))
	if r := call(t, "", "read", vcd, "--motor", "vent-flap", "--rotor"); r.status != 0 || !strings.Contains(r.out, "loses no step") || !strings.Contains(r.out, "commanded position 0.0 full steps") {
		t.Errorf("status %d, said\n%s%s", r.status, r.out, r.errs)
	}
	x = open(t, reckoner, 120, 36, vcd, "--motor", "vent-flap")
	x.shows("[ReCording]", "sound: half step", "Nothing is wrong in it, and vent-flap, run along it, loses no step", "half  forward", "half  reverse")
	x.press("\x1b[F") // to its end: the flap is where it was
	x.shows("commanded 0.0 steps, shaft 0.00")
	x.press("q")
	if status := x.ends(); status != 0 {
		t.Errorf("status %d", status)
	}
}

// controllersRecording gives what the pins of a controller did that a stepping
// source was compiled for and run on, so many rows there and back. The run is the
// one that model/handoff records: what it was given then has to be what it would
// be given now. With COILWALK_TOOLS=required it runs anew.
func controllersRecording(t *testing.T, source []byte, rows int) []byte {
	t.Helper()
	const references = "../../testdata/reference/avr"
	given := map[string][]byte{"coil.c": source, "plan.h": fmt.Appendf(nil, "#define PAUSE_TICKS 40000u\n"+
		"static const struct { uint8_t mode; int16_t rows; uint16_t stop_after; } plan[] = {\n    {COIL_HALF, %d, 0},\n    {COIL_HALF, %d, 0},\n};\n", rows, -rows)}
	for _, name := range []string{"main.c", "rig.c"} {
		text, err := os.ReadFile(filepath.Join(references, name))
		if err != nil {
			t.Fatal(err)
		}
		given[name] = text
	}
	text, err := os.ReadFile(filepath.Join(references, "flap.txt"))
	if err != nil {
		t.Fatal(err)
	}
	head := bytes.SplitN(text, []byte("\n"), 4)
	command := strings.TrimPrefix(string(head[0]), "# command: ")
	h := sha256.New()
	fmt.Fprintf(h, "%s\n", command)
	for _, name := range []string{"coil.c", "main.c", "plan.h", "rig.c"} {
		fmt.Fprintf(h, "%s %d\n%s", name, len(given[name]), given[name])
	}
	if want := fmt.Sprintf("# SHA-256 of the input: %x", h.Sum(nil)); string(head[2]) != want {
		t.Fatalf("flap.txt was not recorded of this source and this move: it says %s, want %s", head[2], want)
	}
	if os.Getenv("COILWALK_TOOLS") != "required" {
		t.Log("avr/flap: recorded")
		return head[3]
	}
	folder := t.TempDir()
	for name, text := range given {
		write(t, filepath.Join(folder, name), string(text))
	}
	c := exec.Command("sh", "-c", command)
	c.Dir = folder
	if said, err := c.CombinedOutput(); err != nil || len(said) > 0 {
		t.Fatalf("%s: %v\n%s", command, err, said)
	}
	live, err := os.ReadFile(filepath.Join(folder, "pins.vcd"))
	if err != nil || !slices.Equal(live, head[3]) {
		t.Errorf("%v: a new run says something else than the recording", err)
	}
	t.Log("avr/flap: live")
	return live
}
