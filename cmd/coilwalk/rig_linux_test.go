package main

import (
	"bufio"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"golang.org/x/sys/unix"

	"coilwalk/model/recording"
)

// rig is a controller in a simulator that is not ours, with the firmware that
// coilwalk writes, its serial line on a pseudo-terminal; the time in it is held to
// the clock on the wall.
type rig struct {
	t       *testing.T
	cmd     *exec.Cmd
	line    string // its serial port
	pins    string // where its pins are recorded
	said    *bufio.Scanner
	clockNS int64 // CLOCK_REALTIME at clockUS of the simulated time
	clockUS float64
	text    []byte // of the recording, once it has ended
}

const serialRig = "../../testdata/reference/serial"

// rigTools builds the simulator's host program, once.
var rigTools = sync.OnceValues(func() (string, error) {
	folder, err := os.MkdirTemp("", "coilwalk-rig-")
	if err != nil {
		return "", err
	}
	host := filepath.Join(folder, "rig")
	out, err := exec.Command("gcc", "-std=c99", "-O1", "-I/usr/include/simavr", "-o", host, serialRig+"/rig.c", "-lsimavr", "-lelf", "-lutil").CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%w\n%s", err, out)
	}
	return host, nil
})

// bench gives the firmware's text for an active level.
func benchFirmware(t *testing.T, active string) string {
	t.Helper()
	wrote := call(t, "", "write", "firmware", "--port", "PORTB", "--bits", "0,1,2,3", "--active", active)
	if wrote.status != 0 {
		t.Fatal(wrote.errs)
	}
	return wrote.out
}

// startRig compiles the firmware and starts it.
func startRig(t *testing.T, active string) *rig {
	t.Helper()
	host, err := rigTools()
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	source, image := filepath.Join(folder, "bench.c"), filepath.Join(folder, "bench.elf")
	if err := os.WriteFile(source, []byte(benchFirmware(t, active)), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("avr-gcc", "-mmcu=atmega328p", "-std=c99", "-Os", "-Wall", "-Wextra", "-Werror", "-pedantic", "-o", image, source).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	r := &rig{t: t, line: filepath.Join(folder, "line"), pins: filepath.Join(folder, "pins.vcd")}
	r.cmd = exec.Command(host, "-u", r.line, "-v", r.pins, "-t", "0", image)
	out, err := r.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := r.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if r.cmd.ProcessState == nil {
			_ = r.cmd.Process.Kill()
			_ = r.cmd.Wait()
		}
	})
	r.said = bufio.NewScanner(out)
	for r.said.Scan() {
		if _, err := fmt.Sscanf(r.said.Text(), "clock %d at %f", &r.clockNS, &r.clockUS); err == nil {
			return r
		}
	}
	t.Fatal("the simulator did not start")
	return nil
}

// now gives the simulated time in microseconds.
func (r *rig) now() float64 { return float64(time.Now().UnixNano()-r.clockNS)/1e3 + r.clockUS }

// ends ends the simulation, and gives what its pins did.
func (r *rig) ends() []byte {
	r.t.Helper()
	if r.text != nil {
		return r.text
	}
	if err := r.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		r.t.Fatal(err)
	}
	for r.said.Scan() { // until it has written all
	}
	if err := r.cmd.Wait(); err != nil {
		r.t.Errorf("the simulator ended with %v", err)
	}
	text, err := os.ReadFile(r.pins)
	if err != nil {
		r.t.Fatal(err)
	}
	r.text = text
	return text
}

// moment is how the four outputs stand from a time on, true for on.
type moment struct {
	us float64
	on [4]bool
}

func (m moment) any() bool { return m.on[0] || m.on[1] || m.on[2] || m.on[3] }

func (m moment) String() string {
	bits := []byte("0000")
	for k, on := range m.on {
		if on {
			bits[k] = '1'
		}
	}
	return string(bits)
}

// moments reads a recording of four channels; what is not known counts as off, for
// nothing drives a pin then and its resistor holds it.
func moments(t *testing.T, file string, channels []string, low bool) (all []moment) {
	t.Helper()
	r, err := recording.Open(file, nil, recording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	var watch []int
	for _, name := range channels {
		for k, c := range r.Channels {
			if c.Name == name {
				watch = append(watch, k)
			}
		}
	}
	if len(watch) != 4 {
		t.Fatalf("%s has not the channels %v", file, channels)
	}
	if err := r.Watch(watch); err != nil {
		t.Fatal(err)
	}
	into := make([]recording.Sample, 100)
	for {
		n, err := r.Next(into)
		for _, s := range into[:n] {
			m := moment{us: float64(s.At) * r.Tick * 1e6}
			for k := range m.on {
				m.on[k] = s.Unknown>>k&1 == 0 && (s.High>>k&1 == 1) != low
			}
			if len(all) == 0 || all[len(all)-1].on != m.on {
				all = append(all, m)
			}
		}
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// rigPins and boardPins are the channels of the two recordings.
var (
	rigPins   = []string{"PB0", "PB1", "PB2", "PB3"}
	boardPins = []string{"output1", "output2", "output3", "output4"}
)

// relay stands on the line between coilwalk and the rig, and can spoil it.
type relay struct {
	port string // for coilwalk
	host *os.File
	line *os.File

	mu    sync.Mutex
	mute  bool // the board's answers are swallowed
	whole int  // bytes that still go on to the board; below 0: all
}

// newRelay puts a relay before a rig.
func newRelay(t *testing.T, r *rig) *relay {
	t.Helper()
	host, tty, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	line, err := os.OpenFile(r.line, os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []*os.File{tty, line} { // bytes as they are
		m, err := unix.IoctlGetTermios(int(f.Fd()), getTermios)
		if err != nil {
			t.Fatal(err)
		}
		m.Iflag, m.Oflag, m.Lflag = 0, 0, 0
		if err := unix.IoctlSetTermios(int(f.Fd()), unix.TCSETS, m); err != nil {
			t.Fatal(err)
		}
	}
	x := &relay{port: tty.Name(), host: host, line: line, whole: -1}
	t.Cleanup(func() { host.Close(); line.Close(); tty.Close() })
	go func() {
		bytes := make([]byte, 256)
		for {
			n, err := host.Read(bytes)
			if err != nil {
				return
			}
			x.mu.Lock()
			if x.whole >= 0 {
				n = min(n, x.whole)
				x.whole -= n
			}
			x.mu.Unlock()
			_, _ = line.Write(bytes[:n])
		}
	}()
	go func() {
		bytes := make([]byte, 256)
		for {
			n, err := line.Read(bytes)
			if err != nil {
				return
			}
			x.mu.Lock()
			mute := x.mute
			x.mu.Unlock()
			if !mute {
				_, _ = host.Write(bytes[:n])
			}
		}
	}()
	return x
}

func (x *relay) set(how func(*relay)) {
	x.mu.Lock()
	defer x.mu.Unlock()
	how(x)
}

// inputHash is that of all that a run of the rig is given.
func inputHash(t *testing.T, more ...string) string {
	t.Helper()
	host, err := os.ReadFile(serialRig + "/rig.c")
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%x", sha256.Sum256([]byte(string(host)+strings.Join(more, "\x00"))))
}
