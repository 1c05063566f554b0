//go:build linux

package handoff

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"coilwalk/model/live"
)

// A firmware with Firmata that is not ours, in the simulator: our link opens it, says
// that it has no guard, and what it acknowledges is what the pins did. It comes in a
// package of npm, is fetched for the check, and is no part of the project.
func TestReferenceStandardFirmware(t *testing.T) {
	const name, image = "avrgirl-arduino", "junk/hex/uno/StandardFirmata.cpp.hex"
	rigText, err := os.ReadFile(filepath.Join(references, "serial", "rig.c"))
	if err != nil {
		t.Fatal(err)
	}
	o := outside{}
	hash := o.hash(t, map[string][]byte{"rig.c": rigText, "package": []byte(choose(t, []string{name})[0].integrity)})
	recording := filepath.Join(references, "serial", "standard.txt")
	required, record := os.Getenv("COILWALK_TOOLS") == "required", os.Getenv("COILWALK_RECORD") != ""
	var said string
	if required || record {
		said = standardRun(t, name, image)
	}
	if record {
		if err := os.WriteFile(recording, []byte("# SHA-256 of the input: "+hash+"\n"+said), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(recording)
	if err != nil {
		t.Fatal(err)
	}
	head, body, _ := strings.Cut(string(text), "\n")
	if head != "# SHA-256 of the input: "+hash {
		t.Fatalf("%s is out of date: the input of today has the hash %s; .ci/record renews it", recording, hash)
	}
	if required {
		t.Log("serial/standard: live")
		if said != body {
			t.Errorf("a new run says\n%s", said)
		}
	} else {
		t.Log("serial/standard: recorded")
	}
	var rows []string
	for _, row := range standardRows {
		rows = append(rows, row.String())
	}
	want := "guard false, pins [8 9 10 11]\nacknowledged " + strings.Join(rows, " ") + "\npins " + strings.Join(append(rows, "0000"), " ") + "\n"
	if body != want {
		t.Errorf("it says\n%s\nwant\n%s", body, want)
	}
}

// standardRows are two cycles of half step, and rows that no order has; no two
// alike follow one another.
var standardRows = []live.Row{1, 3, 2, 6, 4, 12, 8, 9, 1, 3, 2, 6, 4, 12, 8, 9, 5, 15, 10, 7, 11}

// standardRun drives it.
func standardRun(t *testing.T, name, image string) string {
	t.Helper()
	folder := t.TempDir()
	install(t, folder, name)
	rig := filepath.Join(folder, "rig")
	if out, err := exec.Command("gcc", "-std=c99", "-O1", "-I/usr/include/simavr", "-o", rig, filepath.Join(references, "serial", "rig.c"), "-lsimavr", "-lelf", "-lutil").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	line, pins := filepath.Join(folder, "line"), filepath.Join(folder, "pins.vcd")
	cmd := exec.Command(rig, "-u", line, "-v", pins, "-t", "0", filepath.Join(folder, "node_modules", name, filepath.FromSlash(image)))
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer cmd.Process.Kill()
	for range 500 {
		if _, err := os.Stat(line); err == nil {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	board, err := live.Open(line, live.Wanted{Baud: UsualBaud})
	if err != nil {
		t.Fatal(err)
	}
	defer board.Close()
	if err := board.Arm(); err != nil {
		t.Fatal(err)
	}
	heard := func(number uint64) live.Event {
		for {
			select {
			case e := <-board.Events():
				if e.Number >= number || e.Kind != live.Heard {
					return e
				}
			case <-time.After(20 * time.Second):
				t.Fatal("no answer")
			}
		}
	}
	var rows []string
	for _, row := range standardRows {
		if _, err := board.Set(row, live.AllOutputs); err != nil {
			t.Fatal(err)
		}
		number, err := board.Ping() // and every pin's state
		if err != nil {
			t.Fatal(err)
		}
		e := heard(number)
		if e.Kind != live.Heard {
			t.Fatalf("row %s is answered by %+v", row, e)
		}
		rows = append(rows, e.Row.String())
	}
	about := board.About()
	if err := board.Close(); err != nil {
		t.Error(err)
	}
	time.Sleep(100 * time.Millisecond)
	if err := cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil {
		t.Error(err)
	}
	text, err := os.ReadFile(pins)
	if err != nil {
		t.Fatal(err)
	}
	var stood []string
	moments, _ := edges(t, benchWalk(t, false), text) // from when all four are outputs
	for _, m := range moments {
		if bits := m.Row.Bits(); len(stood) > 0 || bits != "0000" {
			stood = append(stood, bits)
		}
	}
	return fmt.Sprintf("guard %v, pins %v\nacknowledged %s\npins %s\n", about.Guard.Known, about.Pins, strings.Join(rows, " "), strings.Join(stood, " "))
}
