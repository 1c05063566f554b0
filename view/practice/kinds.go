package practice

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// kind makes a question about a bench, which it may change first; false where
// what would come of it is not certain.
type kind func(random *rand.Rand, b *bench.Bench) (Question, bool)

// kinds lists what is asked of a motor, the simplest first.
func kinds(m motor.Motor) []kind {
	list := []kind{way, far, hold, course, released}
	if m.Train.Geared() {
		list = append(list, shaft)
	}
	return list
}

// still is the turn, in electrical degrees, below which nobody sees one.
const still = 0.05

// next is the row that most questions are about.
func next(b *bench.Bench) { b.Next() }

// after gives the bench as it reads once something was done to it.
func after(b *bench.Bench, do func(*bench.Bench)) bench.Reading {
	c := b.Copy()
	do(c)
	return c.Read()
}

// commanded turns the direction round by the toss of a coin, and says so.
func commanded(random *rand.Rand, b *bench.Bench) string {
	if random.IntN(2) == 0 {
		b.Reverse()
		return "The order is sent in reverse."
	}
	return "The order is sent forward."
}

// hold asks how hard the next row holds.
func hold(random *rand.Rand, b *bench.Bench) (Question, bool) {
	q := Question{Stands: commanded(random, b), Asks: "How hard will the next row hold the rotor, beside one coil?", do: next}
	now := after(b, next)
	strength := now.Field.Strength()
	q.choose(strength, []float64{0, 0.5, 1, math.Sqrt2, 2}, func(v float64) string {
		if v == 0 {
			return "not at all"
		}
		return report.Fixed(v, 2) + " times as hard"
	})
	on := len(now.Coils.On())
	switch {
	case on == 1:
		q.Why = "One coil is on, so it is the measure itself."
	case on == 2 && strength > 1:
		q.Why = "Two coils are on, at right angles: √(1² + 1²) = 1.41, the root of 2, not 2."
	default:
		q.Why = fmt.Sprintf("%d coil ends are on, and their fields add up to %s.", on, report.Fixed(strength, 2))
	}
	if mode, _ := now.Order.Mode(); mode.Name == sequence.Half.Name {
		q.Why += " In half step that alternates."
	}
	return q, true
}

// way asks which way the next row turns the rotor: the order may be reversed, a
// coil too, and then both may.
func way(random *rand.Rand, b *bench.Bench) (Question, bool) {
	q := Question{Asks: "Which way will the next row turn the shaft of the rotor?", Choices: []string{"clockwise", "counter-clockwise", "not at all"}, do: next}
	q.Stands = commanded(random, b)
	if random.IntN(2) == 0 {
		words, ok := reversed(random, b)
		if !ok {
			return Question{}, false
		}
		q.Stands += words
	}
	before, now := b.Read(), after(b, next)
	if _, known := before.Where.Known(); !known || !now.TurnedOK {
		return Question{}, false
	}
	q.Right = turnOf(now.Turned)
	to := "nowhere"
	if now.HasField { // on from where it was, so that degrees rise or fall
		to = report.Angle(before.FieldDeg+sequence.Between(before.FieldDeg, now.FieldDeg), 1)
	}
	q.Why = fmt.Sprintf("The field goes from %s to %s, and the rotor after it. Clockwise is as degrees rise.", field(before), to)
	return q, true
}

// turnOf tells one of three ways: clockwise, counter-clockwise, not at all.
func turnOf(deg float64) int {
	switch {
	case deg > still:
		return 0
	case deg < -still:
		return 1
	}
	return 2
}

// reversed exchanges the two leads of one coil, and lets the rotor come to where
// that puts it; false where it is then not known where that is.
func reversed(random *rand.Rand, b *bench.Bench) (words string, ok bool) {
	phase := random.IntN(2)
	outputs := b.Read().Wiring.Inverse()
	i, k := outputs[phase], outputs[phase+2]
	if b.Swap(i+1, k+1) != nil {
		return "", false
	}
	b.Restart()
	return fmt.Sprintf(" The two leads of coil %c are exchanged.", "AB"[phase]), true
}

// halves are the turns to choose from, in half steps of 45° electrical.
var halves = []float64{0, 1, 2, 4}

// far asks how far the next row turns the rotor.
func far(random *rand.Rand, b *bench.Bench) (Question, bool) {
	q := Question{Stands: commanded(random, b), Asks: "How far will the next row turn the rotor?", do: next}
	before, now := b.Read(), after(b, next)
	if !now.TurnedOK {
		return Question{}, false
	}
	pairs := float64(b.Motor().PolePairs)
	q.Right = slices.Index(halves, math.Round(math.Abs(now.Turned)/45))
	if q.Right < 0 {
		return Question{}, false
	}
	for i, words := range []string{"not at all", "half a full step", "a full step", "two full steps"} {
		if i > 0 {
			words += ", about " + report.Angle(45*halves[i]/pairs, 3)
		}
		q.Choices = append(q.Choices, words)
	}
	step := math.Abs(sequence.Between(before.FieldDeg, now.FieldDeg))
	q.Why = fmt.Sprintf("The field goes on by %s; over %d pole pairs that is %s of the rotor.", report.Angle(step, 1), b.Motor().PolePairs, report.Angle(step/pairs, 3))
	if math.Abs(step-math.Abs(now.Turned)) > still {
		q.Why += fmt.Sprintf(" Detent, friction and load let it rest a little beside: it turned %s.", report.Angle(math.Abs(now.Turned)/pairs, 3))
	}
	return q, true
}

