package handoff

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"coilwalk/sequence"
)

// What is asked is answered to the letter of the protocol; rows come out as they
// were asked for, with none in between, and only while all four pins are armed.
func TestReferenceBenchRows(t *testing.T) {
	eachLevel(t, func(t *testing.T, s *script) {
		low := byte(0)
		if s.w.Board.ActiveLow {
			low = 1
		}
		asked := map[int64]string{}
		ask := func(want string, what ...byte) {
			s.send(20_000, what...)
			asked[s.at] = want
		}
		s.send(50_000)
		ask("f9 02 05", 0xf9)
		ask("f0 79 02 05 63 00 6f 00 69 00 6c 00 77 00 61 00 6c 00 6b 00 20 00 62 00 65 00 6e 00 63 00 68 00 f7", 0xf0, 0x79, 0xf7)
		ask("f0 6c 7f 7f 7f 7f 7f 7f 7f 7f 01 01 7f 01 01 7f 01 01 7f 01 01 7f f7", 0xf0, 0x6b, 0xf7)
		ask("f0 6a 7f 7f 7f 7f 7f 7f 7f 7f 7f 7f 7f 7f f7", 0xf0, 0x69, 0xf7)
		ask("f0 0e 00 01 50 0f "+hexByte(1-low)+" 08 09 0a 0b f7", 0xf0, 0x0e, 0, 0xf7)
		ask("f0 6e 08 00 "+hexByte(low)+" f7", 0xf0, 0x6d, 8, 0xf7)
		ask("f0 6e 0d 7f 00 f7", 0xf0, 0x6d, 13, 0xf7)
		ask("", 0xf0, 0x7a, 19, 0, 0xf7)                     // a sampling interval: not ours
		ask("", 0xc0, 1, 0xd1, 1, 0xe3, 1, 0, 0x92, 0x7f, 1) // reports, analog values, another port
		ask("", 0xf0, 0xf7)
		ask("", 0xf4, 13, 0, 0xf4, 2, 1) // pins that are not ours
		// nothing of this may be seen on the pins: not one is armed, then three are
		s.row(5000, 0x0f)
		s.send(5000, 0xf5, 9, 1-low)
		s.send(5000, 0xf4, 8, 1, 0xf4, 9, 1, 0xf4, 11, 1)
		s.row(5000, 0x0f)
		s.send(5000, 0xf5, 9, 1-low)
		ask("f0 0e 02 00 00 f7", 0xf0, 0x0e, 2, 0xf7)
		s.send(5000, 0xf4, 10, 1)
		ask("f0 0e 02 00 01 f7", 0xf0, 0x0e, 2, 0xf7)
		want := []sequence.Row{off}
		times := []int64{0}
		row := func(after int64, bits byte) {
			times = append(times, s.row(after, bits))
			want = append(want, nibble(bits))
		}
		for k := range 48 {
			row(5000, benchRows[(k*(1+2*(k/16)))%16])
		}
		row(5000, 0x05)
		ask("f0 0e 02 05 01 f7", 0xf0, 0x0e, 2, 0xf7)
		ask("f0 6e 0a 01 "+hexByte(1-low)+" f7", 0xf0, 0x6d, 10, 0xf7)
		s.send(5000, 0xf5, 9, 1-low) // one pin by itself
		want, times = append(want, nibble(0x07)), append(times, s.at)
		s.send(5000, 0xf5, 8, low)
		want, times = append(want, nibble(0x06)), append(times, s.at)
		// a pin that is made something else takes all four down
		s.send(5000, 0xf4, 9, 0)
		want, times = append(want, off), append(times, s.at)
		s.row(5000, 0x0f)
		ask("f0 0e 02 00 00 f7", 0xf0, 0x0e, 2, 0xf7)
		s.arm(5000)
		row(5000, 0x09)
		s.send(5000, 0xff) // reset
		want, times = append(want, off), append(times, s.at)
		end := s.at
		s.row(5000, 0x0f)
		s.send(1000)

		pins, sent := s.run(t, "rows")
		var got []sequence.Row
		for _, p := range pins {
			got = append(got, p.row)
		}
		sameRows(t, got, want)
		worst, next := 0.0, 1
		for k := 1; k < len(want); k++ {
			if want[k] == want[k-1] {
				continue
			}
			worst = max(worst, pins[next].us-float64(times[k]))
			next++
		}
		t.Logf("worst time from a row's first byte to its pins: %.0f us", worst)
		if worst > 1000 {
			t.Errorf("a row comes %.0f us after it was sent; its three bytes take 573", worst)
		}
		if text := sent.between(0, 49_000); !bytes.HasPrefix(text, []byte{0xf9, 2, 5, 0xf0, 0x79, 2, 5}) || !slices.Equal(sent.notices(0, 49_000), []byte{6}) {
			t.Errorf("it starts with % x", text)
		}
		for at, want := range asked {
			if got := fmt.Sprintf("% x", sent.between(at, at+10_000)); got != want {
				t.Errorf("what was asked at %d us is answered %q, want %q", at, got, want)
			}
		}
		if got := sent.notices(50_000, end+30_000); !slices.Equal(got, []byte{5}) {
			t.Errorf("notices %v, want that of the reset alone", got)
		}
	})
}

