package wiring

import (
	"math"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// What was not weighed is told, and only that.
func TestWhatIsNotJudgedIsTold(t *testing.T) {
	half := Trial{Mode: sequence.Half, Way: sequence.Forward}
	at := half
	at.Rate = 600
	weightless := builtIn(t, "hybrid-4")
	weightless.Figures = motor.Figures{}
	for _, c := range []struct {
		name    string
		motor   motor.Motor
		symptom Symptom
		want    []string
	}{
		{"slowly", builtIn(t, "hybrid-4"), Symptom{Trial: half, Seen: Seen(Buzzes)}, []string{"a start that is too fast"}},
		{"places at a rotor that is seen", builtIn(t, "hybrid-4"), Symptom{Trial: half, Seen: Seen(Buzzes), Places: 3}, []string{"a start that is too fast"}},
		{"places behind gears", builtIn(t, "vent-flap"), Symptom{Trial: half, Seen: Seen(Buzzes), Places: 3}, []string{"a start that is too fast", "the places of a buzz"}},
		{"behind gears, none counted", builtIn(t, "vent-flap"), Symptom{Trial: half, Seen: Seen(Buzzes)}, []string{"a start that is too fast"}},
		{"at a rate", builtIn(t, "vent-flap"), Symptom{Trial: at, Seen: Seen(Buzzes)}, nil},
		{"at a rate, without figures", weightless, Symptom{Trial: at, Seen: Seen(Buzzes)}, []string{"the rate: the motor gives no holding torque"}},
	} {
		told := NewSuspects(c.motor).Judge([]Symptom{c.symptom}).NotJudged
		want := append([]string{"a driver stage that is too weak"}, c.want...)
		for _, words := range want {
			if !slices.ContainsFunc(told, func(one string) bool { return strings.HasPrefix(one, words) }) {
				t.Errorf("%s: %q is not told: %q", c.name, words, told)
			}
		}
		if len(told) != len(want) {
			t.Errorf("%s: %q, want %d", c.name, told, len(want))
		}
	}
}

// Places are those of a buzz: a motor that turns has none, one that rocks at least
// one, and a swapped pair rocks in more than one (by hand: its rows pull to and fro).
func TestPlacesAreThoseOfABuzz(t *testing.T) {
	m := builtIn(t, "hybrid-4")
	half := Trial{Mode: sequence.Half, Way: sequence.Forward}
	if b := BehaveOn(m, m.Wiring, nil, half); b.Places != 0 || b.Share[Clockwise] < 0.99 {
		t.Errorf("sound, it has %d places: %+v", b.Places, b)
	}
	if b := BehaveOn(m, m.Wiring.Swapped(0, 1), nil, half); b.Places < 2 || b.Share[Buzzes] < 0.5 {
		t.Errorf("swapped, it has %d places: %+v", b.Places, b)
	}
	if b := (Behaviour{Places: 3}).seen(nil, nil); b.Places != 0 {
		t.Errorf("%d places of no buzz", b.Places)
	}
}

// A motor that turns weakly is as weak either way: what it would be seen to do with its
// ways exchanged has the same chance, for the words that name no way.
func TestChancesKnowNoWay(t *testing.T) {
	for _, one := range suspectsOf(t, "hybrid-4").all {
		for k, b := range one.does {
			mirrored := b
			mirrored.Share = map[Does]float64{}
			for d, share := range b.Share {
				switch d {
				case Clockwise:
					d = CounterClockwise
				case CounterClockwise:
					d = Clockwise
				}
				mirrored.Share[d] += share
			}
			for _, word := range []Seen{Weak, Reverses, Seen(Buzzes), Seen(Still), Seen(Skips), Unsure} {
				symptom := Symptom{Trial: Trials()[k], Seen: word}
				if a, b := chanceOf(symptom, b, false), chanceOf(symptom, mirrored, false); math.Abs(a-b) > 1e-12 {
					t.Fatalf("%v %s: %g one way, %g the other", Trials()[k], word, a, b)
				}
			}
		}
	}
}