// course asks what comes of a whole cycle: leads may be swapped.
func course(random *rand.Rand, b *bench.Bench) (Question, bool) {
	q := Question{Asks: "The rows are sent slowly, one after another. What will the rotor do?",
		Choices: []string{"turn clockwise, row by row", "turn counter-clockwise, row by row", "rock to and fro in one place"}, do: next}
	q.Stands = commanded(random, b)
	switch random.IntN(3) {
	case 0:
		words, ok := reversed(random, b)
		if !ok {
			return Question{}, false
		}
		q.Stands += words
	case 1:
		i := 1 + random.IntN(3)
		if b.Swap(i, i+1) != nil {
			return Question{}, false
		}
		q.Stands += fmt.Sprintf(" The leads on outputs %d and %d are swapped.", i, i+1)
	}
	exchanged := strings.Contains(q.Stands, "exchanged")
	c := b.Copy()
	var fields []string
	rows := c.Read().Order.Len()
	if c.Rows(2*int64(rows)) != nil { // past how it began
		return Question{}, false
	}
	from, known := c.Read().Where.Known()
	if !known {
		return Question{}, false
	}
	for range rows {
		c.Next()
		fields = append(fields, field(c.Read()))
	}
	to, known := c.Read().Where.Known()
	if !known {
		return Question{}, false
	}
	turned := to.From(from)
	q.Why = "The field goes " + strings.Join(fields[:4], ", ") + " …: "
	switch {
	case math.Abs(turned) < 45:
		q.Right = 2
		q.Why += "to and fro, and the rotor with it."
	case math.Abs(math.Abs(turned)-360) < 45:
		q.Right = turnOf(turned)
		q.Why += "once round, and the rotor after it."
		if exchanged {
			q.Why += " The two leads of one coil exchanged turn it the other way, no more."
		}
	default: // it skips: neither of the three
		return Question{}, false
	}
	return q, true
}

// released asks what the rotor does when the current goes off.
func released(_ *rand.Rand, b *bench.Bench) (Question, bool) {
	do := (*bench.Bench).Release
	now := after(b, do)
	if !now.TurnedOK {
		return Question{}, false
	}
	q := Question{Stands: "The rotor is at rest under its row.", Asks: "All coils are switched off. What will the rotor do, left alone?",
		Choices: []string{"turn clockwise to another rest", "turn counter-clockwise to another rest", "stay where it is"}, Right: turnOf(now.Turned), do: do}
	turned := report.Turned(b.Motor(), now.Turned)
	q.Why = strings.ToUpper(turned[:1]) + turned[1:] + ": " + unpowered(now.Balance) + " Detent and friction are weak beside a coil, so a hand turns it easily."
	return q, true
}

// unpowered says what keeps a rotor without a field where it is.
func unpowered(b rotor.Balance) string {
	switch b {
	case rotor.Detent:
		return "the detent of the magnet draws it to a rest of its own."
	case rotor.Stuck:
		return "it stands on a hill of the detent, and friction keeps it there."
	case rotor.Loose:
		return "no detent draws it that is stronger than its friction, and friction keeps it."
	}
	return report.Balance(b) + "."
}

// shaft asks how far the output shaft turns.
func shaft(random *rand.Rand, b *bench.Bench) (Question, bool) {
	q := Question{Stands: commanded(random, b), Asks: "How far will the next row turn the output shaft, behind the train?", do: next}
	now := after(b, next)
	if !now.TurnedOK || math.Abs(now.Turned) < still {
		return Question{}, false
	}
	m := b.Motor()
	turn := m.AtRotor(math.Abs(now.Turned))
	turned := turn / b.Ratio()
	q.Stands += fmt.Sprintf(" The rotor will turn %s; the train is %s.", report.Angle(turn, 3), report.Ratio(m.Train))
	q.choose(turned, []float64{turn, turn * b.Ratio(), turned / float64(m.PolePairs)}, func(deg float64) string { return report.Angle(deg, 4) })
	q.Why = fmt.Sprintf("%s : %.4g = %s. The shaft turns slower by the ratio of the train.", report.Angle(turn, 3), b.Ratio(), report.Angle(turned, 4))
	return q, true
}

// choose puts the right figure among others, in rising order; those that read the
// same are one.
func (q *Question) choose(right float64, others []float64, words func(float64) string) {
	all := append([]float64{right}, others...)
	slices.Sort(all)
	for _, v := range all {
		if w := words(v); !slices.Contains(q.Choices, w) {
			q.Choices = append(q.Choices, w)
		}
	}
	q.Right = slices.Index(q.Choices, words(right))
}

// field says where the field of a reading points.
func field(r bench.Reading) string {
	if !r.HasField {
		return "nowhere"
	}
	return report.Angle(r.FieldDeg, 1)
}
