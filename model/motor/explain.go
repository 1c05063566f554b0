package motor

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

// Belief is what a person holds true of motor and firmware, before what was
// seen says otherwise.
type Belief struct {
	Motor    Motor
	Mode     sequence.Mode
	Declared *big.Rat // rows to a shaft turn that the firmware was told; nil for what the motor really has
	Nominal  *big.Rat // a printed ratio that the train might have instead; nil without one
}

// Hold takes what the firmware holds a turn of the shaft to be: a printed ratio,
// told by its colon ("64:1"), or rows of the mode ("2048").
func (b *Belief) Hold(text string) error {
	perRotor := big.NewRat(int64(b.Motor.StepsPerRotorTurn(b.Mode)), 1)
	if strings.Contains(text, ":") {
		t, err := ParseRatio(text)
		if err != nil {
			return err
		}
		b.Nominal = t.Ratio()
		b.Declared = new(big.Rat).Mul(b.Nominal, perRotor)
		return nil
	}
	rows, ok := number(text)
	if !ok || rows.Sign() <= 0 || rows.Cmp(mostObserved) > 0 {
		return fmt.Errorf("%s is neither a ratio as 64:1 nor rows to a turn as 2048", files.Quoted(text))
	}
	b.Declared = rows
	if ratio := new(big.Rat).Quo(rows, perRotor); b.Motor.Train.Geared() && ratio.IsInt() {
		b.Nominal = ratio // 2048 is 64 × 32
	}
	return nil
}

// Explanation is one way in which what was seen can have come about.
type Explanation struct {
	Text    string
	Odds    float64
	Expects []float64 // degrees at the shaft, for each observation
	cause
}

// cause is what an explanation says of the way from a command to the shaft.
type cause struct {
	divisor int      // rows to a full step, as the driver really makes them
	ratio   *big.Rat // of the train; nil for one that is not known
	asking  asking
	scale   float64 // of what is left free: 1 but for that
}

// asking is how an angle becomes rows.
type asking int

const (
	asDeclared      asking = iota
	degreesForSteps        // the number of degrees was sent as steps
	withoutTrain           // the figure declared is the rotor's
	declaredWrong          // by some factor
)

// How likely each is before anything was seen: common practice, no source. The
// driver's divisor, how an angle was asked for, and which ratio the train has.
var (
	divisorOdds = map[int]float64{1: 0.12, 2: 0.12, 4: 0.03, 8: 0.06, 16: 0.08, 32: 0.05, 64: 0.01, 128: 0.01, 256: 0.01}
	askingOdds  = []float64{asDeclared: 0.75, degreesForSteps: 0.08, withoutTrain: 0.08, declaredWrong: 0.09}
)

const (
	asBelieved   = 0.5  // of the divisor, above its own share
	nominalTrue  = 0.15 // the train has the printed ratio
	otherRatio   = 0.06 // the train has another ratio, up to a fifth away
	readingError = 1.5  // degrees, standard deviation: a mark against a protractor
	misread      = 0.02 // share of observations that are wrong altogether
	leastOdds    = 0.01 // of an explanation worth telling
	widest       = 100  // the factor by which a declared figure may be wrong
	ratioWithin  = 1.2  // the factor by which an unknown ratio may be off
)

// Explain ranks the ways in which what was seen can have come about, the
// likeliest first, from a belief. What is asked in steps can not tell how angles
// become steps, so those ways are left out when nothing was asked in degrees.
func Explain(b Belief, seen []Observed) []Explanation {
	var all []Explanation
	inDegrees := slices.ContainsFunc(seen, func(o Observed) bool { return !o.Steps })
	for divisor := 1; divisor <= 256; divisor *= 2 {
		for _, r := range b.ratios() {
			for a, share := range askingOdds {
				if !inDegrees {
					if asking(a) != asDeclared {
						continue
					}
					share = 1
				}
				if asking(a) == withoutTrain && !b.Motor.Train.Geared() || asking(a) == declaredWrong && r.ratio == nil {
					continue
				}
				odds := divisorOdds[divisor] * r.odds * share
				if divisor == b.Mode.PerStep {
					odds += asBelieved * r.odds * share
				}
				e := Explanation{cause: cause{divisor: divisor, ratio: r.ratio, asking: asking(a), scale: 1}}
				e.Odds = odds * b.weigh(&e.cause, seen)
				all = append(all, e)
			}
		}
	}
	sum := 0.0
	for _, e := range all {
		sum += e.Odds
	}
	slices.SortStableFunc(all, func(a, b Explanation) int { return cmp.Compare(b.Odds, a.Odds) })
	var told []Explanation
	for _, e := range all {
		if e.Odds /= sum; e.Odds < leastOdds && len(told) > 0 {
			break
		}
		for _, o := range seen {
			e.Expects = append(e.Expects, b.expects(e.cause, o))
		}
		e.Text = b.words(e.cause)
		told = append(told, e)
	}
	return told
}

