package power

import (
	"math"

	"coilwalk/sequence"
)

// Cost is what a row takes while the rotor stands.
type Cost struct {
	Volts    float64    // at the supply's terminals
	Ampere   float64    // out of the supply
	Coils    [4]float64 // A, with their sign: unipolar half-coils, bipolar phases
	Copper   float64    // W
	Lost     [4]float64 // W in the stage, of each coil's way
	Source   float64    // W in the supply's own resistance
	Series   float64    // W in the resistors in series with the coils
	Strength float64    // of the field, in that of one phase at its rated current
}

// Stage gives what the driver stage turns into heat, in W.
func (c Cost) Stage() float64 { return c.Lost[0] + c.Lost[1] + c.Lost[2] + c.Lost[3] }

// In gives what the coils take from the supply's terminals, in W.
func (c Cost) In() float64 { return c.Copper + c.Stage() + c.Series }

// costs works out a row at temperatures of winding and junction, in °C.
func (q *Question) costs(row sequence.Row, c coil, windingC, junctionC float64) Cost {
	ohms := c.at(windingC) + q.Series
	spent := func(volts float64) (cost Cost) {
		cost.Coils = q.Stage.Steady(row, q.Connection.Drive, q.set(), volts, ohms, junctionC)
		for j, i := range cost.Coils {
			if i == 0 {
				continue
			}
			i = math.Abs(i)
			feed := q.Stage.Around(i, junctionC).Feeds(row, q.Connection.Drive, q.set())[j]
			way := feed.Above
			if cost.Coils[j] < feed.Hold || feed.Hold == 0 && cost.Coils[j] < 0 {
				way = feed.Below
			}
			cost.Lost[j] = i * (way.Switch.At(i) + way.Diode.At(i))
			cost.Copper += i * i * c.at(windingC)
			cost.Series += i * i * q.Series
		}
		return cost
	}
	volts := q.Supply.Meets(func(u float64) float64 { return spent(u).In() / max(u, 1e-9) }, false)
	cost := spent(volts)
	cost.Volts = volts
	if volts > 0 {
		cost.Ampere = cost.In() / volts
	}
	cost.Source = cost.Ampere * (q.Supply.Volts - volts)
	cost.Strength = q.strength(cost, c)
	return cost
}

// strength gives the field of a row in that of one phase at its rated current.
func (q *Question) strength(cost Cost, c coil) float64 {
	i := cost.Coils
	return math.Hypot(i[0]-i[2], i[1]-i[3]) / c.rated
}

// ModeCost is what a step mode takes slowly, row by row at rest, with all cold.
type ModeCost struct {
	Mode    sequence.Mode
	Average float64 // A out of the supply
	Peak    float64 // A
	Rest    Cost    // on the row that costs most
	Least   Cost    // and on the one that costs least
	In      float64 // W, mean over the rows, as all that follow
	Copper  float64
	Series  float64
	Stage   float64
	Source  float64
	Row     int // from 1, the one that costs most
}

// modeCosts goes through the rows of the first quarter of a mode's cycle, which all
// others are like: phases and halves are equal.
func (q *Question) modeCosts(mode sequence.Mode, c coil, windingC, junctionC float64) ModeCost {
	order := mode.Order()
	m := ModeCost{Mode: mode}
	n := float64(mode.PerStep)
	for k := range mode.PerStep {
		cost := q.costs(order.Row(int64(k)), c, windingC, junctionC)
		m.Average += cost.Ampere / n
		m.In += cost.In() / n
		m.Copper += cost.Copper / n
		m.Series += cost.Series / n
		m.Stage += cost.Stage() / n
		m.Source += cost.Source / n
		m.Peak = max(m.Peak, cost.Ampere)
		if k == 0 || cost.Copper > m.Rest.Copper*(1+1e-9) {
			m.Rest, m.Row = cost, k+1
		}
		if k == 0 || cost.Copper < m.Least.Copper*(1-1e-9) {
			m.Least = cost
		}
	}
	return m
}

// bothHalves is what comes of a row with both halves of a phase on, which a wrong
// table has: unipolar only.
func (q *Question) bothHalves(c coil) (Cost, bool) {
	if q.Connection.Drive != sequence.Unipolar {
		return Cost{}, false
	}
	return q.costs(sequence.Row{1, 0, 1, 0}, c, q.Ambient, q.Ambient), true
}
