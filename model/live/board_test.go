package live

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"
)

// connected opens a board on a fake, and lets nothing of it be left behind.
func connected(t *testing.T, f *fakeBoard, w Wanted) *Board {
	t.Helper()
	b, err := shake(f, "fake", w)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

func next(t *testing.T, b *Board) Event {
	t.Helper()
	select {
	case e := <-b.Events():
		return e
	case <-time.After(20 * time.Second):
		t.Fatal("nothing came")
	}
	return Event{}
}

// The bytes of each message (firmata/protocol, protocol.md: 91 09 00 is pins 8 and
// 11 high, F4 08 01 makes an output of pin 8).
func TestMessagesOnTheLine(t *testing.T) {
	f := &fakeBoard{guarded: true, unable: -1}
	b := connected(t, f, Wanted{})
	if got := b.About(); got.Firmware != "Bed" || got.Guard != (Guard{true, 2}) || got.Pins != [4]int{8, 9, 10, 11} || got.Low {
		t.Errorf("the board is known as %+v", got)
	}
	if f.switched() {
		t.Fatalf("opening sent % x, which switches", f.sent())
	}
	before := len(f.sent())
	if err := b.Arm(); err != nil {
		t.Fatal(err)
	}
	want := []byte{0x91, 0, 0, 0xF4, 8, 1, 0xF4, 9, 1, 0xF4, 10, 1, 0xF4, 11, 1, 0x91, 0, 0}
	if got := f.sent()[before:]; !bytes.HasPrefix(got, want) {
		t.Errorf("arming sent % x, want % x first", got, want)
	}
	next(t, b)
	before = len(f.sent())
	number, err := b.Set(0b1001, AllOutputs)
	if err != nil {
		t.Fatal(err)
	}
	if e := next(t, b); e.Kind != Heard || e.Number != number || e.Row != 0b1001 {
		t.Errorf("the row is answered by %+v", e)
	}
	if got := f.sent()[before:]; !bytes.HasPrefix(got, []byte{0x91, 9, 0}) {
		t.Errorf("the row was sent as % x, want 91 09 00", got)
	}
	if _, err := b.Set(0b0010, 0b0011); err != nil { // output 1 off, 2 on, the others stay
		t.Fatal(err)
	}
	if e := next(t, b); e.Row != 0b1010 {
		t.Errorf("a masked row stands as %s, want 0101", e.Row)
	}
}

func TestLowLevelSwitchesOn(t *testing.T) {
	f := &fakeBoard{guarded: true, low: true, unable: -1}
	b := connected(t, f, Wanted{})
	if err := b.Arm(); err != nil {
		t.Fatal(err)
	}
	next(t, b)
	before := len(f.sent())
	if _, err := b.Set(0b0001, AllOutputs); err != nil {
		t.Fatal(err)
	}
	if e := next(t, b); e.Kind != Heard || e.Row != 1 {
		t.Errorf("answered by %+v", e)
	}
	if got := f.sent()[before:]; !bytes.HasPrefix(got, []byte{0x91, 0x0E, 0}) {
		t.Errorf("sent % x; pin 8 alone low is 91 0e 00", got)
	}
}

// What can not be done is refused before anything is switched.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		name  string
		board *fakeBoard
		want  Wanted
		says  string
	}{
		{"a pin that can not", &fakeBoard{unable: 9}, Wanted{}, "pin 9 can not be an output"},
		{"two groups", &fakeBoard{unable: -1}, Wanted{Pins: [4]int{6, 7, 8, 9}}, "two groups of eight"},
		{"twice", &fakeBoard{unable: -1}, Wanted{Pins: [4]int{8, 9, 9, 10}}, "named twice"},
		{"no such pin", &fakeBoard{unable: -1}, Wanted{Pins: [4]int{40, 41, 42, 43}}, "no pin 40"},
		{"low without a guard", &fakeBoard{unable: -1}, Wanted{Low: true, Given: true}, "coilwalk write firmware"},
		{"another level", &fakeBoard{guarded: true, unable: -1}, Wanted{Low: true, Given: true}, "high level"},
		{"other pins", &fakeBoard{guarded: true, unable: -1}, Wanted{Pins: [4]int{2, 3, 4, 5}}, "8, 9, 10 and 11"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			f := c.board
			b, err := shake(f, "fake", c.want)
			if err == nil {
				b.Close()
				t.Fatal("it was taken")
			}
			if !errors.As(err, new(Unfit)) || !strings.Contains(err.Error(), c.says) {
				t.Errorf("refused with %q, want %q in it", err, c.says)
			}
			if f.switched() {
				t.Errorf("it switched before it refused: % x", f.sent())
			}
		})
	}
}

