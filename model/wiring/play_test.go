package wiring

import (
	"strings"
	"testing"

	"coilwalk/model/motor"
)

// Counts by hand. The flap: 32 steps, 9:23 10:27 11:29 12:28 = 4669/110, so a row
// is 360/32/42.445 = 0.2650° and a tick half of that; play of the meshes at the
// shaft 1.5/16.609 + 1.2/6.1515 + 1/2.3333 + 0.9 = 1.614°; 3·1.614/0.2650 = 18.3
// rows, in rounds of four 20. The geared can: 32 steps, 64:1, 0.1758° a row; of
// the usual 8° three times are 136.5 rows, 140.
func TestHowFarToRun(t *testing.T) {
	for _, c := range []struct {
		motor      string
		geared     bool
		run, proof int
		says       []string // in what is asked with and why
	}{
		{"vent-flap", true, 20, 20, []string{"20 rows (three times the play of 1.6°)", "a tick is 0.13° at the shaft, and the play of 1.6° swallows it, so the leads are run"}},
		{"vent-flap", false, 12, 8, []string{"a tick of half a step, 5.6°, cw or ccw", "Hold no bare end"}},
		{"geared-can", true, 140, 140, []string{"140 rows (three times the play of 8°)", "a tick is 0.088° at the shaft"}},
		{"hybrid-4", false, 12, 52, []string{"half a step, 0.9°,", "BK to + and", "Hold no bare end"}},
		{"hybrid-8", false, 12, 52, []string{"no turn: slack, or held (two halves that pull together)"}},
	} {
		of := OfMotor(builtIn(t, c.motor))
		of.Geared = c.geared
		run, known := of.RunRows()
		proof, also := of.ProofRows()
		if run != c.run || proof != c.proof || !known || !also {
			t.Errorf("%s, geared %v: run %d, proof %d; want %d, %d", c.motor, c.geared, run, proof, c.run, c.proof)
		}
		kind := Kick
		if c.geared {
			kind = Run
		}
		s := Sit(of)
		q := Question{kind, of.Leads[:leadsOf[kind]]}
		words := s.how(q) + "\n" + s.why(q)
		for _, part := range c.says {
			if !strings.Contains(words, part) {
				t.Errorf("%s, geared %v: %q is not said:\n%s", c.motor, c.geared, part, words)
			}
		}
	}
}

// A train that hardly has play is run three rounds all the same.
func TestRunsAreThreeRoundsAtLeast(t *testing.T) {
	of := OfMotor(builtIn(t, "vent-flap"))
	of.Geared, of.Play = true, 0.01
	if rows, known := of.RunRows(); rows != 12 || !known {
		t.Errorf("%d rows, want 12", rows)
	}
}

// Without the motor's figures no count is made up.
func TestHowFarToRunIsNotKnown(t *testing.T) {
	of := asked(t, 5, true, "").Topology()
	if rows, known := of.RunRows(); known {
		t.Errorf("%d rows, of a train that nobody told", rows)
	}
	s := Sit(of)
	if ask, _ := s.Next(); !strings.Contains(ask.How, "three times the play, some 24° of the shaft (with 32 full steps to a rotor turn and 64:1 these are 140 rows)") || !strings.Contains(ask.Why, "the play swallows a tick") {
		t.Errorf("%s\n%s", ask.How, ask.Why)
	}
	of.Geared = false
	if rows, known := of.RunRows(); rows != 12 || !known {
		t.Errorf("without gears %d", rows)
	}
	for _, kind := range []Test{Kick, Stiff} {
		if how := Sit(of).how(Question{kind, []motor.Lead{"p", "q"}}); !strings.Contains(how, "Hold no bare end") {
			t.Errorf("%s: %s", kind, how)
		}
	}
}

// The proof names its count of rows each way.
func TestProofCountsRows(t *testing.T) {
	s := Sit(OfMotor(builtIn(t, "vent-flap")))
	if out := s.Settle([4]motor.Lead{}); out.Rows != 20 || !strings.Contains(out.Prove, "send 20 rows (three times") || !strings.Contains(out.Prove, "less the play") {
		t.Errorf("%d: %s", out.Rows, out.Prove)
	}
	s = asked(t, 5, false, "")
	if out := s.Settle([4]motor.Lead{}); out.Rows != 20 || !strings.Contains(out.Prove, "send 20 rows forward") || strings.Contains(out.Prove, "play") {
		t.Errorf("%d: %s", out.Rows, out.Prove)
	}
	s = asked(t, 5, true, "")
	if out := s.Settle([4]motor.Lead{}); out.Rows != 0 || !strings.Contains(out.Prove, "some 24° of the shaft") {
		t.Errorf("%d: %s", out.Rows, out.Prove)
	}
}
