package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// hour writes a recording of a half-step walk of an hour, a row a second, as a
// VCD of four pins; wrong puts in what the newcomer got wrong: pins 2 and 3
// exchanged, a row skipped after the hour, and a last run far above any start.
func hour(t *testing.T, wrong bool) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "hour.vcd")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	fmt.Fprint(f, "$timescale 1 us $end\n$var wire 1 a IN1 $end\n$var wire 1 b IN2 $end\n$var wire 1 c IN3 $end\n$var wire 1 d IN4 $end\n$enddefinitions $end\n#0\n0a\n0b\n0c\n0d\n")
	half := [8]string{"1000", "1100", "0100", "0110", "0010", "0011", "0001", "1001"}
	last, r := "0000", rand.New(rand.NewPCG(3, 4))
	at, row := 1e6, 0
	put := func(interval float64) {
		next := half[row%8]
		if wrong {
			next = next[:1] + next[2:3] + next[1:2] + next[3:]
		}
		fmt.Fprintf(f, "#%d\n", int64(at))
		for k := range next {
			if next[k] != last[k] {
				fmt.Fprintf(f, "%c%c\n", next[k], "abcd"[k])
			}
		}
		last, row, at = next, row+1, at+interval*(0.99+0.02*r.Float64())
	}
	for k := range 3_625 {
		if k == 3_600 && wrong {
			row++
		}
		put(1_000_000)
	}
	at += 3e6
	for range 300 {
		if wrong {
			put(100) // 10 000 rows a second from a stand
		} else {
			put(2_000)
		}
	}
	at += 1e6
	fmt.Fprintf(f, "#%d\n", int64(at))
	return name
}

// hybrid is a motor file in which nothing that rates hang on is left to be
// estimated but the damping.
const hybrid = `name = "bench-hybrid"
title = "hybrid, 4 leads"

[winding]
ends = ["BK", "RD", "GN", "BU"]

[rotor]
pole_pairs = 50

[wiring]
outputs = ["BK", "RD", "GN", "BU"]

[figures]
current = "1.5 A"
resistance = "2 ohm"
inductance = "3 mH"
holding_torque = "40 N.cm"
detent_torque = "2 N.cm"
inertia = "54 g.cm2"
friction = "1 mN.m"
`

func TestThreeFaultsOfAnHour(t *testing.T) {
	motor := filepath.Join(t.TempDir(), "hybrid.toml")
	if err := os.WriteFile(motor, []byte(hybrid), 0o644); err != nil {
		t.Fatal(err)
	}
	r := call(t, "", "read", hour(t, true), "--motor", motor, "--json")
	if r.status != 1 || r.errs != "" {
		t.Fatalf("status %d, %s", r.status, r.errs)
	}
	var got struct {
		Sound  bool
		Faults []struct {
			Kind    string
			TimeS   float64 `json:"time_s"`
			Row     int64
			Caution bool
		}
	}
	if err := json.Unmarshal([]byte(r.out), &got); err != nil {
		t.Fatal(err)
	}
	var told []string
	for _, f := range got.Faults {
		told = append(told, fmt.Sprintf("%s@%d", f.Kind, f.Row))
	}
	if s := strings.Join(told, " "); s != "outputs-permuted@2 skipped-row@3601 fast-start@3626" || got.Sound {
		t.Errorf("told: %s", s)
	}
	if len(got.Faults) > 1 && (got.Faults[1].TimeS < 3600 || got.Faults[1].TimeS > 3602) {
		t.Errorf("the skipped row is told at %v s", got.Faults[1].TimeS)
	}
	sound := call(t, "", "read", hour(t, false), "--motor", motor)
	if sound.status != 0 || !strings.Contains(sound.out, "loses no step") {
		t.Errorf("the sound one: status %d\n%s%s", sound.status, sound.out, sound.errs)
	}
}

func TestReadRefuses(t *testing.T) {
	flap := "../../testdata/recordings/flap.vcd"
	for _, c := range []struct{ in, args, want string }{
		{"", "read " + flap + " --channels IN1,IN2", "--channels names 2 channels; 4 are wanted"},
		{"", "read " + flap + " --channels IN1,IN2,IN3,IN9", `it has no channel "IN9"; did you mean "IN`},
		{"", "read " + flap + " --edge falling", "--edge goes with --pins step-direction only"},
		{"", "read " + flap + " --rows --json", "--rows writes CSV"},
		{"", "read " + flap + " --at coils --active high", "--at coils says that a low level is on"},
		{"", "read " + flap + " --direction forward", "--direction needs the wiring"},
		{"", "read - --motor -", "can not both come from standard input"},
		{"", "read no-such.vcd", "there is no such file"},
		{"IN1,IN2,IN3,IN4\n0,0,0,1\n0,0,1,1\n", "read -", "no column is the time"},
		{"time,IN1,IN2,IN3,IN4\n0,0,0,0,1\n1,0,0,1,maybe\n", "read -", `standard input:3:9: "maybe" is no level`},
	} {
		r := call(t, c.in, strings.Fields(c.args)...)
		if r.status != 2 || !strings.Contains(r.errs, c.want) || strings.Count(r.errs, "\n") != 1 || r.out != "" {
			t.Errorf("%s: status %d, said %q, printed %q; want %q", c.args, r.status, r.errs, r.out, c.want)
		}
	}
}