// Rows that come as fast as the line takes them, each with a question behind it,
// all come out, in their order, and all questions are answered.
func TestReferenceBenchPace(t *testing.T) {
	eachLevel(t, func(t *testing.T, s *script) {
		const rows = 500
		want := []sequence.Row{off}
		s.arm(100_000)
		for k := range rows {
			s.row(0, benchRows[k%16])
			s.send(0, 0xf9)
			want = append(want, nibble(benchRows[k%16]))
		}
		pins, sent := s.run(t, "pace")
		var got []sequence.Row
		for _, p := range pins[:min(rows+1, len(pins))] { // then they go off by silence
			got = append(got, p.row)
		}
		sameRows(t, got, want)
		if got := sent.between(s.at, s.at+2_000_000); !bytes.Equal(got, bytes.Repeat([]byte{0xf9, 2, 5}, rows)) {
			t.Errorf("%d questions are answered with %d bytes", rows, len(got))
		}
		t.Logf("%.0f rows a second, with a question each", (rows-1)/(pins[rows].us-pins[1].us)*1e6)
	})
}

// A host that is silent, or says nothing whole, is gone after 2 s.
func TestReferenceBenchSilence(t *testing.T) {
	eachLevel(t, func(t *testing.T, s *script) {
		var faults []fault
		silent := func(name string, on, life int64) {
			faults = append(faults, fault{name, on, life, 2_000_000, 2_010_000, []byte{1}, s.at + 2_400_000})
			s.send(2_500_000)
			s.row(1000, 0x0f) // it is disarmed
		}
		on := s.armedRow(50_000)
		silent("silence", on, s.at)

		on = s.armedRow(100_000)
		for range 3 { // any message is a sign of life
			s.send(1_900_000, 0xf9)
		}
		silent("silence after life", on, s.at)

		on = s.armedRow(100_000)
		life := s.at
		s.send(1_000_000, 0x91, 0x06)
		s.at -= 1_000_000
		silent("half a message", on, life)
		s.send(100_000, 0xf9) // the way back

		on = s.armedRow(100_000)
		life = s.at
		s.send(300_000, 0xf0)
		for range 5 {
			s.send(300_000, 0x0e) // no end: no message
		}
		s.at = life
		silent("a message without end", on, life)
		s.send(100_000, 0xf9)

		s.arm(100_000) // armed with nothing on: disarmed all the same
		disarmed := s.at
		s.send(2_500_000, 0xf0, 0x0e, 2, 0xf7)
		s.send(20_000)

		pins, sent := s.run(t, "silence")
		hold(t, faults, pins, sent)
		if got := sent.notices(disarmed, s.at); !slices.Equal(got, []byte{1}) {
			t.Errorf("armed with nothing on: notices %v, want 1", got)
		}
		if got := sent.between(s.at-20_000, s.at); !bytes.Equal(got, []byte{0xf0, 0x0e, 2, 0, 0, 0xf7}) {
			t.Errorf("armed with nothing on, and silence: % x", got)
		}
	})
}

