package live

import (
	"errors"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"coilwalk/sequence"
	"pgregory.net/rapid"
)

// spyLink is a link that notes what is sent, and answers when it is told to.
type spyLink struct {
	rows    []Row // sent, a halt being 0
	number  uint64
	halts   int
	armed   bool
	guarded bool
	fails   error
}

func (s *spyLink) Arm() error {
	s.armed = s.fails == nil
	return s.fails
}

func (s *spyLink) Set(value, mask Row) (uint64, error) {
	if s.fails != nil {
		return 0, s.fails
	}
	s.rows = append(s.rows, value&mask)
	s.number++
	return s.number, nil
}

func (s *spyLink) Ping() (uint64, error) {
	s.number++
	return s.number, s.fails
}

func (s *spyLink) Halt() error {
	s.rows, s.armed = append(s.rows, 0), false
	s.halts++
	return nil
}

func (s *spyLink) State() Row           { return 0 }
func (s *spyLink) Events() <-chan Event { return nil }
func (s *spyLink) About() About {
	return About{Guard: Guard{Known: s.guarded, Silence: 2}, Pins: [4]int{8, 9, 10, 11}}
}
func (s *spyLink) Close() error { return nil }

func (s *spyLink) last() Row {
	if len(s.rows) == 0 {
		return 0
	}
	return s.rows[len(s.rows)-1]
}

// kettle is a winding that warms by a kelvin in each second that a row is on.
type kettle struct{ celsius float64 }

func (k *kettle) Pass(coils sequence.Row, seconds float64) {
	if coils != (sequence.Row{}) {
		k.celsius += seconds
	}
}
func (k *kettle) Now() (celsius, most float64) { return k.celsius, 105 }

var (
	one   = Step{Outputs: 1, Coils: sequence.Row{1}}
	other = Step{Outputs: 2, Coils: sequence.Row{0, 1}}
)

// held gives a motor that is armed and holds a row, and the time of that. There
// is no loop: the test is its clock.
func held(t *testing.T, link *spyLink, heat Heat) (*Motor, time.Time) {
	t.Helper()
	m := newMotor(link, heat, nil)
	now := time.Now()
	if err := m.arm(now); err != nil {
		t.Fatal(err)
	}
	n, err := m.show(one, now)
	if err != nil {
		t.Fatal(err)
	}
	m.heard(Event{Kind: Heard, Number: n, Row: 1}, now)
	if s := m.State(); !s.Armed || !s.On || s.Row != 1 {
		t.Fatalf("armed and on it stands as %+v", s)
	}
	return m, now
}

// goOn lets time go by, looked at as often as the loop does, with a board that
// answers each question.
func goOn(m *Motor, link *spyLink, now time.Time, by time.Duration) time.Time {
	for end := now.Add(by); now.Before(end); {
		now = now.Add(tickTime)
		m.tick(now)
		if m.armed {
			m.heard(Event{Kind: Heard, Number: link.number, Row: m.held.Outputs}, now)
		}
	}
	return now
}

