package handoff

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"coilwalk/sequence"
)

// ramped gives a walk with a ramp in ticks of half a microsecond.
func ramped(t *testing.T, mode sequence.Mode) *Walk {
	w := walkOf(t, mode)
	var err error
	if w.Pace, err = w.Pace.With([]int64{9000, 6543, 5000, 4321, 4000}); err != nil {
		t.Fatal(err)
	}
	return w
}

func made(t *testing.T, kind string, w *Walk) []byte {
	t.Helper()
	k, ok := KindNamed(kind)
	if !ok {
		t.Fatalf("there is no kind %s", kind)
	}
	text, err := k.Make(w)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// The stepping source on the host, under the sanitizers: every row and every
// tick of a plan, by an interrupt's calls and by a loop with a clock that wraps.
// (C99, ISO/IEC 9899:1999, as gcc's -pedantic has it.)
func TestReferenceSteppingOnTheHost(t *testing.T) {
	for _, c := range []struct {
		name      string
		activeLow bool
		idleOff   bool
		rampless  bool
		bits      [4]int
	}{{"walk-held", false, false, false, [4]int{0, 1, 2, 3}}, {"walk-off", true, true, false, [4]int{6, 4, 7, 1}}, {"walk-even", false, true, true, [4]int{3, 2, 1, 0}}} {
		t.Run(c.name, func(t *testing.T) {
			w := ramped(t, sequence.Half)
			w.Stepper, w.IdleOff, w.Board.ActiveLow, w.Board.Bits = true, c.idleOff, c.activeLow, c.bits
			w.Motor.Wiring = sequence.Permutation{sequence.AMinus, sequence.APlus, sequence.BPlus, sequence.BMinus}
			if c.rampless {
				w.Pace.Intervals = w.Pace.Intervals[:1]
			}
			run := outside{name: "source/" + c.name, given: map[string][]byte{"coil.c": made(t, "c", w), "plan.h": planHead(plan)}, sources: []string{"source/walk.c"},
				command: "gcc -std=c99 -Wall -Wextra -Werror -pedantic -O1 -fsanitize=address,undefined -fno-sanitize-recover -o walk walk.c && ./walk", version: "gcc --version"}
			if got, want := string(run.said(t)), w.hostSays(); got != want {
				t.Errorf("the firmware says\n%s\nwant\n%s", got, want)
			}
		})
	}
}

// hostSays writes what the host program should print: the plan walked twice, the
// second time across the wrap of its clock, then all off.
func (w *Walk) hostSays() string {
	var b strings.Builder
	legs, place := w.stands(plan)
	now := uint32(0)
	line := func(row sequence.Row) { fmt.Fprintf(&b, "%d %02x\n", now, w.Board.Word(row)) }
	for _, start := range []uint32{0, 1<<32 - 5000} {
		now = start
		line(legs[0][0].row)
		for k, l := range legs[1:] {
			now += pauseTicks
			begun := now
			for _, s := range l {
				now = begun + uint32(s.at)
				line(s.row)
			}
			if !w.IdleOff { // when its time is over the last row is written again
				waits := w.waits(plan[k])
				now += uint32(waits[len(waits)-1])
				line(l[len(l)-1].row)
			}
		}
		fmt.Fprintf(&b, "at %d\n", place)
	}
	line(off)
	return b.String()
}

// tables is what a program prints of the tables that it was given.
func tables[T any](w *Walk, one func(sequence.Row) T) string {
	var b strings.Builder
	for _, way := range []struct {
		name string
		way  int64
	}{{"forward", 1}, {"reverse", -1}} {
		b.WriteString(way.name)
		for k := range int64(w.Mode.Rows()) {
			fmt.Fprintf(&b, " %v", one(w.Row(way.way*k)))
		}
		b.WriteByte('\n')
	}
	b.WriteString("ramp")
	for _, ticks := range w.Pace.Intervals {
		fmt.Fprintf(&b, " %d", ticks)
	}
	return b.String() + "\n"
}

// The tables as compilers that are not ours take them.
func TestReferenceTables(t *testing.T) {
	for _, mode := range sequence.WholeModes() {
		w := ramped(t, mode)
		w.Board.Bits, w.Board.ActiveLow = [4]int{4, 5, 6, 9}, mode.Name == sequence.Full.Name
		words := tables(w, w.Board.Word)
		for _, c := range []struct{ kind, file, source, command, version, want string }{
			{"c", "coil.c", "source/tables.c", "gcc -std=c99 -Wall -Wextra -Werror -pedantic -fsanitize=address,undefined -o tables tables.c && ./tables", "gcc --version", words},
			{"cpp", "coil.hpp", "source/tables.cpp", "g++ -std=c++11 -Wall -Wextra -Werror -pedantic -fsanitize=address,undefined -o tables tables.cpp && ./tables", "g++ --version", words},
			{"rust", "coil.rs", "source/tables.rs", "rustc --edition 2021 -D warnings -o tables tables.rs && ./tables", "rustc --version", words + w.rustSays()},
			{"python", "coil.py", "source/moves.py", "/usr/bin/python3 -W error moves.py", "/usr/bin/python3 --version", tables(w, w.spaced) + w.pythonSays()},
		} {
			t.Run(c.kind+" "+mode.Name, func(t *testing.T) {
				run := outside{name: "source/" + c.kind + "-" + mode.Name, given: map[string][]byte{c.file: made(t, c.kind, w)}, sources: []string{c.source}, command: c.command, version: c.version}
				if got := string(run.said(t)); got != c.want {
					t.Errorf("it says\n%s\nwant\n%s", got, c.want)
				}
			})
		}
	}
}

// spaced gives the levels of a row as Python prints them one by one.
func (w *Walk) spaced(row sequence.Row) string {
	return strings.Trim(fmt.Sprint(w.Board.Levels(row)), "[]")
}

func (w *Walk) rustSays() string {
	var b strings.Builder
	fmt.Fprintf(&b, "mask and off %d %d\nwords", w.Board.Mask(), w.Board.Word(off))
	for k := int64(-12); k < 12; k++ {
		fmt.Fprintf(&b, " %d", w.Board.Word(w.Row(k)))
	}
	b.WriteString("\nwaits 9000") // before the first row
	for _, wait := range w.waits(leg{rows: 12}) {
		fmt.Fprintf(&b, " %d", wait)
	}
	return b.String() + "\n"
}

// pythonSays is the moments of the moves in moves.py: microseconds rounded down,
// each from the exact sum of ticks.
func (w *Walk) pythonSays() string {
	var b strings.Builder
	for _, move := range [][2]int64{{0, 12}, {12, -15}, {-3, 1}, {5, 0}} {
		position, way := move[0], int64(1)
		if move[1] < 0 {
			way = -1
		}
		ticks := int64(0)
		for _, wait := range append([]int64{w.Pace.Intervals[0]}, w.waits(leg{rows: move[1]})...) {
			us := w.Pace.Tick()
			us.Mul(us, big.NewRat(ticks*1_000_000, 1))
			fmt.Fprintf(&b, "%d %d %s\n", new(big.Int).Quo(us.Num(), us.Denom()), position, w.spaced(w.Row(position)))
			ticks += wait
			position += way
		}
	}
	return b.String()
}
