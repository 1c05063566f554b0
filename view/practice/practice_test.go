package practice

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

func built(t *testing.T, name string) motor.Motor {
	t.Helper()
	m, ok := motor.BuiltIn(name)
	if !ok {
		t.Fatalf("no motor %s", name)
	}
	return m
}

// ideal is a motor without detent, friction and load: what it does is known
// without the engine. Its cycle is 45° of the rotor, and its train 10:1.
func ideal(t *testing.T) motor.Motor {
	m := built(t, "vent-flap")
	f := motor.Figures{}
	f.OnePhase = m.Figures.OnePhase
	m.Figures = f
	return m
}

// What is right is what is known of an ideal motor without asking the engine: 1
// and √2, a full step of wave and full and half a one of half step, the way that is
// commanded, turned round by a coil the wrong way round, and rocking by any other
// swap. Each of these comes up, in each way.
func TestRightIsWhatIsKnown(t *testing.T) {
	came := map[string]int{}
	for seed := range uint64(40) {
		s := New(ideal(t), seed)
		for range 36 {
			q := s.Question
			want := ""
			switch {
			case strings.HasPrefix(q.Asks, "How hard"):
				r := s.Bench.Copy()
				r.Next()
				want = map[int]string{1: "1.00 times as hard", 2: "1.41 times as hard"}[len(r.Read().Coils.On())]
			case strings.HasPrefix(q.Asks, "Which way"), strings.HasPrefix(q.Asks, "The rows"):
				forward := !strings.Contains(q.Stands, "in reverse") != strings.Contains(q.Stands, "exchanged")
				want = "counter-clockwise"
				if forward {
					want = "clockwise"
				}
				if strings.HasPrefix(q.Asks, "The rows") {
					want = "turn " + want + ", row by row"
				}
				if strings.Contains(q.Stands, "swapped") && !turnsStill(s.Bench) {
					want = "rock to and fro in one place"
				}
			case strings.HasPrefix(q.Asks, "How far will the next row turn the rotor"):
				want = "a full step, about 11.25°"
				if q.Mode.Name == sequence.Half.Name {
					want = "half a full step, about 5.625°"
				}
			case strings.HasPrefix(q.Asks, "All coils"):
				want = "stay where it is"
			case strings.HasPrefix(q.Asks, "How far will the next row turn the output"):
				full := 90.0 / 8 / s.Bench.Ratio()
				if q.Mode.Name == sequence.Half.Name {
					full /= 2
				}
				var got float64
				for _, c := range q.Choices {
					v := figure(t, c)
					if math.Abs(v-full) < math.Abs(got-full) {
						got, want = v, c
					}
				}
			default:
				t.Fatalf("nobody here knows %q", q.Asks)
			}
			if got := q.Choices[q.Right]; got != want {
				t.Fatalf("seed %d, %s: %s %s: right is %q, want %q of %q", seed, q.Mode.Name, q.Stands, q.Asks, got, want, q.Choices)
			}
			came[q.Mode.Name+": "+want]++
			s.Next()
		}
	}
	if len(came) < 20 {
		t.Errorf("only these came: %v", came)
	}
}

// turnsStill says whether a wiring still turns a motor, as the symmetries of the
// ring have it.
func turnsStill(b *bench.Bench) bool {
	return b.Read().Wiring.Turns() != sequence.Standing
}

func figure(t *testing.T, words string) (v float64) {
	t.Helper()
	for _, digit := range strings.TrimSuffix(words, "°") {
		if digit == '.' {
			break
		}
		v = 10*v + float64(digit-'0')
	}
	if _, after, ok := strings.Cut(strings.TrimSuffix(words, "°"), "."); ok {
		scale := 0.1
		for _, digit := range after {
			v += scale * float64(digit-'0')
			scale /= 10
		}
	}
	return v
}