// Each thing that may go wrong by itself switches off, disarms, and says why.
func TestWhatSwitchesOff(t *testing.T) {
	for _, c := range []struct {
		name      string
		unguarded bool
		heat      Heat
		does      func(m *Motor, link *spyLink, now time.Time)
		says      string
	}{
		{"nobody there", false, nil, func(m *Motor, l *spyLink, now time.Time) { goOn(m, l, now, idleTime+time.Second) }, "nobody touched a key"},
		{"held without a guard", true, nil, func(m *Motor, l *spyLink, now time.Time) { goOn(m, l, now, holdUnguarded+time.Second) }, "10 s"},
		{"lost without a guard", true, nil, func(m *Motor, l *spyLink, now time.Time) { m.heard(Event{Kind: Lost, Why: "gone"}, now) }, "its coils may be on: motor supply off"},
		{"no answer", false, nil, func(m *Motor, l *spyLink, now time.Time) {
			for range 60 {
				now = now.Add(tickTime)
				m.tick(now)
			}
		}, "not answered for a second; its firmware switches off after 2 s"},
		{"too warm", false, &kettle{103}, func(m *Motor, l *spyLink, now time.Time) { goOn(m, l, now, 3*time.Second) }, "105 °C"},
		{"held up", false, nil, func(m *Motor, l *spyLink, now time.Time) { m.tick(now.Add(3 * time.Second)) }, "held up for 3.0 s"},
		{"the computer slept", false, nil, func(m *Motor, l *spyLink, now time.Time) {
			m.wall = func(now time.Time) time.Time { return now.Round(0).Add(time.Hour) }
			m.tick(now.Add(tickTime))
		}, "the clock jumped"},
		{"lost", false, nil, func(m *Motor, l *spyLink, now time.Time) { m.heard(Event{Kind: Lost, Why: "gone"}, now) }, "gone"},
		{"the board's own", false, nil, func(m *Motor, l *spyLink, now time.Time) { m.heard(Event{Kind: Dropped, Why: "silence"}, now) }, "silence"},
		{"it can not be sent", false, nil, func(m *Motor, l *spyLink, now time.Time) { l.fails = errors.New("no cable"); m.show(other, now) }, "no cable"},
	} {
		t.Run(c.name, func(t *testing.T) {
			link := &spyLink{guarded: !c.unguarded}
			m, now := held(t, link, c.heat)
			c.does(m, link, now)
			s := m.State()
			if s.Armed || s.On || s.Running || link.armed || link.last() != 0 || link.halts == 0 {
				t.Errorf("it stands as %+v, the link at %s after %d halts", s, link.last(), link.halts)
			}
			if !strings.Contains(s.Why, c.says) {
				t.Errorf("it says %q, want %q in it", s.Why, c.says)
			}
			if _, err := m.show(other, now.Add(time.Minute)); err == nil {
				t.Error("a row is taken after it")
			}
		})
	}
}

// What does not matter switches nothing off: a hand at the keys, a board that
// answers, and a row that is held for long where the firmware guards it.
func TestWhatDoesNot(t *testing.T) {
	link := &spyLink{guarded: true}
	m, now := held(t, link, &kettle{-60})
	for range 4 {
		m.touched = now
		now = goOn(m, link, now, idleTime/2)
	}
	if s := m.State(); !s.Armed || !s.On || s.Celsius < 59 || s.Celsius > 61 {
		t.Errorf("it stands as %+v; two minutes of a kelvin a second from -60 °C", s)
	}
}

// A run keeps its rate, does not crowd rows after it was late, and counts what was
// acknowledged only.
func TestRunInTime(t *testing.T) {
	link := &spyLink{guarded: true}
	m, now := held(t, link, nil)
	before := len(link.rows)
	if err := m.run([]Step{one, other}, 100, now); err != nil {
		t.Fatal(err)
	}
	for range 50 { // exactly in time
		now = now.Add(10 * time.Millisecond)
		m.runOn(now)
	}
	if got := len(link.rows) - before; got != 51 {
		t.Errorf("%d rows in half a second at 100 a second, want 51", got)
	}
	for k, row := range link.rows[before:] {
		if want := Row(1 + k%2); row != want {
			t.Fatalf("row %d is %s", k, row)
		}
	}
	if ran := m.State().Ran; ran != 0 {
		t.Errorf("%d rows count before any was acknowledged", ran)
	}
	m.heard(Event{Kind: Heard, Number: link.number - 3, Row: 1}, now)
	if ran := m.State().Ran; ran != 48 {
		t.Errorf("%d rows count, 48 were acknowledged", ran)
	}
	late := now.Add(35 * time.Millisecond)
	before = len(link.rows)
	m.runOn(late)
	m.runOn(late.Add(time.Millisecond))
	if got := len(link.rows) - before; got != 1 {
		t.Errorf("%d rows at once after a delay, want 1", got)
	}
	if p := m.State().Pace; p.Worst != 25*time.Millisecond || p.Rows != 52 {
		t.Errorf("the pace is told as %+v; the last row was 25 ms late", p)
	}
	if err := m.run([]Step{one}, 201, now); err == nil || !strings.Contains(err.Error(), "200") {
		t.Errorf("201 rows a second: %v", err)
	}
}

