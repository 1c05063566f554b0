package live

import (
	"errors"
	"fmt"
	"math"
	"time"
)

// tickTime is how often a motor at rest is looked at.
const tickTime = 50 * time.Millisecond

// hand is what the motor's goroutine keeps to itself.
type hand struct {
	armed, on  bool
	held       Step      // that was sent last
	since      time.Time // its heat was counted last
	rowSince   time.Time // the row is held, without a run
	touched    time.Time // by a person
	looked     time.Time // at the clocks
	lookedWall time.Time // the one on the wall
	wall       func(now time.Time) time.Time
	pinged     time.Time
	asked      time.Time // the oldest question without an answer
	sent       uint64    // number of the last question
	answered   uint64    // of the last answer

	running *runs // nil without a run
	ran     *runs // the last one, whose rows may not all be acknowledged yet
}

func (m *Motor) begin(now time.Time) {
	m.wall = func(now time.Time) time.Time { return now.Round(0) } // without the monotonic part
	m.touched, m.looked, m.pinged, m.lookedWall = now, now, now, m.wall(now)
	m.readHeat()
}

// errNotArmed is what a row meets that nobody made ready for.
var errNotArmed = errors.New("not armed: nothing is energised before you arm it")

func (m *Motor) arm(now time.Time) error {
	if m.State().Lost {
		return errors.New("the link is lost; leave and connect anew")
	}
	m.stopRun()
	if err := m.link.Arm(); err != nil {
		m.off("it could not be armed: " + err.Error())
		return err
	}
	m.armed, m.on = true, false
	m.touched, m.looked, m.pinged, m.asked = now, now, now, time.Time{}
	m.lookedWall = m.wall(now)
	m.sent, m.answered = 0, 0
	m.ping(now)
	m.change(func(s *State) { s.Armed, s.On, s.Unsure, s.Row, s.Why = true, false, false, 0, "" })
	return nil
}

// ask notes a question that the board has to answer.
func (m *Motor) ask(number uint64, err error, now time.Time) error {
	if err != nil {
		m.off(err.Error())
		return err
	}
	if m.answered >= m.sent {
		m.asked = now
	}
	m.sent, m.pinged = number, now
	return nil
}

func (m *Motor) ping(now time.Time) {
	number, err := m.link.Ping()
	_ = m.ask(number, err, now)
}

func (m *Motor) show(s Step, now time.Time) (uint64, error) {
	if !m.armed {
		return 0, errNotArmed
	}
	m.stopRun()
	m.touched, m.rowSince = now, now
	return m.send(s, now)
}

// send sends a row.
func (m *Motor) send(s Step, now time.Time) (uint64, error) {
	m.pass(now)
	number, err := m.link.Set(s.Outputs, AllOutputs)
	if err := m.ask(number, err, now); err != nil {
		return 0, err
	}
	m.on, m.held, m.since = s.Outputs != 0, s, now
	return number, nil
}

// off switches all off and disarms. It may come twice; only what was on or armed
// is worth a word.
func (m *Motor) off(why string) {
	_ = m.link.Halt()
	m.stopRun()
	was := m.armed || m.on
	m.armed, m.on, m.held = false, false, Step{}
	m.asked = time.Time{}
	m.change(func(s *State) {
		s.Armed, s.On, s.Running, s.Row, s.Left, s.Owed = false, false, false, 0, 0, 0
		s.Off++
		if was || why != "" {
			s.Why = why
		}
	})
}

// heard takes an event of the link.
func (m *Motor) heard(e Event, now time.Time) {
	switch e.Kind {
	case Heard:
		m.answered = max(m.answered, e.Number)
		m.asked = time.Time{}
		if m.answered < m.sent {
			m.asked = now
		}
		if !m.armed {
			return
		}
		m.change(func(s *State) {
			s.Row, s.On, s.Number = e.Row, e.Row != 0, m.answered
			if m.ran != nil {
				s.Ran += m.ran.acknowledged(m.answered)
				s.Owed = len(m.ran.numbers)
			}
		})
	case Lost:
		why := e.Why + m.doubt()
		m.off(why)
		m.change(func(s *State) { s.Lost, s.Unsure, s.Why = true, true, why })
	default: // a later word may say better why than the first did
		m.off(e.Why)
	}
}

// doubt is what has to be said where a halt may not have arrived.
func (m *Motor) doubt() string {
	if guard := m.link.About().Guard; guard.Known {
		return fmt.Sprintf("; its firmware switches off after %.0f s; if unsure, motor supply off", guard.Silence)
	}
	return "; its coils may be on: motor supply off"
}

// pass lets the time that a row has stood count as heat.
func (m *Motor) pass(now time.Time) {
	if m.heat == nil {
		return
	}
	if seconds := now.Sub(m.since).Seconds(); seconds > 0 && !m.since.IsZero() {
		m.heat.Pass(m.held.Coils, math.Min(seconds, 3600))
	}
	m.since = now
}

func (m *Motor) readHeat() (celsius, most float64) {
	if m.heat == nil {
		return 0, 0
	}
	celsius, most = m.heat.Now()
	m.mu.Lock()
	m.state.Celsius, m.state.Most, m.state.Warm = celsius, most, celsius > most-warmKelvin
	m.mu.Unlock()
	return celsius, most
}

// tick looks at everything that may be wrong, and sends what is due.
func (m *Motor) tick(now time.Time) {
	heldUp, wall := now.Sub(m.looked), m.wall(now)
	jumped := (wall.Sub(m.lookedWall) - heldUp).Abs() // one of the two stands still while the machine sleeps
	m.looked, m.lookedWall = now, wall
	m.pass(now)
	celsius, most := m.readHeat()
	if !m.armed {
		m.since = now
		return
	}
	switch {
	case jumped > jumpTime:
		m.off("the clock jumped: this computer slept, or its clock was set")
	case heldUp > jumpTime:
		m.off(fmt.Sprintf("coilwalk itself was held up for %.1f s", heldUp.Seconds()))
	case !m.asked.IsZero() && now.Sub(m.asked) > silentTime:
		m.off("the board has not answered for a second" + m.doubt())
		m.change(func(s *State) { s.Unsure = true })
	case m.on && most > 0 && celsius >= most:
		m.off(fmt.Sprintf("the winding is reckoned to have reached %.0f °C, all that its insulation stands; let it cool", celsius))
	default:
		if left, why := m.left(now); left <= 0 {
			m.off(why)
			return
		} else {
			m.mu.Lock()
			before := m.state.Left
			m.state.Left = left
			m.mu.Unlock()
			if left/time.Second != before/time.Second && m.tell != nil {
				m.tell() // once a second is enough to see it go down
			}
		}
		m.runOn(now)
		if m.armed && now.Sub(m.pinged) >= pingTime {
			m.ping(now)
		}
	}
}

// left gives how long it may stay as it is, and what ends it.
func (m *Motor) left(now time.Time) (time.Duration, string) {
	idle := idleTime
	if m.running != nil {
		idle = idleRun
	}
	left, why := idle-now.Sub(m.touched), "nobody touched a key for a while"
	if m.on && m.running == nil && !m.link.About().Guard.Known {
		if hold := holdUnguarded - now.Sub(m.rowSince); hold < left {
			left, why = hold, "this firmware does not switch off by itself if coilwalk dies, so no row is held for longer than 10 s"
		}
	}
	return left, why
}

// next gives how long the loop may wait.
func (m *Motor) next(now time.Time) time.Duration {
	if m.running != nil {
		if due := m.running.due.Sub(now); due < tickTime {
			return max(due, 0)
		}
	}
	return tickTime
}
