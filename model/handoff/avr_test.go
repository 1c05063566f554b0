package handoff

import (
	"bytes"
	"context"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"coilwalk/model/course"
	"coilwalk/model/files"
	"coilwalk/model/recording"
	"coilwalk/sequence"
)

// simulated compiles the stepping source for an 8-bit controller and runs it in
// a simulator of that; both are not ours. What the pins did comes back as VCD.
func simulated(t *testing.T, name string, w *Walk, legs []leg) []byte {
	t.Helper()
	bits := strings.Trim(strings.ReplaceAll(tuple(w.Board.Bits), ",", ""), "()")
	run := outside{name: "avr/" + name, given: map[string][]byte{"coil.c": made(t, "c", w), "plan.h": planHead(legs)}, sources: []string{"avr/main.c", "avr/rig.c"},
		command: "avr-gcc -mmcu=atmega328p -std=c99 -Os -Wall -Wextra -Werror -pedantic -o image.elf main.c && " +
			"gcc -std=c99 -O1 -I/usr/include/simavr -o rig rig.c -lsimavr -lelf && ./rig image.elf pins.vcd " + strings.TrimPrefix(w.Board.Port, "PORT") + " " + bits + " >said 2>&1 || { cat said >&2; exit 1; }",
		version: "echo $(avr-gcc --version | head -n 1), simavr $(dpkg-query -W -f '${Version}' libsimavr-dev)", result: "pins.vcd"}
	return run.said(t)
}

// edges reads the recording as moments, from when all pins are known.
func edges(t *testing.T, w *Walk, vcd []byte) (moments []Moment, tick float64) {
	t.Helper()
	r, err := recording.Open(files.Standard, bytes.NewReader(vcd), recording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if err := r.Watch([]int{0, 1, 2, 3}); err != nil {
		t.Fatal(err)
	}
	into := make([]recording.Sample, 100)
	for {
		n, err := r.Next(into)
		for _, s := range into[:n] {
			if s.Unknown != 0 {
				continue
			}
			var row sequence.Row
			for k := range row {
				if (s.High>>k&1 == 1) != w.Board.ActiveLow {
					row[k] = 1
				}
			}
			moments = append(moments, Moment{s.At, row})
		}
		if errors.Is(err, io.EOF) {
			return moments, r.Tick
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// The loop through two programs that are not ours: the source that is written,
// compiled for a controller with every warning an error, run in a simulator, its
// pins recorded, read by our reader of recordings, and found to be the order and
// the ramp that were asked for, row by row and to the timer tick.
func TestReferenceSteppingOnAController(t *testing.T) {
	for _, c := range []struct {
		name               string
		activeLow, idleOff bool
		port               string
		bits               [4]int
		legs               []leg
	}{
		{"held", false, false, "PORTB", [4]int{0, 1, 2, 3}, plan},
		{"modes", false, false, "PORTB", [4]int{0, 1, 2, 3}, orderly},
		{"modes-off", true, true, "PORTB", [4]int{1, 3, 5, 0}, orderly},
		{"off", true, true, "PORTD", [4]int{7, 5, 6, 3}, plan},
		// 90 degrees of the vent flap there and back: 149408/55/4 half steps
		{"flap", false, true, "PORTB", [4]int{0, 1, 2, 3}, []leg{{sequence.Half, 679, 0}, {sequence.Half, -679, 0}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := ramped(t, sequence.Half)
			w.Stepper, w.IdleOff, w.Board = true, c.idleOff, Board{Port: c.port, Bits: c.bits, ActiveLow: c.activeLow}
			vcd := simulated(t, c.name, w, c.legs)
			w.sameEdges(t, vcd, c.legs)
			if c.name != "held" && c.name != "off" {
				w.cleanBill(t, vcd, c.legs)
			}
		})
	}
}

// sameEdges holds each moment against the plan: the row exactly, and its time
// from the first of its leg, so that no error may add up. How late the interrupt
// comes to its write differs by some clock cycles from row to row.
func (w *Walk) sameEdges(t *testing.T, vcd []byte, legs []leg) {
	t.Helper()
	got, unit := edges(t, w, vcd)
	want, _ := w.stands(legs)
	worst, k := 0.0, 0
	// the pins of a controller that has just been switched on are no outputs yet
	for k < len(got) && got[k].Row != want[0][0].row {
		k++
	}
	for n, l := range want {
		var first int64
		for i, s := range l {
			if k >= len(got) {
				t.Fatalf("the recording ends before row %d of leg %d", i+1, n)
			}
			if got[k].Row != s.row {
				t.Fatalf("row %d of leg %d is %s, want %s", i+1, n, got[k].Row.Bits(), s.row.Bits())
			}
			if i == 0 {
				first = got[k].At
			}
			apart := float64(got[k].At-first)*unit/w.Pace.seconds(1) - float64(s.at)
			worst = max(worst, math.Abs(apart))
			k++
		}
	}
	if k != len(got) {
		t.Errorf("%d moments more than were meant", len(got)-k)
	}
	t.Logf("worst time: %.3f ticks off, over %d rows", worst, k)
	if worst >= 1 {
		t.Errorf("a row is %.3f ticks from its time", worst)
	}
}

// cleanBill asks the reader of recordings, as coilwalk read does.
func (w *Walk) cleanBill(t *testing.T, vcd []byte, legs []leg) {
	t.Helper()
	r, err := recording.Open(files.Standard, bytes.NewReader(vcd), recording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	loading, err := course.Begin(r, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := loading.Rows(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	v := course.Judge(rows, loading.Choice.Outputs, course.Question{Wiring: &w.Motor.Wiring, Active: map[bool]course.Level{false: course.High, true: course.Low}[w.Board.ActiveLow]})
	if !v.Sound {
		t.Errorf("not sound")
	}
	for _, f := range v.Faults {
		t.Errorf("a fault is told, %s at %.6f s, row %d: %s", f.Kind, rows.Seconds(f.At), f.Row, f.Text)
	}
	if len(v.Runs) != len(legs) {
		t.Fatalf("%d runs are told of %d legs", len(v.Runs), len(legs))
	}
	for k, run := range v.Runs {
		way, rows := sequence.Forward, int64(len(w.waits(legs[k])))
		if legs[k].rows < 0 {
			way = sequence.Reverse
		}
		// the row that stood before a run may be counted to it
		if run.Mode != legs[k].mode.Name || run.Direction != way || run.Rows < rows || run.Rows > rows+1 {
			t.Errorf("run %d is told as %s %s with %d rows, want %s %s with %d", k+1, run.Mode, run.Direction, run.Rows, legs[k].mode.Name, way, rows)
		}
	}
}