// Whatever is done in whatever order: without arming nothing is sent, and after
// off, nothing is on.
func TestNeverOnUnarmed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		link := &spyLink{guarded: rapid.Bool().Draw(t, "guarded")}
		m := newMotor(link, nil, nil)
		now := time.Now()
		armed := false
		for range rapid.IntRange(1, 30).Draw(t, "n") {
			now = now.Add(time.Duration(rapid.IntRange(0, 1500).Draw(t, "ms")) * time.Millisecond)
			before := len(link.rows)
			switch rapid.IntRange(0, 6).Draw(t, "what") {
			case 0:
				armed = m.arm(now) == nil || armed
			case 1:
				_, _ = m.show(other, now)
			case 2:
				_ = m.run([]Step{one, other}, 50, now)
			case 3:
				m.tick(now)
			case 4:
				m.off("")
			case 5:
				m.heard(Event{Kind: Heard, Number: link.number, Row: m.held.Outputs}, now)
			case 6:
				m.heard(Event{Kind: Dropped, Why: "so"}, now)
			}
			s := m.State()
			if !armed {
				for _, row := range link.rows[before:] {
					if row != 0 {
						t.Fatalf("%s was sent unarmed", row)
					}
				}
			}
			if armed = s.Armed; !armed && (link.last() != 0 || s.On || s.Running || m.running != nil) {
				t.Fatalf("disarmed, but the link is at %s, %+v", link.last(), s)
			}
		}
	})
}

// broken is a heat with a fault of ours in it.
type broken struct{}

func (b *broken) Pass(sequence.Row, float64) { panic("a fault") }
func (b *broken) Now() (float64, float64)    { return 25, 105 }

// A fault of ours in the goroutine that holds the motor switches off like any
// other, and nothing is taken after it.
func TestFaultOfOurs(t *testing.T) {
	link := NewNull()
	told := make(chan struct{}, 100)
	m := Hold(link, &broken{}, func() { told <- struct{}{} })
	defer m.Close()
	for range 200 {
		if s := m.State(); s.Lost {
			if s.Armed || s.On || !strings.Contains(s.Why, "a fault of coilwalk itself: a fault") || link.State() != 0 {
				t.Errorf("it stands as %+v, the link at %s", s, link.State())
			}
			if err := m.Arm(); err == nil {
				t.Error("it can be armed after it")
			}
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	t.Fatal("the fault was never told")
}

// What a sitting records is what was acknowledged; after a halt a late word counts
// no more.
func TestRecorder(t *testing.T) {
	link := newSilentLink()
	var file written
	var passed atomic.Int64 // s
	now := func() time.Time { return time.Unix(1000+passed.Load(), 0) }
	r := Record(link, &file, []string{"a head $end\n#99"}, now)
	go func() {
		for range r.Events() {
		}
	}()
	hear := func(row Row) {
		link.events <- Event{Kind: Heard, Row: row}
		for len(link.events) > 0 {
			time.Sleep(time.Millisecond)
		}
		time.Sleep(5 * time.Millisecond)
	}
	if err := r.Arm(); err != nil {
		t.Fatal(err)
	}
	passed.Add(1)
	hear(0b0011)
	passed.Add(1)
	hear(0b0110)
	r.Note("kick BN WH cw")
	passed.Add(1)
	if err := r.Halt(); err != nil {
		t.Fatal(err)
	}
	hear(0b1111)
	passed.Add(1)
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	_, body, _ := strings.Cut(string(file), "$dumpvars")
	want := "\n0!\n0\"\n0#\n0$\n$end\n#1000000\n1!\n1\"\n#2000000\n0!\n1#\n$comment kick BN WH cw $end\n#3000000\n0\"\n0#\n#4000000\n"
	if body != want {
		t.Errorf("recorded\n%s\nwant\n%s", body, want)
	}
	if strings.Count(string(file), "$end") != strings.Count(want, "$end")+11 || !strings.Contains(string(file), "a head .end.#99") {
		t.Errorf("the head can end its own comment:\n%s", string(file))
	}
}

// written is a file in memory.
type written []byte

func (w *written) Write(bytes []byte) (int, error) { *w = append(*w, bytes...); return len(bytes), nil }
func (w *written) Close() error                    { return nil }

// silentLink tells what it is given to.
type silentLink struct {
	*Null
	events chan Event
}

func newSilentLink() *silentLink           { return &silentLink{NewNull(), make(chan Event, 8)} }
func (s *silentLink) Events() <-chan Event { return s.events }
func (s *silentLink) Close() error         { close(s.events); return nil }