type ratioOdds struct {
	ratio *big.Rat
	odds  float64
}

// ratios lists what the train's ratio may be. Without a train there is none to
// be wrong.
func (b Belief) ratios() []ratioOdds {
	stated := ratioOdds{b.Motor.Train.Ratio(), 1}
	all := []ratioOdds{}
	if b.Nominal != nil && b.Nominal.Cmp(stated.ratio) != 0 {
		all = append(all, ratioOdds{b.Nominal, nominalTrue})
		stated.odds -= nominalTrue
	}
	if b.Motor.Train.Geared() {
		all = append(all, ratioOdds{nil, otherRatio})
		stated.odds -= otherRatio
	}
	return append(all, stated)
}

// expects gives the degrees that the shaft turns for what was asked.
func (b Belief) expects(c cause, o Observed) float64 {
	motor := b.Motor
	perRotor := float64(4 * motor.PolePairs)
	ratio := c.ratio
	if ratio == nil {
		ratio = motor.Train.Ratio()
	}
	turns, _ := ratio.Float64()
	asked, _ := o.Asked.Float64()
	rows := asked
	if !o.Steps && c.asking != degreesForSteps {
		declared, _ := b.declared().Float64()
		if c.asking == withoutTrain {
			declared = float64(motor.StepsPerRotorTurn(b.Mode))
		}
		rows = asked / 360 * declared
	}
	if !o.Steps || c.asking != declaredWrong {
		rows *= c.scale
	}
	return rows * 360 / (perRotor * float64(c.divisor) * turns)
}

// declared gives the rows to a turn that the firmware holds true.
func (b Belief) declared() *big.Rat {
	if b.Declared != nil {
		return b.Declared
	}
	return b.Motor.StepsPerShaftTurn(b.Mode)
}

// weigh gives the likelihood of what was seen. What a cause leaves free is
// weighed over its whole range, evenly by its logarithm, and set to what fits
// best.
func (b Belief) weigh(c *cause, seen []Observed) float64 {
	within := 0.0
	switch {
	case c.ratio == nil:
		within = math.Log(ratioWithin)
	case c.asking == declaredWrong:
		within = math.Log(widest)
	}
	if within == 0 {
		return b.likelihood(*c, seen)
	}
	const points = 41 // over ± four standard deviations
	total, best := 0.0, 0.0
	fits := 1.0
	for _, o := range seen { // the one that was asked for most is read the most finely
		expected := b.expects(*c, o)
		measured, _ := o.Seen.Float64()
		if o.Steps && c.asking == declaredWrong || measured <= 0 {
			continue
		}
		middle := math.Log(measured / expected)
		spread := b.spread() / measured
		sum, top := 0.0, 0.0
		at := middle
		for k := range points {
			x := middle + spread*4*(2*float64(k)/(points-1)-1)
			if math.Abs(x) > within {
				continue
			}
			try := *c
			try.scale = math.Exp(x)
			l := b.likelihood(try, seen)
			sum += l * 8 * spread / (points - 1) / (2 * within)
			if l > top {
				top, at = l, x
			}
		}
		if top > best {
			best, total, fits = top, sum, math.Exp(at)
		}
	}
	c.scale = fits
	return total
}

func (b Belief) likelihood(c cause, seen []Observed) float64 {
	product, spread := 1.0, b.spread()
	for _, o := range seen {
		measured, _ := o.Seen.Float64()
		off := (measured - b.expects(c, o)) / spread
		product *= (1-misread)*math.Exp(-off*off/2)/(spread*math.Sqrt(2*math.Pi)) + misread/(measured+360)
	}
	return product
}

// spread is how far a reading may be off: the eye's part, and the play.
func (b Belief) spread() float64 {
	_, play, _ := b.Motor.Train.Play()
	return math.Hypot(readingError, play/2)
}
