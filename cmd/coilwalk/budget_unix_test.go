//go:build linux || darwin

package main

import (
	"bytes"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"testing"
	"time"
)

func median[T int | time.Duration](all []T) T {
	sort.Slice(all, func(i, k int) bool { return all[i] < all[k] })
	return all[len(all)/2]
}

// One animated picture at 120×36 in 256 colours, half step: at most 4 kB sent,
// median of those in which something moved. (The library begins each picture by
// putting the cursor home.) A slowed run moves in nearly every picture. At its
// real rate, 12 rows a second, most pictures are of a new row and none of what is
// between: fewer, bigger, and together no more than 30 a second of 4 kB.
func TestBudgetBytesSent(t *testing.T) {
	const seconds = 2
	run := func(keys string) (sizes []int, sum int) {
		x := open(t, binary, 120, 36)
		x.shows("row  1 of 8")
		x.press(keys + enter)
		x.shows("▶ running")
		start := len(x.sent())
		time.Sleep(seconds * time.Second)
		pictures := bytes.Split(x.sent()[start:], []byte("\x1b[H"))
		x.press("q")
		x.ends()
		for _, p := range pictures[1 : len(pictures)-1] {
			if len(p) > 0 {
				sizes = append(sizes, len(p))
				sum += len(p)
			}
		}
		if len(sizes) < 8*seconds {
			t.Fatalf("only %d pictures in %d s", len(sizes), seconds)
		}
		return sizes, sum
	}
	slowed, _ := run("p60" + enter + "z") // a fiftieth of the real rate
	if m := median(slowed); m > 4000 {
		t.Errorf("slowed, median of %d pictures: %d bytes, at most 4000 are meant", len(slowed), m)
	} else {
		t.Logf("budget: bytes of an animated picture at 120x36: %d of 4000", m)
	}
	real, sum := run("")
	t.Logf("at the real rate, median of %d pictures: %d bytes; %d bytes a second", len(real), median(real), sum/seconds)
	if sum > seconds*30*4000 {
		t.Errorf("%d bytes a second", sum/seconds)
	}
}

// slow makes room for the race detector, under which times mean little.
func slow(d time.Duration) time.Duration {
	if underRace {
		return 20 * d
	}
	return d
}

// The terminal answers no query: the terminal library would wait five seconds
// for one if view/appear did not come first.
func TestVersionIsQuick(t *testing.T) {
	var times []time.Duration
	for range 5 {
		start := time.Now()
		x := open(t, binary, 80, 24, "--version")
		x.shows("coilwalk ")
		if status := x.ends(); status != 0 {
			t.Fatalf("status %d", status)
		}
		times = append(times, time.Since(start))
	}
	m := slices.Min(times) // the least: what else the machine does is not ours
	t.Logf("budget: ms of --version in a terminal that answers no query: %.0f of 200", m.Seconds()*1e3)
	if m > slow(200*time.Millisecond) {
		t.Errorf("--version took %v, at most 200 ms are meant", m)
	}
}

// The first complete frame comes within 1.5 times that of an empty program on
// the same library. Void if the empty one itself needs more than 0.2 s.
func TestFirstFrameIsQuick(t *testing.T) {
	empty := filepath.Join(t.TempDir(), "empty")
	if err := build(empty, "../../testdata/empty", underRace); err != nil {
		t.Fatal(err)
	}
	first := func(program, shows string) time.Duration {
		start := time.Now()
		x := open(t, program, 120, 36)
		for !strings.Contains(string(x.sent()), shows) {
			if time.Since(start) > patience {
				t.Fatalf("%s shows nothing", program)
			}
			time.Sleep(200 * time.Microsecond)
		}
		took := time.Since(start)
		x.press("q")
		x.ends()
		return took
	}
	var ours, theirs []time.Duration
	rounds := 15
	if underRace {
		rounds = 3 // times mean little under it
	}
	for range rounds { // in turn, so that what else the machine does meets both
		theirs = append(theirs, first(empty, "ready"))
		ours = append(ours, first(binary, "quit"))
	}
	o, e := median(ours), median(theirs)
	t.Logf("first frame: coilwalk %v, an empty program %v", o, e)
	t.Logf("budget: first frame, times that of an empty program: %.2f of 1.50", o.Seconds()/e.Seconds())
	if e > 200*time.Millisecond {
		t.Logf("void: the empty program itself needs %v", e)
		return
	}
	if o > e+e/2 && !underRace {
		t.Errorf("the first frame took %v, an empty program's %v", o, e)
	}
}
