package rotor

import (
	"fmt"
	"math"

	"coilwalk/model/driver"
	"coilwalk/sequence"
)

// Motion runs a plant in time. It is made once and then used again and again:
// Start, Energise and Advance allocate nothing.
//
//	m := rotor.NewMotion(&plant)
//	m.Start(rotor.State{})
//	m.Energise(order.Row(0))
//	err := m.Advance(0.01)
//
// Where currents, speed and angle are smooth it steps with an error estimate;
// where they are not (a new row, a diode that starts or stops to conduct, a
// current that reaches its limit, the rotor coming to a stand or breaking away)
// it finds the instant on the interpolant and starts anew from there.
type Motion struct {
	// Tolerance is the estimated error that a step may make, as a part of
	// Current, of an electrical radian, and of the speed that goes with an
	// electrical radian at the ring frequency. It is read by Start.
	Tolerance float64

	equations
	plant   *Plant
	fault   error
	seconds float64
	pitch   int64 // whole pitches; the angle in now is beside them
	now     vector
	next    vector
	stages  [16]vector
	weight  vector // 1 over what each place may err
	curve   dense

	step    float64 // s, what to try next
	calmest float64 // s, the longest step ever
	longest float64 // s, the longest between the present events
	opening float64 // s, what was good for the first step of the last row
	opened  bool    // the first step of this row is done

	coils   [4]ways
	at      [4]side // which way each current takes
	load    float64 // N·m at the rotor, constant
	dry     float64 // N·m
	inertia float64 // kg·m² of all that moves with the rotor
	creep   float64 // N·m that an angle off by Tolerance makes
	upper   float64 // N·m: a rotor at rest stays up to this pull, which is friction and creep
	lower   float64 // and this the other way
	stuck   bool
	sense   float64   // +1 or −1: the way it moves, while not stuck
	train   train     // between rotor and load
	guards  [13]guard // three of the rotor, two of the gap, two a coil
	armed   int       // of guards
	listens bool      // a guard waits for a back-EMF, which the equations do not feel
	crowd   int       // events since crowded
	crowded float64   // s

	every float64
	from  float64
	shown int64
	see   func(State)
	work  Work
	most  int // evaluations that work may come to
}

// wave is how much of a back-EMF's wave, in electrical radians, a step may take
// where a coil without current waits for it: more could hide a crest.
const wave = 1.2

// mostAtOnce is more events than can be at one instant: each coil and the rotor
// have a few ways to go.
const mostAtOnce = 100

// DefaultTolerance keeps the angle of a motor that is not at a chaotic edge to
// some 1e-7 of an electrical radian over hundreds of rows.
const DefaultTolerance = 1e-7

// Work counts what was done since Start.
type Work struct {
	Evaluations int // of the equations
	Steps       int
	Refused     int // steps tried and too long
	Events      int // but for new rows
}

// NewMotion makes the machine of a plant ready. A plant that can not be
// (Plant.Check) makes Advance fail, with the same error.
func NewMotion(p *Plant) *Motion {
	m := &Motion{Tolerance: DefaultTolerance}
	m.Use(p)
	return m
}

// Use takes another plant, or the same with other figures. Start comes next.
func (m *Motion) Use(p *Plant) {
	m.plant, m.fault = p, p.Check()
	if m.fault != nil {
		return
	}
	poles := float64(p.PolePairs)
	shiftSin, shiftCos := sinCosDegrees(p.DetentShift)
	m.equations = equations{currents: p.currents(), beyond: ampere + p.currents(), halves: p.Drive == sequence.Unipolar, poles: poles,
		perAmp: poles * p.FluxConstant, damping: p.Damping, detent: p.Detent, shiftSin: shiftSin, shiftCos: shiftCos,
		perShaft: 1 / (poles * p.Ratio)}
	m.train = train{half: p.Play / 2 * math.Pi / 180 / m.perShaft, load: p.Load.Torque / p.Ratio, dry: p.Load.Friction / p.Ratio,
		hangs: p.Load.Gravity / p.Ratio, mass: p.Load.Inertia / (p.Ratio * p.Ratio)}
	m.calmest = 4 / p.RingRadians(math.Sqrt2+4*p.Detent/p.OnePhase())
	m.opening = m.calmest / 100
}