// A byte where none is due, a line that drops one, a flood: off at once, and told
// once.
func TestReferenceBenchGarbage(t *testing.T) {
	eachLevel(t, func(t *testing.T, s *script) {
		noise := rand.New(rand.NewPCG(9, 20_000))
		flood := make([]byte, 20_000)
		for k := range flood {
			flood[k] = byte(noise.Uint32())
		}
		flood[0] &= 0x7f // where a command is due
		long := func(n int) []byte {
			return append(append([]byte{0xf0}, bytes.Repeat([]byte{0x0e}, n)...), 0xf7)
		}
		asks := bytes.Repeat([]byte{0xf0, 0x79, 0xf7}, 100) // eleven times as many bytes are due back
		var faults []fault
		for _, c := range []struct {
			name    string
			what    []byte
			to      int64 // us
			reasons []byte
		}{
			{"a byte where a command is due", []byte{0x12}, 1000, []byte{2}},
			{"many of them", bytes.Repeat([]byte{0x33}, 100), 1000, []byte{2}},
			{"an unknown command", []byte{0xa1}, 1000, []byte{2}},
			{"the end of what did not begin", []byte{0xf7}, 1000, []byte{2}},
			{"a command in the midst of a message", []byte{0x91, 0x03, 0xf9}, 1000, []byte{2}},
			{"a command in the midst of a long one", []byte{0xf0, 0x0e, 0x02, 0x91}, 1000, []byte{2}},
			{"a long message that is too long", long(65), 14_000, []byte{2}},
			{"reset in the midst of a message", []byte{0x91, 0x03, 0xff}, 1000, []byte{5}},
			{"more asked than can be answered", asks, 200_000, []byte{3}},
		} {
			on := s.armedRow(200_000)
			s.send(6000, c.what...)
			f := fault{c.name, on, s.at, 0, c.to, c.reasons, s.at + 150_000}
			faults = append(faults, f)
			s.row(0, 0x0f) // disarmed: it is not taken
		}
		on := s.armedRow(1_000_000) // until all is answered
		s.at += 6000
		fmt.Fprintf(&s.text, "%d !00\n", s.at)
		faults = append(faults, fault{"a framing error", on, s.at, 0, 1000, []byte{3}, s.at + 100_000})

		on = s.armedRow(200_000)
		s.send(6000, long(64)...) // as long as one may be
		kept := s.at
		s.send(30_000, 0x11)
		faults = append(faults, fault{"the byte after", on, s.at, 0, 1000, []byte{2}, s.at + 100_000})

		on = s.armedRow(200_000)
		s.at += 6000
		at := s.at
		for k := 0; k < len(flood); k += 500 {
			s.send(0, flood[k:k+500]...)
		}
		s.at += 6_000_000 // 20 kB take 3.9 s
		s.send(0, 0xf9)   // the way back, out of whatever was begun
		s.send(10_000, 0xf9)
		back := s.at
		again := s.armedRow(50_000)
		s.send(100_000)
		flooded := fault{"a flood", on, at, 0, 1000, nil, back}

		pins, sent := s.run(t, "garbage")
		hold(t, faults, pins, sent)
		flooded.reasons = slices.Compact(sent.notices(at, back)) // what chance has in it
		hold(t, []fault{flooded}, pins, sent)
		if n := len(sent.notices(at, back)); n == 0 || n > len(flood)/20 {
			t.Errorf("%d notices in a flood of %d bytes", n, len(flood))
		}
		if got := sent.between(back, back+10_000); !bytes.Equal(got, []byte{0xf9, 2, 5}) {
			t.Errorf("after the flood a question is answered % x", got)
		}
		if got := sent.notices(kept, kept+29_000); got != nil {
			t.Errorf("the longest message: notices %v", got)
		}
		if last := pins[len(pins)-2]; last.row != nibble(0x09) || last.us < float64(again) { // and off by silence
			t.Errorf("after the flood the row is not taken: %s at %.0f us", last.row.Bits(), last.us)
		}
	})
}

