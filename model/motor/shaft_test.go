package motor

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// The counted train of a small geared can motor, 32/9 × 22/11 × 26/9 × 31/10,
// as published in a forum thread on that motor; all figures but the ratio and
// the half steps follow from it (computed).
func TestPublishedTrainPlansAndDrifts(t *testing.T) {
	train, err := ParseTrain("9:32,11:22,9:26,10:31")
	if err != nil {
		t.Fatal(err)
	}
	m := Motor{PolePairs: 8, Train: train}
	full, half := m.StepsPerShaftTurn(sequence.Full), m.StepsPerShaftTurn(sequence.Half)
	if train.Ratio().RatString() != "25792/405" || full.RatString() != "825344/405" || half.RatString() != "1650688/405" {
		t.Errorf("%s, %s full, %s half", train.Ratio(), full, half)
	}
	// Published: 4075 half steps to a turn plus one extra in 313 of every 405
	// turns. Computed for full steps: 2037, 359 of 405.
	for _, c := range []struct {
		turn        *big.Rat
		rows, extra string
	}{{half, "4075", "313"}, {full, "2037", "359"}} {
		if p := PlanFor(c.turn); p.Rows.String() != c.rows || p.Extra.String() != c.extra || p.Cycle.String() != "405" {
			t.Errorf("plan %+v", p)
		}
	}
	// Believing 64:1, each turn comes out 1.787° too far, 0.4963 % (computed).
	d := DriftOf(full, big.NewRat(2048, 1))
	if v, _ := d.DegPerTurn.Float64(); math.Abs(v-1.787) > 0.0005 || math.Abs(v/360-0.004963) > 5e-7 {
		t.Errorf("%v° a turn", v)
	}
}

// The drift by brute force: turn by turn, the rows that firmware sends.
func TestDriftByCounting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		exact := big.NewRat(rapid.Int64Range(50, 100_000).Draw(t, "a"), rapid.Int64Range(1, 500).Draw(t, "b"))
		believed := big.NewRat(rapid.Int64Range(1, 10_000).Draw(t, "c"), 1)
		d := DriftOf(exact, believed)
		turns := rapid.Int64Range(1, 50).Draw(t, "turns")
		sent := new(big.Rat).Mul(believed, big.NewRat(turns, 1))
		shaft := new(big.Rat).Quo(sent, exact) // turns that the shaft really makes
		off := new(big.Rat).Sub(shaft, big.NewRat(turns, 1))
		off.Mul(off, big.NewRat(360, 1))
		if off.Cmp(new(big.Rat).Mul(d.DegPerTurn, big.NewRat(turns, 1))) != 0 {
			t.Fatalf("after %d turns %s° off, told %s° each", turns, off, d.DegPerTurn)
		}
		if d.TurnsToStep == nil != (exact.Cmp(believed) == 0) {
			t.Fatal("no drift, and yet one")
		}
	})
}

// A plan sums exactly over its cycle and is never more than half a row off,
// checked move by move; and the rule for firmware sends the same.
func TestPlanByCounting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		each := big.NewRat(rapid.Int64Range(1, 5000).Draw(t, "a"), rapid.Int64Range(1, 300).Draw(t, "b"))
		p := PlanFor(each)
		sum, worst := new(big.Int), new(big.Rat)
		rest := new(big.Int).Rsh(p.Cycle, 1)
		for k := int64(1); k <= p.Cycle.Int64(); k++ {
			move := p.Move(k)
			sum.Add(sum, move)
			rows := new(big.Int).Set(p.Rows)
			if rest.Add(rest, p.Extra); rest.Cmp(p.Cycle) >= 0 {
				rest.Sub(rest, p.Cycle)
				rows.Add(rows, big.NewInt(1))
			}
			if move.Cmp(rows) != 0 {
				t.Fatalf("move %d: the plan sends %s, the firmware's rule %s", k, move, rows)
			}
			off := new(big.Rat).Sub(new(big.Rat).SetInt(sum), new(big.Rat).Mul(each, big.NewRat(k, 1)))
			if off.Abs(off).Cmp(worst) > 0 {
				worst.Set(off)
			}
		}
		if sum.Cmp(p.Total) != 0 || worst.Cmp(big.NewRat(1, 2)) > 0 || worst.Cmp(p.Worst()) != 0 {
			t.Fatalf("%s each: sum %s of %s, %s off at worst, told %s", each, sum, p.Total, worst, p.Worst())
		}
	})
}

