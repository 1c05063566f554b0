package wiring

import (
	"math/rand/v2"
	"testing"

	"coilwalk/model/motor"
)

// The winding of a mapping that was found turns the bench's hidden motor, and each
// inner end or tap is that of its own half or phase.
func TestWindingOfAMapping(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 3))
	for range 40 {
		b := newShaftBench(random, 8)
		s, _ := b.play(40)
		var w motor.Winding
		for h := range 4 {
			w.Ends[h], w.Inner[h] = s.Topology().Leads[h], s.Topology().Leads[h+4]
		}
		got := s.Winding(w)
		for k, end := range got.Ends {
			if b.same[string(end)] != string(got.Inner[k]) {
				t.Fatalf("%v with %v: the inner end of %s is %s", got.Ends, got.Inner, end, b.same[string(end)])
			}
			next := got.Ends[(k+1)%4]
			if ((b.angle[string(next)]-b.angle[string(end)])%360+360)%360 != 90 {
				t.Fatalf("%v does not turn %v", got.Ends, b.angle)
			}
		}
	}
	six := motor.Winding{Ends: [4]motor.Lead{"p", "q", "r", "s"}, Taps: [2]motor.Lead{"y", "z"}}
	topology, err := OfSix([2]motor.Lead{"p", "r"}, [2]motor.Lead{"q", "s"}, six.Taps)
	if err != nil {
		t.Fatal(err)
	}
	s := Sit(topology)
	replies, err := ReadReplies("x", []byte("kick p q ccw\nkick r s ccw\n"), topology)
	if err != nil {
		t.Fatal(err)
	}
	s.Answer(replies)
	if got := s.Winding(six); got.Ends != [4]motor.Lead{"p", "s", "r", "q"} || got.Taps != [2]motor.Lead{"y", "z"} {
		t.Errorf("%+v", got)
	}
	// The same winding, told with its other phase first.
	other := motor.Winding{Ends: [4]motor.Lead{"q", "p", "s", "r"}, Taps: [2]motor.Lead{"z", "y"}}
	if got := s.Winding(other); got.Ends != [4]motor.Lead{"p", "s", "r", "q"} || got.Taps != [2]motor.Lead{"y", "z"} {
		t.Errorf("told with its other phase first: %+v", got)
	}
}