// A firmware that hangs is restarted by the chip's watchdog, comes up with
// everything off and says so.
func TestReferenceBenchWatchdog(t *testing.T) {
	eachLevel(t, func(t *testing.T, s *script) {
		var faults []fault
		for range 2 { // the watchdog is on again after a restart
			on := s.armedRow(100_000)
			s.at += 10_000
			fmt.Fprintf(&s.text, "%d freeze\n", s.at)
			faults = append(faults, fault{"frozen", on, s.at, 0, 2_500_000, []byte{4}, s.at + 3_000_000})
			s.row(1_000_000, 0x0f) // a restart disarms
			s.send(2_000_000)
		}
		pins, sent := s.run(t, "watchdog")
		hold(t, faults, pins, sent)
		if pins[0].row != off {
			t.Errorf("it starts with %s", pins[0].row.Bits())
		}
	})
}

// The source is clean for several chips, as C and as C++, with every warning an
// error.
func TestReferenceBenchCompiles(t *testing.T) {
	w := benchWalk(t, true)
	w.Board.Port, w.Board.Bits = "PORTD", [4]int{7, 5, 6, 3}
	run := outside{name: "serial/sizes", given: map[string][]byte{"bench.c": made(t, Bench, w)},
		command: "for chip in atmega48 atmega328p atmega644p atmega128 atmega2560; do for as in 'c -std=c99' 'c -std=gnu11' 'c++ -std=c++11'; do " +
			"avr-gcc -mmcu=$chip -x $as -Os -Wall -Wextra -Werror -pedantic -o image.elf bench.c && echo $chip, $as: $(avr-size image.elf | tail -n 1 | cut -f 1-3); done; done",
		version: "avr-gcc --version"}
	if lines := strings.Count(string(run.said(t)), "\n"); lines != 15 {
		t.Errorf("%d compiled, want 15", lines)
	}
}

func TestBenchRefuses(t *testing.T) {
	for _, c := range []struct {
		says string
		with func(w *Walk)
	}{
		{"COILS is no port of an AVR chip; PORTA to PORTL are", func(w *Walk) { w.Board.Port = "COILS" }},
		{"PORTB has no bit 9", func(w *Walk) { w.Board.Bits[2] = 9 }},
		{"the pin numbers of PORTA differ from board to board", func(w *Walk) { w.Board.Port = "PORTA" }},
		{"pins 14 and 16 do not change in one message; all four have to be among 8 to 15", func(w *Walk) { w.Board.Port = "PORTC" }},
		{"output 1 is on pin 0; pins 0 and 1 are the serial line", func(w *Walk) { w.Board.Port = "PORTD" }},
		{"output 2 is on pin 130", func(w *Walk) { w.Board.Numbered, w.Board.Pins = true, [4]int{127, 130, 126, 125} }},
		{"300 baud is too slow", func(w *Walk) { w.Baud = 300 }},
		{"gets no nearer to 57600 baud than +8.5 %", func(w *Walk) { w.Pace.ClockHz = 1_000_000 }},
		{"a clock of 48000000 Hz", func(w *Walk) { w.Pace.ClockHz = 48_000_000 }},
	} {
		w := benchWalk(t, false)
		c.with(w)
		k, _ := KindNamed(Bench)
		if _, err := k.Make(w); err == nil || !strings.Contains(err.Error(), c.says) || errors.Is(err, ErrUnproven) {
			t.Errorf("%v, want %q", err, c.says)
		}
	}
}

// How far a chip comes from a speed, worked out by hand: at 16 MHz 57600 baud is
// 277.8 cycles a bit, 35 times 8 are 280; 115200 is 17 times 8 of 138.9.
func TestBaudOff(t *testing.T) {
	for _, c := range []struct {
		hz, baud int64
		want     string
	}{{16_000_000, 57600, "-0.79"}, {16_000_000, 115200, "+2.12"}, {7_372_800, 57600, "+0.00"}, {8_000_000, 57600, "+2.12"}, {20_000_000, 57600, "+0.94"}} {
		if got := fmt.Sprintf("%+.2f", 100*baudOff(c.hz, c.baud)); got != c.want {
			t.Errorf("%d baud at %d Hz: %s %%, want %s", c.baud, c.hz, got, c.want)
		}
	}
}