func TestCounts(t *testing.T) {
	rings, _ := CountRings(4, 8)
	fifty, _ := CountRotorTeeth(50)
	angle := func(num, den int64) Count {
		c, err := CountAngle(big.NewRat(num, den))
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	for _, c := range []struct {
		counts []Count
		steps  int64
		wrong  int
	}{
		{[]Count{rings}, 32, 0},                                // 4 rings of 8 teeth: 32 full steps (common practice, no source)
		{[]Count{fifty}, 200, 0},                               // 50 teeth × 4 = 200 (a maker's FAQ on step angles)
		{[]Count{angle(18, 10)}, 200, 0},                       // 1.8°: 200 steps (the same)
		{[]Count{fifty, angle(9, 10)}, 200, 0},                 // 0.9° printed on it is the half-step angle
		{[]Count{angle(5625, 1000), rings}, 32, 0},             // 5.625°, as small geared can motors print it
		{[]Count{angle(75, 10)}, 48, 0},                        // 7.5°: 48 steps
		{[]Count{fifty, rings}, 0, 0},                          // two that differ leave it open
		{[]Count{fifty, angle(18, 10), rings}, 200, 1},         // two against one
		{[]Count{angle(7, 1)}, 0, 0},                           // no whole number of steps
		{[]Count{angle(36, 1)}, 0, 0},                          // 10 steps: no multiple of 4
		{[]Count{fifty, angle(36, 10), angle(36, 10)}, 100, 1}, // an angle twice as large is no half-step angle
	} {
		g := Agree(c.counts)
		if g.Steps != c.steps || len(g.Wrong) != c.wrong {
			t.Errorf("%+v: %d, wrong %v: %s", c.counts, g.Steps, g.Wrong, g.Text)
		}
	}
}

// One real 8-lead motor as its data sheet has it: one winding 3.0 A, 1.4 ohm,
// 3.2 mH; in series 2.12 A, 2.8 ohm, 12.8 mH; in parallel 4.2 A, 0.7 ohm,
// 3.2 mH; 215 and 300 N·cm (maker's data sheet of an 8-lead motor, 2007-05-13;
// printed values within 1.5 % of the ideal factors).
func TestConnectionsOfAnEightLeadMotor(t *testing.T) {
	m, _ := BuiltIn("hybrid-8")
	m.Figures.Current, m.Figures.Resistance, m.Figures.Inductance = quantity.Amperes(3), quantity.Ohms(1.4), quantity.Henries(3.2e-3)
	near := func(name string, got, want float64) {
		if math.Abs(got/want-1) > 0.015 {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
	all := m.Connections()
	if len(all) != 4 {
		t.Fatalf("%d connections", len(all))
	}
	for i, want := range []struct{ amps, ohms, henries, torque float64 }{
		{3, 1.4, 3.2e-3, 1}, {3, 1.4, 3.2e-3, 1}, {2.12, 2.8, 12.8e-3, 300.0 / 215}, {4.2, 0.7, 3.2e-3, 300.0 / 215},
	} {
		c := all[i]
		near(c.Name+" current", c.Current.Base(), want.amps)
		near(c.Name+" resistance", c.Resistance.Base(), want.ohms)
		near(c.Name+" inductance", c.Inductance.Base(), want.henries)
		near(c.Name+" torque", c.Torque, want.torque)
		// Equal heat is what the ratings rest on: i²R of all that carries current.
		near(c.Name+" heat", c.Current.Base()*c.Current.Base()*c.Resistance.Base(), 9*1.4)
		near(c.Name+" voltage", c.Voltage.Base(), want.amps*want.ohms)
	}
	// Time constants as computed from the same sheet: 2.29, 4.57 and 4.57 ms.
	for i, want := range map[int]float64{0: 2.29e-3, 2: 4.57e-3, 3: 4.57e-3} {
		near(all[i].Name+" time constant", all[i].Rise.Base(), want)
	}
}

func TestConnectionsByLeads(t *testing.T) {
	for name, want := range map[string]int{"hybrid-4": 1, "vent-flap": 2, "hybrid-6": 3, "hybrid-8": 4} {
		m, _ := BuiltIn(name)
		if got := len(m.Connections()); got != want {
			t.Errorf("%s: %d connections, want %d", name, got, want)
		}
		for _, c := range m.Connections() {
			if c.Word != "bipolar" && !slices.Contains(ConnectionWords, c.Word) {
				t.Errorf("%s: %q, %s, is not among the words", name, c.Word, c.Name)
			}
		}
	}
	bare := Motor{Winding: Winding{Ends: [4]Lead{"1", "2", "3", "4"}}, PolePairs: 1}
	if c := bare.Connections()[0]; c.Current.Given() || c.Rise.Given() || c.Voltage.Given() {
		t.Errorf("figures out of nothing: %+v", c)
	}
}
