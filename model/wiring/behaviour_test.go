package wiring

import (
	"math"
	"math/rand/v2"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

func builtIn(t testing.TB, name string) motor.Motor {
	t.Helper()
	m, ok := motor.BuiltIn(name)
	if !ok {
		t.Fatal(name)
	}
	return m
}

// turned lets an overdamped rotor of its own follow rows for some cycles: the
// field angle from the four coil ends, pulled by a sine, and a little shaking so
// that no hill holds it. It gives the pole pitches turned in each cycle.
func turned(rows [][4]float64, random *rand.Rand) float64 {
	const cycles = 8
	at := 2 * math.Pi * random.Float64()
	from := at
	for range cycles {
		for _, r := range rows {
			a, b := r[0]-r[2], r[1]-r[3]
			for range 120 {
				at += 0.15 * (b*math.Cos(at) - a*math.Sin(at))
				if a != 0 || b != 0 {
					at += 0.01 * random.NormFloat64()
				}
			}
		}
	}
	return (at - from) / (2 * math.Pi) / cycles
}

// Each of the 24 ways to put four leads on four outputs, in each step mode and
// direction: what is predicted is what a rotor written anew does. Four turn
// forward, four in reverse, and sixteen get nowhere but by chance, alike for both
// directions (combinatorics of a ring of four: references, row "Mapping count").
func TestEveryOrderOfFourLeads(t *testing.T) {
	m := builtIn(t, "vent-flap")
	random := rand.New(rand.NewPCG(4, 2))
	counts := map[Does]int{}
	for _, wiring := range sequence.Permutations() {
		var told []Behaviour
		for _, trial := range Trials() {
			told = append(told, BehaveOn(m, wiring, nil, trial))
		}
		for i, trial := range Trials() {
			b := told[i]
			order := trial.Mode.Order()
			rows := make([][4]float64, order.Len())
			for k := range rows {
				row := order.Row(int64(trial.Way) * int64(k))
				for out := range 4 {
					rows[k][wiring[out]] += row[out]
				}
			}
			sum, most := 0.0, 0.0
			const runs = 8
			for range runs {
				v := turned(rows, random)
				sum, most = sum+v/runs, math.Max(most, math.Abs(v))
			}
			counts[b.Likeliest()]++
			switch b.Likeliest() {
			case Clockwise:
				if sum < 0.85 {
					t.Errorf("%v %v: told clockwise, turns %.2f", wiring, trial, sum)
				}
			case CounterClockwise:
				if sum > -0.85 {
					t.Errorf("%v %v: told counter-clockwise, turns %.2f", wiring, trial, sum)
				}
			default:
				if most > 0.85 && b.Share[Clockwise]+b.Share[CounterClockwise]+b.Share[Skips] < 0.1 {
					t.Errorf("%v %v: told %v, turns by %.2f", wiring, trial, b.Share, most)
				}
				if math.Abs(sum) > 0.5 {
					t.Errorf("%v %v: told %v, turns %.2f on average", wiring, trial, b.Share, sum)
				}
				// Each trial has its other direction beside it.
				if sent := told[i^1]; math.Abs(sent.Share[Buzzes]-b.Share[Buzzes]) > 1e-6 || math.Abs(sent.Share[Clockwise]-b.Share[Clockwise]) > 1e-6 {
					t.Errorf("%v %v: the direction makes a difference: %v, %v", wiring, trial, b.Share, sent.Share)
				}
			}
		}
	}
	if counts[Clockwise] != 4*6 || counts[CounterClockwise] != 4*6 {
		t.Errorf("%v; of 24 orders, 4 turn each way in each of 6 trials", counts)
	}
}

// suspectsOf runs the rotor model on every fault of a built-in motor, once for all
// tests: it takes most of their time.
func suspectsOf(t testing.TB, name string) *Suspects {
	t.Helper()
	m := builtIn(t, name)
	if suspects[name] == nil {
		suspects[name] = NewSuspects(m)
	}
	return suspects[name]
}

var suspects = map[string]*Suspects{}

// Shares add up to one whatever is wrong, singly or together.
func TestSharesAddUp(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 1))
	for _, name := range []string{"vent-flap", "hybrid-4", "hybrid-6", "hybrid-8"} {
		m := builtIn(t, name)
		one := func(with []Fault, trial Trial, b Behaviour) {
			sum := 0.0
			for _, d := range everyDoes {
				sum += b.Share[d]
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Fatalf("%s with %v, %v: %v add up to %v", name, with, trial, b.Share, sum)
			}
		}
		for _, s := range suspectsOf(t, name).all {
			for k, trial := range Trials() {
				one(s.faults, trial, s.does[k])
			}
		}
		all := Faults(m)
		for range 6 {
			with := []Fault{all[random.IntN(len(all))], all[random.IntN(len(all))]}
			for _, trial := range Trials() {
				one(with, trial, Behave(m, with, trial))
			}
		}
	}
}

// What each fault does to a row, by hand. Common practice, no source.
func TestFaultsAtTheCoils(t *testing.T) {
	flap, four, eight := builtIn(t, "vent-flap"), builtIn(t, "hybrid-4"), builtIn(t, "hybrid-8")
	both := sequence.Row{1, 1, 0, 0} // A+ and B+
	for _, c := range []struct {
		m     motor.Motor
		fault string
		want  sequence.Row
	}{
		{flap, "swap 1 2", sequence.Row{1, 1, 0, 0}},
		{flap, "swap 2 3", sequence.Row{1, 0, 1, 0}},
		{flap, "reversed A", sequence.Row{0, 1, 1, 0}},
		{flap, "open BN", sequence.Row{0, 1, 0, 0}},
		{flap, "dead 2", sequence.Row{1, 0, 0, 0}},
		{flap, "stuck 4", sequence.Row{1, 1, 0, 1}},
		{flap, "tap", sequence.Row{}},
		{builtIn(t, "hybrid-6"), "tap A", sequence.Row{0, 1, 0, 0}},
		{four, "open BK", sequence.Row{0, 1, 0, 0}},
		{eight, "half RD", sequence.Row{0, 1, 1, 0}},
		{flap, "deaf", both},
	} {
		f, err := ParseFault(c.m, c.fault)
		if err != nil {
			t.Error(err)
			continue
		}
		if got := Coils([]Fault{f}, both, c.m.Wiring, c.m.Drive); got != c.want {
			t.Errorf("%s: %v, want %v", c.fault, got, c.want)
		}
	}
	// A 4-lead motor: an open lead stops its coil whichever end is driven.
	f, _ := ParseFault(four, "open BK")
	if got := Coils([]Fault{f}, sequence.Row{0, 1, 1, 0}, four.Wiring, four.Drive); got != (sequence.Row{0, 1, 0, 0}) {
		t.Errorf("the other end still drives the broken coil: %v", got)
	}
	for _, bad := range []string{"", "swap", "swap 2", "swap 2 2", "open", "open QQ", "dead 5", "dead x", "stuck 0", "half BN", "tap A B C", "smoke", "reversed C"} {
		if f, err := ParseFault(flap, bad); err == nil {
			t.Errorf("%q is read as %v", bad, f)
		}
	}
}
