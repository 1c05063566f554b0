package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// kept gives the pins of a run of the rig. With COILWALK_TOOLS=required it is run
// anew; else what was recorded counts, if it belongs to what would be given today.
// A run by hand and clock is never the same to the microsecond: each is judged by
// the same measure.
func kept(t *testing.T, name, active string, keys []string, live func(r *rig) (faultUS float64)) (file string, faultUS float64) {
	t.Helper()
	hash := inputHash(t, append([]string{benchFirmware(t, active)}, keys...)...)
	file = filepath.Join(serialRig, name+".vcd")
	required, record := os.Getenv("COILWALK_TOOLS") == "required", os.Getenv("COILWALK_RECORD") != ""
	if required || record {
		r := startRig(t, active)
		faultUS = live(r)
		text := r.ends()
		if !record {
			file = filepath.Join(t.TempDir(), "pins.vcd")
		}
		head := fmt.Sprintf("$comment\n   command: %s\n   input: %s\n   fault at us: %.0f\n$end\n", strings.Join(keys, " "), hash, faultUS)
		if err := os.WriteFile(file, append([]byte(head), text...), 0o644); err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: live", name)
		return file, faultUS
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(text, []byte("input: "+hash+"\n")) {
		t.Fatalf("%s is out of date: the input of today has the hash %s; .ci/record renews it", file, hash)
	}
	_, after, _ := strings.Cut(string(text), "fault at us: ")
	if _, err := fmt.Sscan(after, &faultUS); err != nil {
		t.Fatal(err)
	}
	t.Logf("%s: recorded", name)
	return file, faultUS
}

// armed starts coilwalk on a port and arms it.
func armed(t *testing.T, port string, args ...string) *terminal {
	t.Helper()
	x := open(t, binary, 80, 24, append([]string{"live", port}, args...)...)
	x.shows("LIVE off", "a arms it")
	x.press("a")
	x.shows("type on and press enter", "code", "hot", "release")
	time.Sleep(400 * time.Millisecond) // no hand is quicker
	x.press("on" + enter)
	x.shows("LIVE armed", "nothing is on yet")
	return x
}

// The way of a hand at the keys: rows forward, back, and a run; what the screen
// said, the record of the sitting and the pins of the simulated controller are the
// same rows.
func TestLiveWalk(t *testing.T) {
	for _, active := range []string{"high", "low"} {
		t.Run(active, func(t *testing.T) {
			t.Parallel()
			keys := []string{"the first row", "8 forward", "3 back", "wave drive", "2 forward", "full step", "1 forward", "1 back", "a run", "off"}
			file, _ := kept(t, "walk-"+active, active, keys, func(r *rig) float64 {
				sitting := filepath.Join(t.TempDir(), "sitting.vcd")
				x := armed(t, r.line, "--record", sitting)
				var claimed []string
				row := func(key string, words ...string) {
					x.press(key)
					text := x.shows(append(words, "LIVE on")...)
					_, after, _ := strings.Cut(text, "board  ")
					claimed = append(claimed, after[:4])
				}
				row(right, "step  0 ", "moved  not known")
				for k := 1; k <= 8; k++ {
					row(right, fmt.Sprintf("step  +%d ", k))
				}
				for k := 7; k >= 5; k-- {
					row(left, fmt.Sprintf("step  +%d ", k))
				}
				for _, key := range []string{"m", right, right, "m", right, left} { // microsteps are left out by m
					before := claimed[len(claimed)-1]
					x.press(key)
					x.until(func(text string) bool {
						_, after, _ := strings.Cut(text, "board  ")
						return strings.Contains(text, "LIVE on") && after[:4] != before
					})
					_, after, _ := strings.Cut(x.text(), "board  ")
					claimed = append(claimed, after[:4])
				}
				x.shows("full step")
				x.press(enter)
				x.shows("LIVE runs")
				time.Sleep(time.Second)
				x.press(" ")
				x.shows("LIVE off", "board  0000")
				x.press("q")
				if status := x.ends(); status != 0 {
					t.Errorf("status %d: %s", status, x.errs.String())
				}
				x.isRestored()
				wrote := moments(t, sitting, boardPins, false)
				r.ends()
				pins := rowsOf(moments(t, r.pins, rigPins, active == "low"))
				sameRows(t, "the record of the sitting", rowsOf(wrote), pins)
				// what the screen claimed, one row after another, on the way
				if got := rowsOf(wrote); len(got) < len(claimed)+1 || strings.Join(got[1:len(claimed)+1], " ") != strings.Join(differ(claimed), " ") {
					t.Errorf("the screen said %v, the record %v", claimed, got)
				}
				return r.now()
			})
			pins := rowsOf(moments(t, file, rigPins, active == "low"))
			// by the order of half step: A+ alone, B+ beside it, B+ alone, and so on; common practice, no source
			want := strings.Fields("0000 1000 1100 0100 0110 0010 0011 0001 1001 1000 1001 0001 0011")
			if len(pins) < len(want) || strings.Join(pins[:len(want)], " ") != strings.Join(want, " ") {
				t.Errorf("the pins went %v, want %v first", pins, want)
			}
			if pins[len(pins)-1] != "0000" {
				t.Errorf("the pins end at %s", pins[len(pins)-1])
			}
		})
	}
}

// differ leaves out a row that is the same as the one before: nothing changes then.
func differ(rows []string) (all []string) {
	for _, row := range rows {
		if len(all) == 0 || all[len(all)-1] != row {
			all = append(all, row)
		}
	}
	return all
}

func rowsOf(all []moment) (rows []string) {
	for _, m := range all {
		rows = append(rows, m.String())
	}
	return rows
}

func sameRows(t *testing.T, what string, got, want []string) {
	t.Helper()
	if strings.Join(got, " ") != strings.Join(want, " ") {
		t.Errorf("%s has the rows\n%v, the pins went\n%v", what, got, want)
	}
}

// Whatever happens while a row is held or a run goes on, all four outputs are off
// within 2.5 s of simulated time, stay so, and coilwalk, where it lives, says why.
func TestLiveGoesOff(t *testing.T) {
	type way struct {
		name string
		does func(t *testing.T, x *terminal, r *rig, line *relay)
		said []string // on the screen; nil where the program is gone
		stat int      // that q then leaves, or the program has ended with
	}
	signal := func(s syscall.Signal) func(*testing.T, *terminal, *rig, *relay) {
		return func(t *testing.T, x *terminal, _ *rig, _ *relay) {
			if err := x.cmd.Process.Signal(s); err != nil {
				t.Fatal(err)
			}
		}
	}
	ways := []way{
		{"killed", signal(syscall.SIGKILL), nil, -9},
		{"terminated", signal(syscall.SIGTERM), nil, 128 + 15},
		{"hangup", signal(syscall.SIGHUP), nil, 128 + 1},
		{"stopped", signal(syscall.SIGSTOP), nil, -9},
		{"suspended", signal(syscall.SIGTSTP), nil, -9},
		{"closed-terminal", func(_ *testing.T, x *terminal, _ *rig, _ *relay) { x.file.Close() }, nil, 128 + 1},
		{"quit", func(_ *testing.T, x *terminal, _ *rig, _ *relay) { x.press("q") }, nil, 0},
		{"cut", func(_ *testing.T, _ *terminal, _ *rig, line *relay) { line.set(func(l *relay) { l.whole = 2 }) }, []string{"LIVE off", "has not answered"}, 0},
		{"unplugged", func(_ *testing.T, _ *terminal, _ *rig, line *relay) {
			line.set(func(l *relay) { l.whole = 0 }) // a close that a read holds up lets nothing more through
			line.host.Close()
		}, []string{"LINK LOST"}, 4},
		{"mute", func(_ *testing.T, _ *terminal, _ *rig, line *relay) { line.set(func(l *relay) { l.mute = true }) }, []string{"LIVE off", "has not answered"}, 0},
		{"garbage", func(t *testing.T, _ *terminal, _ *rig, line *relay) {
			noise := make([]byte, 4000)
			for k := range noise {
				noise[k] = byte(k*k*31 + k*7 + 13)
			}
			if _, err := line.line.Write(noise); err != nil {
				t.Error(err)
			}
		}, []string{"LIVE off", "switched the coils off"}, 0},
		{"frozen", func(t *testing.T, _ *terminal, r *rig, _ *relay) {
			if err := r.cmd.Process.Signal(syscall.SIGUSR1); err != nil {
				t.Error(err)
			}
		}, []string{"LIVE off", "watchdog"}, 0},
	}
	for k, w := range ways {
		for n, active := range []string{"high", "low"} {
			if underRace && (k+n)%4 != 0 {
				continue // the race detector needs each kind of end once, not both levels of all
			}
			t.Run(w.name+"-"+active, func(t *testing.T) {
				t.Parallel()
				file, fault := kept(t, w.name+"-"+active, active, []string{w.name}, func(r *rig) float64 {
					line := newRelay(t, r)
					x := armed(t, line.port)
					x.press(right)
					x.shows("LIVE on", "board  1000")
					x.press(enter)
					x.until(func(text string) bool { // a busy machine may show no picture of a certain row
						step := 0
						if _, after, on := strings.Cut(text, "step  +"); on && strings.Contains(text, "LIVE runs") {
							_, _ = fmt.Sscan(after, &step)
						}
						return step >= 5
					})
					at := r.now()
					w.does(t, x, r, line)
					if w.said != nil {
						x.shows(w.said...)
						time.Sleep(2500 * time.Millisecond)
						x.press("q")
					} else {
						time.Sleep(3 * time.Second)
					}
					if w.stat == -9 && x.cmd.Process.Signal(syscall.Signal(0)) == nil {
						_ = x.cmd.Process.Kill()
					}
					if status := x.ends(); status != w.stat {
						t.Errorf("status %d, want %d: %s", status, w.stat, x.errs.String())
					}
					return at
				})
				all := moments(t, file, rigPins, active == "low")
				was := false
				for _, m := range all {
					was = was || m.any() && m.us < fault
					if m.any() && m.us > fault+2.5e6 {
						t.Errorf("%s is on %.3f s after it", m, (m.us-fault)/1e6)
					}
				}
				last := all[len(all)-1]
				if !was || last.any() || last.us > fault+2.5e6 {
					t.Errorf("on before it: %v; off at the end: %v, %.3f s after it", was, !last.any(), (last.us-fault)/1e6)
				}
				t.Logf("off %.3f s after it", (last.us-fault)/1e6)
			})
		}
	}
}
