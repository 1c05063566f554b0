package wiring

import (
	"slices"
	"strings"
	"testing"

	"coilwalk/model/motor"
)

// Two leads are exchanged at the plug. Who answers by output, as is asked where the
// leads on them are said, is told to exchange just these two, and on which outputs; who
// answers by lead, as is asked else, is told the motor's own order.
func TestWhatIsMeantByALead(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap") // BN WH GN GY are its A+ B+ A- B-
	said := [4]motor.Lead{"BN", "WH", "GN", "GY"}
	hang := [4]motor.Lead{"BN", "GN", "WH", "GY"} // in truth, on outputs 1 to 4
	kick := func(s *Sitting, reach func(motor.Lead) motor.Lead) {
		var replies []Reply
		for _, pair := range [][2]motor.Lead{{"BN", "WH"}, {"BN", "GN"}, {"WH", "GN"}, {"GN", "GY"}} {
			from, to := slices.Index(m.Ends[:], reach(pair[0])), slices.Index(m.Ends[:], reach(pair[1]))
			word := []string{"", "cw", "slack", "ccw"}[(to-from+4)%4]
			replies = append(replies, Reply{Question: Question{Kick, pair[:]}, Word: word})
		}
		s.Answer(replies)
	}
	topology := OfMotor(m)
	topology.Geared = false
	for _, c := range []struct {
		now          [4]motor.Lead
		reach        func(motor.Lead) motor.Lead
		meant, found string
	}{
		{said, func(l motor.Lead) motor.Lead { return hang[slices.Index(said[:], l)] }, "by BN WH GN GY outputs 1 to 4 are meant", "exchange WH with GN (outputs 2, 3) at the plug"},
		{[4]motor.Lead{}, func(l motor.Lead) motor.Lead { return l }, "the lead itself is meant", "On outputs 1 to 4: BN WH GN GY."},
	} {
		s := Sit(topology)
		if meant := s.Meant(c.now); !strings.Contains(meant, c.meant) {
			t.Errorf("with %v on the outputs: %q", c.now, meant)
		}
		kick(s, c.reach)
		if text := strings.Join(s.Settle(c.now).Text(), "\n"); !s.Settled() || !strings.Contains(text, c.found) {
			t.Errorf("with %v on the outputs, %q is not told:\n%s", c.now, c.found, text)
		}
	}
	eight, _ := motor.BuiltIn("hybrid-8")
	if meant := Sit(OfMotor(eight)).Meant([4]motor.Lead(eight.Ends)); !strings.Contains(meant, "the lead itself") { // an inner end is on no output
		t.Errorf("of halves: %q", meant)
	}
}