// Anything that is not as it was sent is told.
func TestSurprises(t *testing.T) {
	for _, c := range []struct {
		name    string
		guarded bool
		what    func(*fakeBoard, *Board)
		kind    Kind
		says    string
	}{
		{"another row", true, func(f *fakeBoard, b *Board) { f.set(func() { f.wrong = 4 }); b.Set(1, AllOutputs) }, Dropped, "stand at 1010 where 1000"},
		{"another row, without a guard", false, func(f *fakeBoard, b *Board) { f.set(func() { f.wrong = 4 }); b.Set(1, AllOutputs); next2(b); b.Ping() }, Dropped, "output 3"},
		{"switched off by itself", true, func(f *fakeBoard, b *Board) { f.says(0xF0, 0x0E, 1, 1, 0xF7) }, Dropped, "heard nothing"},
		{"restarted", true, func(f *fakeBoard, b *Board) { f.says(0xF0, 0x0E, 1, 4, 0xF7) }, Restarts, "watchdog"},
		{"begun anew, without a guard", false, func(f *fakeBoard, b *Board) { f.says(0xF9, 2, 5) }, Restarts, "anew"},
		{"gone", true, func(f *fakeBoard, b *Board) { f.Close() }, Lost, "gone"},
		{"disarmed behind our back", true, func(f *fakeBoard, b *Board) { f.set(func() { f.armed = false }); b.Ping() }, Dropped, "where 0000"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			f := &fakeBoard{guarded: c.guarded, unable: -1}
			b := connected(t, f, Wanted{})
			if err := b.Arm(); err != nil {
				t.Fatal(err)
			}
			next(t, b) // the ping of arming
			c.what(f, b)
			for range 4 {
				e := next(t, b)
				if e.Kind == Heard {
					continue
				}
				if e.Kind != c.kind || !strings.Contains(e.Why, c.says) {
					t.Errorf("told as %+v, want kind %d with %q", e, c.kind, c.says)
				}
				return
			}
			t.Error("nothing was told")
		})
	}
}

func next2(b *Board) { <-b.Events() }

// Garbage before, between and after messages costs none of the whole ones.
func TestInStepAgainAfterGarbage(t *testing.T) {
	f := &fakeBoard{guarded: true, unable: -1}
	f.out = []byte{0x55, 0x91, 0x03, 0xF0, 0x79, 0x02, 0xF0, 0xF7, 0x80, 0x7F}
	b := connected(t, f, Wanted{})
	if err := b.Arm(); err != nil {
		t.Fatal(err)
	}
	next(t, b)
	f.says(0x01, 0x02, 0xF0, 0x11)
	if _, err := b.Set(2, AllOutputs); err != nil {
		t.Fatal(err)
	}
	if e := next(t, b); e.Kind != Heard || e.Row != 2 {
		t.Errorf("after garbage: %+v", e)
	}
}

func TestSilentBoardIsNoBoard(t *testing.T) {
	f := &fakeBoard{deaf: true}
	done := make(chan error, 1)
	go func() { _, err := shake(f, "fake", Wanted{Baud: 57600, patience: time.Second}); done <- err }()
	f2 := &fakeBoard{deaf: true}
	go func() { time.Sleep(200 * time.Millisecond); f2.Close() }() // unplugged in mid-question
	if _, err := shake(f2, "fake", Wanted{}); err == nil || !strings.Contains(err.Error(), "closed") && !strings.Contains(err.Error(), "reached") {
		t.Errorf("unplugged: %v", err)
	}
	if err := <-done; err == nil || !strings.Contains(err.Error(), "does not answer") || !strings.Contains(err.Error(), "write firmware") {
		t.Errorf("silent: %v", err)
	}
}