// Start puts the machine into a state, with all outputs off.
func (m *Motion) Start(s State) {
	m.work, m.see, m.most = Work{}, nil, math.MaxInt
	m.seconds, m.pitch = s.Seconds, s.Place.Pitch
	m.crowd, m.crowded = 0, s.Seconds
	m.now = vector{speed: s.Speed, angle: s.Place.Deg * math.Pi / 180}
	for j, i := range s.Currents {
		m.now[ampere+j] = i
	}
	if m.fault != nil {
		return
	}
	tolerance := m.Tolerance
	if !(tolerance >= 1e-15) {
		tolerance = DefaultTolerance
	}
	m.creep = tolerance * m.plant.OnePhase()
	m.carry(0)
	ring := m.plant.RingRadians(1)
	m.weight = vector{speed: m.poles / (ring * tolerance), angle: 1 / tolerance}
	for j := range 4 {
		m.weight[ampere+j] = 1 / (m.plant.Current * tolerance)
	}
	if m.loose {
		half := m.train.half
		m.weight[m.beyond], m.weight[m.beyond+1] = m.weight[speed], m.weight[angle]
		m.now[m.beyond], m.now[m.beyond+1] = s.LoadSpeed, m.now[angle]-min(max(s.Lead*math.Pi/180, -half), half)
	}
	m.Energise(sequence.Row{})
}

// Energise puts a row on, at once.
func (m *Motion) Energise(row sequence.Row) {
	if m.fault != nil {
		return
	}
	m.Feed(m.plant.Stage.Feeds(row, m.plant.Drive, m.plant.Current))
}

// Feed is Energise for coils that are fed some other way than by a whole row:
// a dead output, an open coil. Bipolar the first two count.
func (m *Motion) Feed(feeds [4]driver.Feed) {
	if m.fault != nil {
		return
	}
	for j := range m.coils {
		m.coils[j] = m.plant.ways(feeds[j])
		if m.coils[j].firm {
			m.now[ampere+j] = m.coils[j].hold
		}
	}
	m.step, m.opened = m.opening, false
	m.restart()
}

// Advance runs to a time. It fails for a plant that can not be, and where no
// step is short enough, which is a fault of the program. Where a Limit ends it
// before its time, State says when.
func (m *Motion) Advance(untilSeconds float64) error {
	if m.fault != nil {
		return m.fault
	}
	for m.seconds < untilSeconds && !m.spent() {
		h, last := m.step, false
		if m.listens {
			h = min(h, wave/(m.poles*math.Abs(m.now[speed])))
		}
		if left := untilSeconds - m.seconds; h >= left*(1-1e-9) {
			h, last = left, true
		}
		size := m.trial(h)
		m.work.Evaluations += 11
		if !(size <= 1) { // or it is not a number
			m.work.Refused++
			if m.step = h * shrink(size); m.step < 1e-15*max(1e-3, m.seconds) {
				return fmt.Errorf("the motion at %g s can not be followed: no step is short enough", m.seconds)
			}
			continue
		}
		m.slope(&m.next, &m.stages[12])
		m.work.Evaluations++
		m.work.Steps++
		m.curve.ready = false
		x, event := m.crossing(h)
		end := m.seconds + x*h
		if last && !event {
			end = untilSeconds
		}
		m.show(h, end)
		m.seconds = end
		if grown := h * grow(size); !last || grown > m.step {
			m.step = min(grown, m.longest)
		}
		if !m.opened && !last {
			m.opening, m.opened = min(h*min(grow(size), 2), m.longest), true
		}
		if event {
			m.work.Events++
			if m.crowd++; end > m.crowded+1e-6*m.calmest {
				m.crowd, m.crowded = 0, end
			} else if m.crowd > mostAtOnce {
				return fmt.Errorf("the motion at %g s can not be followed: one event after another, and no time between", m.seconds)
			}
			m.curve.at(x, m.places, &m.now)
			m.pin()
			m.restart()
			continue
		}
		m.now, m.stages[0] = m.next, m.stages[12]
		for g := range m.armed {
			m.guards[g].was, m.guards[g].going = m.guards[g].is, m.guards[g].goes
		}
		m.fold()
	}
	return nil
}

// The step after one whose error was size times the tolerance, as a multiple:
// size^(−1/8), for the pair is of order 8, with bounds that are usual for it.
func shrink(size float64) float64 {
	if math.IsNaN(size) || math.IsInf(size, 0) {
		return 0.1
	}
	return max(0.2, 0.9/eighthRoot(size))
}

func grow(size float64) float64 {
	return min(6, 0.9/max(0.1, eighthRoot(size)))
}

func eighthRoot(x float64) float64 { return math.Sqrt(math.Sqrt(math.Sqrt(x))) }

// Stuck says whether friction, or a perfect balance, holds the rotor where it
// is.
func (m *Motion) Stuck() bool { return m.stuck }

// Work gives the counts since Start.
func (m *Motion) Work() Work { return m.work }

// Limit lets Advance and Settle evaluate the equations so many times more, and
// no further: they then end before their time. Start takes it away.
func (m *Motion) Limit(evaluations int) { m.most = m.work.Evaluations + evaluations }

func (m *Motion) spent() bool { return m.work.Evaluations >= m.most }