// The bench does what was said to be right, on every built-in motor; each question
// has different choices, and one seed asks the same again.
func TestTheBenchDoesIt(t *testing.T) {
	for _, name := range motor.Names() {
		m := built(t, name)
		s, again := New(m, 7), New(m, 7)
		for range 60 {
			q := s.Question
			if !reflect.DeepEqual(q.Choices, again.Question.Choices) || q.Stands != again.Question.Stands || q.Right != again.Question.Right {
				t.Fatalf("%s: one seed asks %+v and %+v", name, q, again.Question)
			}
			for i, c := range q.Choices {
				if slices.Contains(q.Choices[:i], c) {
					t.Errorf("%s: %s has twice %q", name, q.Asks, c)
				}
			}
			if q.Right < 0 || q.Right >= len(q.Choices) || q.Why == "" {
				t.Fatalf("%s: %+v", name, q)
			}
			s.Answer(q.Right)
			r := s.Bench.Read()
			if r.TurnedOK && strings.HasPrefix(q.Asks, "Which way") {
				if got := []string{"clockwise", "counter-clockwise"}[bit(r.Turned < 0)]; math.Abs(r.Turned) > 1 && got != q.Choices[q.Right] {
					t.Errorf("%s: %s %s: it turned %g, and right was %q", name, q.Stands, q.Asks, r.Turned, q.Choices[q.Right])
				}
			}
			s.Next()
			again.Next()
		}
	}
}

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}

// On every built-in motor, with its friction and detent, and both ways: what a wrong
// plug does is what the symmetries of the ring have it do, turn or rock.
func TestWhatAWrongPlugDoes(t *testing.T) {
	came := map[string]int{}
	for _, name := range motor.Names() {
		for seed := range uint64(30) {
			s := New(built(t, name), seed)
			for range 30 {
				q := s.Question
				if !strings.HasPrefix(q.Asks, "The rows are sent") {
					s.Next()
					continue
				}
				r := s.Bench.Read()
				var onEnds sequence.Permutation // what the order means for an end, and the end that gets it
				for end, output := range s.Bench.Motor().Wiring.Inverse() {
					onEnds[end] = r.Wiring[output]
				}
				want := "rock to and fro in one place"
				switch onEnds.Turns() * r.Way {
				case sequence.Forward:
					want = "turn clockwise, row by row"
				case sequence.Reverse:
					want = "turn counter-clockwise, row by row"
				}
				if got := q.Choices[q.Right]; got != want {
					t.Fatalf("%s, seed %d, %s: %s right is %q, wanted %q: %s", name, seed, q.Mode.Name, q.Stands, got, want, q.Why)
				}
				if strings.Contains(q.Why, "exchanged") != strings.Contains(q.Stands, "exchanged") {
					t.Errorf("%s: %s", q.Stands, q.Why)
				}
				came[want+r.Way.String()+q.Mode.Name]++
				s.Next()
			}
		}
	}
	if len(came) != 18 {
		t.Errorf("only these came: %v", came)
	}
}

// Answers count once, by mode, and a wrong one ends a streak.
func TestScore(t *testing.T) {
	s := New(built(t, "hybrid-4"), 1)
	for round := range 3 {
		for range sequence.Modes {
			choice := s.Question.Right
			if round == 2 && s.Question.Mode.Name == "full" {
				choice = (choice + 1) % len(s.Question.Choices)
			}
			if s.Answer(len(s.Question.Choices)) || !s.Answer(choice) || s.Answer(choice) {
				t.Fatal("an answer that is none counts, or one that counts twice")
			}
			s.Next()
		}
	}
	for i, m := range sequence.Modes {
		want := Score{3, 3, 3}
		if m.Name == "full" {
			want = Score{3, 2, 0}
		}
		if s.Scores[i] != want {
			t.Errorf("the score of %s is %v, want %v", m.Name, s.Scores[i], want)
		}
	}
}

// It begins with which way, how far and how hard, and does not ask the same thing
// over and over: whoever knows √2 by now is asked something else.
func TestQuestionsAreMixed(t *testing.T) {
	for seed := range uint64(20) {
		s := New(built(t, "vent-flap"), seed)
		last := ""
		for k := range 36 {
			asks := s.Question.Asks
			if want := []string{"Which way", "How far", "How hard"}; k < 3 && !strings.HasPrefix(asks, want[k]) {
				t.Errorf("seed %d: question %d is %q, wanted %s", seed, k+1, asks, want[k])
			}
			if r := s.Bench.Read(); k < 3 && (r.Rewired || len(r.Faults) > 0) {
				t.Errorf("seed %d: question %d is about a fault: %s", seed, k+1, s.Question.Stands)
			}
			if asks == last {
				t.Errorf("seed %d: question %d is asked again: %s", seed, k+1, asks)
			}
			last = asks
			s.Next()
		}
	}
}
