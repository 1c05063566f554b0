package wiring

import (
	"math"
	"strings"
	"testing"

	"coilwalk/sequence"
)

// The odds of all that is ranked add up to one, the unknown among them.
func TestRankedOddsAddUp(t *testing.T) {
	s := suspectsOf(t, "hybrid-4")
	for _, text := range []string{"", "half forward buzz\nhalf reverse still", "half forward cw\nhalf reverse ccw\nfull forward cw\nfull reverse cw\nwave forward still"} {
		symptoms, err := ReadSymptoms("x", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		sum, unknown := 0.0, 0
		for _, d := range s.Judge(symptoms).Ranked {
			sum += d.Odds
			if strings.Contains(d.Text, "does not know") {
				unknown++
			}
		}
		if math.Abs(sum-1) > 1e-9 || unknown != 1 {
			t.Errorf("after %q the odds add up to %g", text, sum)
		}
	}
}

// A trial that was tried is not asked for again: where one is left that one is, and
// where none is, a test by hand or nothing.
func TestTheTrialThatIsLeft(t *testing.T) {
	s := suspectsOf(t, "hybrid-4")
	all := Trials()
	var unsure []Symptom
	for _, trial := range all {
		unsure = append(unsure, Symptom{Trial: trial, Seen: Unsure})
	}
	for k, trial := range all {
		others := append(append([]Symptom(nil), unsure[:k]...), unsure[k+1:]...)
		if next := s.Judge(others).Next; next == nil || next.ByHand || place(next.Trial) != k {
			t.Errorf("all but %v were tried: %+v", trial, next)
		}
	}
	if next := s.Judge(unsure).Next; next != nil && !next.ByHand {
		t.Errorf("all was tried, and %+v is asked for", next)
	}
	// By hand where it parts the two likeliest, and neither once it is nearly sure nor
	// where the other is no fault.
	deaf, coil, sound := Diagnosis{Faults: []Fault{{Kind: Deaf}}, Odds: 0.5}, Diagnosis{Faults: []Fault{{Kind: CoilReversed}}, Odds: 0.4}, Diagnosis{Odds: 0.4}
	next := func(a, b Diagnosis) *NextTrial { return s.next([]Diagnosis{a, b}, make([]float64, len(s.all)), unsure) }
	if n := next(deaf, coil); n == nil || !n.ByHand || !strings.Contains(n.Why, "command the other direction") {
		t.Errorf("deaf or reversed: %+v", n)
	}
	if n := next(deaf, sound); n != nil {
		t.Errorf("deaf or sound: %+v", n)
	}
	deaf.Odds = 0.95
	if n := next(deaf, coil); n != nil {
		t.Errorf("surely deaf: %+v", n)
	}
}

// A 4-lead motor has no tap to be off the supply, whatever drives it.
func TestTapsThatCanBeOff(t *testing.T) {
	for name, want := range map[string]int{"hybrid-4": 0, "hybrid-6": 2, "hybrid-8": 2, "vent-flap": 1} {
		m := builtIn(t, name)
		m.Drive = sequence.Unipolar
		count := 0
		for _, f := range Faults(m) {
			if f.Kind == TapOff {
				count++
			}
		}
		if count != want {
			t.Errorf("%s: %d taps can be off", name, count)
		}
	}
}

// A break is felt where a coil is fed: by its two ends at once from a bridge, half by
// half from a tap. The rest is fed as before.
func TestFeedsOfBrokenEnds(t *testing.T) {
	for _, name := range []string{"hybrid-4", "vent-flap"} {
		p := plantFor(t, name)
		row := sequence.Row{1, 1, 0, 0}
		sound := Feeds(&p, row, [4]bool{})
		for e := range 4 {
			broken := [4]bool{}
			broken[e] = true
			for k, got := range Feeds(&p, row, broken) {
				if k == e && (e < 2 || p.Drive == sequence.Unipolar) {
					if !got.Firm || got.Settled(p.Supply, p.Resistance) != 0 {
						t.Errorf("%s, end %d broken: it is fed by %+v", name, e, got)
					}
				} else if got != sound[k] {
					t.Errorf("%s, end %d broken: %d is fed by %+v, want %+v", name, e, k, got, sound[k])
				}
			}
		}
	}
}

// What is seldomer than one time in fifty is not said.
func TestWhatIsSeldomIsNotSaid(t *testing.T) {
	for share, want := range map[float64]string{0: "turns clockwise", 0.019: "turns clockwise", 0.02: "turns clockwise, buzzes 2 %", 0.03: "turns clockwise 97 %, buzzes 3 %"} {
		b := Behaviour{Share: map[Does]float64{Clockwise: 1 - share, Buzzes: share}, Hold: 1}
		if got := b.Text(); got != want {
			t.Errorf("%g of buzz: %s, want %s", share, got, want)
		}
	}
}

// A mapping is settled from 0.97 on.
func TestJustSettled(t *testing.T) {
	s := asked(t, 4, false, "")
	for odds, want := range map[float64]bool{0.97: true, 0.9699: false} {
		if s.odds = []float64{1 - odds, odds}; s.Settled() != want {
			t.Errorf("with odds of %g it is settled: %v", odds, !want)
		}
	}
}

// A rate is only looked for behind the words of a symptom.
func TestNoSymptomBeforeARate(t *testing.T) {
	for _, text := range []string{"at x", "at 600", "half at 600"} {
		if _, err := ParseSymptom(text); err == nil || !strings.Contains(err.Error(), "is no symptom") {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// Four leads of one field let a rotor stand; behind gears that is a buzz as well.
func TestRunThatStandsBehindGears(t *testing.T) {
	g := asked(t, 5, true, "")
	want := []float64{0.04, 0.04, 0.46, 0.46}
	for i, p := range g.predict(Question{Run, g.topology.Leads}, mapping{0, 0, 0, 0}) {
		if math.Abs(p-want[i]) > 1e-9 {
			t.Errorf("word %d of a run that stands: %g", i, p)
		}
	}
}
