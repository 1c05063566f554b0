package rotor

import (
	"math"

	"coilwalk/sequence"
)

// Trials runs a plant at rates: from a stand, or on from another rate. It is made
// once for a plant and an order, and used for as many rates as are wanted; not by
// two goroutines at once.
type Trials struct {
	plant  Plant
	order  sequence.Order
	per    float64 // electrical degrees to a row
	motion *Motion
	held   []State // at rest on each row of the cycle that a trial starts from
	err    error
	Count  int // trials run so far
}

// What a trial is. A start is at rest on a held row, as many rows at a constant
// rate, and a stop; it succeeds if the rotor comes to rest where it was
// commanded to, from each row of the cycle.
const (
	trialRows      = 100
	trialTolerance = 1e-5 // of Motion: a trial that this decides is at a chaotic edge anyway
	settleSeconds  = 1.0
	lostDegrees    = 180.0 // electrical: nearer than that to the commanded rest is the commanded rest
	hopeless       = 540.0 // electrical, behind or before: it will not come back
)

// NewTrials makes trials of an order that follows a step mode.
func NewTrials(p Plant, mode sequence.Mode) *Trials {
	t := &Trials{plant: p, order: mode.Order(), per: 90 / float64(mode.PerStep)}
	t.motion = NewMotion(&t.plant)
	t.motion.Tolerance = trialTolerance
	t.hold()
	return t
}

// Load puts another constant load on the output shaft, in N·m.
func (t *Trials) Load(torque float64) {
	t.plant.Load.Torque = torque
	t.motion.Use(&t.plant)
	t.hold()
}

// hold lets the rotor come to rest on each row that trials start from. Rows a
// whole electrical quarter apart are alike to a machine of equal phases, so the
// first quarter's are enough.
func (t *Trials) hold() {
	t.held, t.err = t.held[:0], t.plant.CheckPace()
	if t.err != nil {
		return
	}
	quarter := max(1, int(math.Round(90/t.per)))
	for row := range quarter {
		if t.plant.adrift(t.order.Row(int64(row))) {
			t.held = append(t.held, State{Seconds: -1})
			continue
		}
		at := float64(row) * t.per
		if deg, ok := t.order.Row(int64(row)).Field().Degrees(); ok {
			at = deg
		}
		m := t.motion
		m.Start(State{Place: Position{}.moved(at)})
		m.Energise(t.order.Row(int64(row)))
		if _, ok, err := m.Settle(t.order.Row(int64(row)), settleSeconds); err != nil || !ok {
			t.err = err
			t.held = append(t.held, State{Seconds: -1}) // the load is too much to be held at all
			continue
		}
		s := m.State()
		s.Seconds = 0
		t.held = append(t.held, s)
	}
}

// Err gives what keeps the plant from being run.
func (t *Trials) Err() error { return t.err }

// Start says whether the motor starts, follows and stops at a rate in rows a
// second, from each row of the cycle.
func (t *Trials) Start(rate float64) bool {
	return t.each(trialRows, func(k int) float64 { return float64(k+1) / rate })
}

// Paced says the same of a start whose rows last so many seconds each: on through rows
// as long as the last of them, and back along them to a stop, as a stepping source
// does it. Once it was brought up a rate is watched for as long as Holds watches one.
func (t *Trials) Paced(lasting []float64) bool {
	n := len(lasting)
	if n == 0 {
		return false
	}
	even := trialRows
	if n > 1 {
		even = LongestWatch * max(1, int(math.Round(90/t.per)))
	}
	ends := make([]float64, 0, 2*n+even)
	now := 0.0
	for k := range cap(ends) {
		now += lasting[min(k, n-1, cap(ends)-1-k)]
		ends = append(ends, now)
	}
	return t.each(len(ends), func(k int) float64 { return ends[k] })
}

// each says whether the rotor follows so many rows from each row of the cycle; row
// k from 0 stands until so many seconds.
func (t *Trials) each(rows int, until func(k int) float64) bool {
	for row := range t.held {
		if !t.follows(row, rows, until) {
			return false
		}
	}
	return len(t.held) > 0
}

func (t *Trials) follows(row, rows int, until func(k int) float64) bool {
	from := t.held[row]
	if from.Seconds < 0 || t.err != nil {
		return false
	}
	t.Count++
	m := t.motion
	m.Start(from)
	for k := range rows {
		m.Energise(t.order.Row(int64(row + 1 + k)))
		if t.err = m.Advance(until(k)); t.err != nil {
			return false
		}
		if off := t.off(from, k+1); math.Abs(off) > hopeless {
			return false
		}
	}
	_, ok, err := m.Settle(t.order.Row(int64(row+rows)), settleSeconds)
	t.err = err
	return ok && math.Abs(t.off(from, rows)) < lostDegrees
}

// off gives how far, in electrical degrees, the rotor is from where so many rows
// command it from a state.
func (t *Trials) off(from State, rows int) float64 {
	return t.motion.State().Place.From(from.Place) - float64(rows)*t.per
}

// Runs is a motor on its way: turning at a rate, in step.
type Runs struct {
	state State
	row   int64
	rows  int // commanded since from
	from  State
	Rate  float64
}

// Rows that a change of rate is spread over, and that are then run at the new one.
const (
	changeRows = 60
	steadyRows = 60
)

// Running starts the motor at a rate at which it can, and lets it run. ok is
// false when it does not start.
func (t *Trials) Running(rate float64) (r Runs, ok bool) {
	if len(t.held) == 0 || t.held[0].Seconds < 0 || t.err != nil {
		return r, false
	}
	r = Runs{state: t.held[0], from: t.held[0], Rate: rate}
	return t.To(r, rate)
}

// To brings a running motor to another rate, little by little over changeRows,
// and runs it there; ok is false when it falls out of step.
func (t *Trials) To(r Runs, rate float64) (Runs, bool) {
	t.Count++
	m := t.motion
	m.Start(r.state)
	now := r.state.Seconds
	for k := range changeRows + steadyRows {
		at := rate
		if k < changeRows {
			at = r.Rate + (rate-r.Rate)*float64(k+1)/changeRows
		}
		r.row++
		r.rows++
		m.Energise(t.order.Row(r.row))
		now += 1 / at
		if t.err = m.Advance(now); t.err != nil {
			return r, false
		}
		// In step the rotor is less than half a cycle behind its row; a swing at a
		// resonance may take it further for a moment.
		if off := t.off(r.from, r.rows); math.Abs(off) > 360 {
			return r, false
		}
	}
	inStep := math.Abs(t.off(r.from, r.rows)) < 300
	r.state, r.Rate = m.State(), rate
	return r, inStep
}
