package wiring

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// Entropy in bits, by its definition: what is certain has none, an even choice between
// 2ⁿ has n.
func TestBits(t *testing.T) {
	for _, c := range []struct {
		odds []float64
		want float64
	}{{[]float64{1}, 0}, {[]float64{1, 0}, 0}, {[]float64{0.5, 0.5}, 1}, {[]float64{0.25, 0.25, 0, 0.25, 0.25}, 2}, {[]float64{0.5, 0.25, 0.25}, 1.5}} {
		if got := bitsOf(c.odds); !(got > c.want-1e-12 && got < c.want+1e-12) {
			t.Errorf("%v: %g bits, want %g", c.odds, got, c.want)
		}
	}
}

// What is told of a buzz is its places where they can be counted, and only of a buzz.
func TestSymptomsCountPlacesOfABuzz(t *testing.T) {
	for _, c := range []struct {
		motor string
		count bool
	}{{"hybrid-4", true}, {"vent-flap", false}} {
		m := builtIn(t, c.motor)
		buzzes := 0
		for _, f := range Faults(m) {
			var does []Behaviour
			for _, trial := range Trials() {
				does = append(does, Behave(m, []Fault{f}, trial))
			}
			for i, s := range SymptomsOf(m, does) {
				want := 0
				if s.Seen == Seen(Buzzes) && c.count {
					want = does[i].Places
					buzzes++
				}
				if s.Places != want {
					t.Errorf("%s, %s, %v: %d places of %s, want %d", c.motor, f.Text(m), s.Trial, s.Places, s.Seen, want)
				}
			}
		}
		if c.count && buzzes == 0 {
			t.Errorf("%s: nothing buzzes", c.motor)
		}
	}
}

// What is wrong with an answer is told with the word that is.
func TestWrongAnswersAreToldByTheirWord(t *testing.T) {
	five := newShaftBench(rand.New(rand.NewPCG(1, 5)), 5).topology()
	for answer, want := range map[string]string{
		"kick p z cw":  "z is the common",
		"kick p q cww": `"cww" answers no kick; did you mean "cw"?`,
	} {
		if _, err := ReadReplies("x", []byte(answer+"\n"), five); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", answer, err, want)
		}
	}
	if _, err := ReadReadings("x", []byte("A,B,1e9\n")); err == nil || !strings.Contains(err.Error(), "0 up to 100000 kohm") {
		t.Errorf("%v", err)
	}
}
