package live

import (
	"fmt"
	"sync"
	"time"

	"coilwalk/sequence"
)

// Step is one row to be energised.
type Step struct {
	Outputs Row
	Coils   sequence.Row // what arrives at the coil ends, for the heat
}

// Heat follows how warm the winding gets.
type Heat interface {
	Pass(coils sequence.Row, seconds float64)
	Now() (celsius, most float64) // most is what the insulation stands
}

// Limits of what is held and for how long.
const (
	idleTime      = time.Minute      // armed at rest without a key
	idleRun       = 10 * time.Minute // running without a key
	holdUnguarded = 10 * time.Second // a row, where no firmware switches off by itself
	pingTime      = 400 * time.Millisecond
	silentTime    = time.Second // without an answer that is due
	jumpTime      = time.Second // that the clocks may jump apart, or this program be held up
	warmKelvin    = 15.0        // below what the insulation stands, from which on it is warned of
)

// Motor is a real motor on a link: armed by a person, energised row by row, and
// switched off whenever something is not as it should be. Its methods are safe
// for several goroutines.
type Motor struct {
	link Link
	heat Heat
	tell func() // something has changed; nil for nobody

	commands chan func()
	done     chan struct{}
	ended    chan struct{} // the loop has
	once     sync.Once

	mu    sync.Mutex
	state State

	hand // only touched by the goroutine of loop
}

// State is how a motor stands.
type State struct {
	About   About
	Armed   bool
	On      bool   // a row is held or runs, as far as was acknowledged
	Row     Row    // as the board said
	Number  uint64 // of the last row that was acknowledged, as Show gave it
	Running bool
	Rate    float64 // rows a second of the run
	Ran     int64   // rows of all runs that were acknowledged
	Owed    int     // rows of the last run that were sent and are not acknowledged yet
	Pace    Pace
	Why     string        // why it was switched off or disarmed last; "" when a person did it
	Off     uint64        // counts how often all was switched off
	Lost    bool          // the link has ended
	Unsure  bool          // nobody can know whether the last halt arrived
	Celsius float64       // of the winding, reckoned; 0 when that is not known
	Most    float64       // what its insulation stands
	Warm    bool          // nearly that
	Left    time.Duration // until it is switched off by itself; 0 where nothing does
}

// Hold takes a link in hand. Tell is called, from another goroutine, whenever
// State has changed, and must not wait.
func Hold(link Link, heat Heat, tell func()) *Motor {
	m := newMotor(link, heat, tell)
	go m.loop()
	return m
}

func newMotor(link Link, heat Heat, tell func()) *Motor {
	m := &Motor{link: link, heat: heat, tell: tell, commands: make(chan func(), 16), done: make(chan struct{}), ended: make(chan struct{})}
	m.state.About = link.About()
	m.begin(time.Now())
	return m
}

// State gives how it stands.
func (m *Motor) State() State {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.state
}

// do runs something in the motor's own goroutine and waits for it; false when the
// motor is closed.
func (m *Motor) do(what func()) bool {
	ran := make(chan struct{})
	select {
	case m.commands <- func() { defer close(ran); what() }:
	case <-m.done:
		return false
	}
	select {
	case <-ran:
		return true
	case <-m.done:
		return false
	}
}

// Arm makes the motor ready: from now on rows are sent. Nothing is energised yet.
func (m *Motor) Arm() (err error) {
	if !m.do(func() { err = m.arm(time.Now()) }) {
		return ErrClosed
	}
	return err
}

// Show energises a row and holds it. It does not wait for the acknowledgement:
// State has it once its Number is no smaller.
func (m *Motor) Show(s Step) (number uint64, err error) {
	if !m.do(func() { number, err = m.show(s, time.Now()) }) {
		return 0, ErrClosed
	}
	return number, err
}

// Run sends rows of a cycle again and again, the first at once.
func (m *Motor) Run(cycle []Step, rowsPerSecond float64) (err error) {
	if !m.do(func() { err = m.run(cycle, rowsPerSecond, time.Now()) }) {
		return ErrClosed
	}
	return err
}

// Play sends rows once, each for its own time, the first at once; the last is held.
func (m *Motor) Play(rows []Timed) (err error) {
	if !m.do(func() { err = m.play(rows, time.Now()) }) {
		return ErrClosed
	}
	return err
}

// Pause ends a run; its last row is held.
func (m *Motor) Pause() {
	m.do(func() { m.pause(time.Now()) })
}

// Off switches all coils off at once, and disarms. Why is "" when a person
// wanted it.
func (m *Motor) Off(why string) {
	_ = m.link.Halt() // at once, whatever the loop does
	m.do(func() { m.off(why) })
}

// Touch says that somebody is there.
func (m *Motor) Touch() {
	m.do(func() { m.touched = time.Now() })
}

// Close switches off and ends the link.
func (m *Motor) Close() error {
	halting := m.link.Halt()
	m.once.Do(func() { close(m.done) })
	select {
	case <-m.ended: // nothing is sent any more, and an end of the link is meant
	case <-time.After(writeTime):
	}
	if err := m.link.Close(); halting == nil {
		halting = err
	}
	return halting
}

// loop is the one goroutine that holds the motor. A fault of ours in it switches
// off as everything else does.
func (m *Motor) loop() {
	defer close(m.ended)
	defer func() {
		if r := recover(); r != nil {
			_ = m.link.Halt()
			m.change(func(s *State) {
				s.Armed, s.On, s.Running, s.Lost = false, false, false, true
				s.Why = fmt.Sprintf("a fault of coilwalk itself: %v", r)
			})
			m.once.Do(func() { close(m.done) })
		}
	}()
	timer := time.NewTimer(tickTime)
	defer timer.Stop()
	events := m.link.Events()
	for {
		timer.Reset(m.next(time.Now()))
		select {
		case <-m.done:
			return
		case c := <-m.commands:
			c()
		case e, open := <-events:
			if !open {
				events = nil
				e = Event{Kind: Lost, Why: "the link has ended"}
			}
			m.heard(e, time.Now())
		case <-timer.C:
			m.tick(time.Now())
		}
	}
}

// change changes the state that others see.
func (m *Motor) change(how func(*State)) {
	m.mu.Lock()
	how(&m.state)
	m.mu.Unlock()
	if m.tell != nil {
		m.tell()
	}
}
