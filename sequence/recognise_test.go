package sequence

import (
	"testing"

	"pgregory.net/rapid"
)

type stretch struct {
	mode  Mode
	start int
	way   Direction
	rows  []Row
}

func drawStretch(t *rapid.T, modes []Mode, least int) stretch {
	m := rapid.SampledFrom(modes).Draw(t, "mode")
	s := stretch{
		mode:  m,
		start: rapid.IntRange(0, m.Rows()-1).Draw(t, "start"),
		way:   rapid.SampledFrom([]Direction{Forward, Reverse}).Draw(t, "way"),
	}
	for k := range rapid.IntRange(least, 40).Draw(t, "n") {
		s.rows = append(s.rows, m.Order().Row(int64(s.start)+int64(s.way)*int64(k)))
	}
	return s
}

// From two rows to some ten cycles, and listed backwards it goes the other way.
func TestRecogniseListedBackwards(t *testing.T) {
	modes := everyMode(t)
	rapid.Check(t, func(t *rapid.T) {
		s := drawStretch(t, modes, 2)
		got, ok := Recognise(s.rows)
		if !ok || got.Mode.Title != s.mode.Title || got.Direction != s.way || got.Start != s.start {
			t.Fatalf("%v %s %s from %d", ok, got.Mode.Title, got.Direction, got.Start)
		}
		var back []Row
		for k := range s.rows {
			back = append(back, s.rows[len(s.rows)-1-k])
		}
		last := s.mode.Order().Index(int64(s.start) + int64(s.way)*int64(len(s.rows)-1))
		got, ok = Recognise(back)
		if !ok || got.Mode.Title != s.mode.Title || got.Direction != -s.way || got.Start != last {
			t.Fatalf("backwards: %v %s %s from %d, want %s from %d", ok, got.Mode.Title, got.Direction, got.Start, -s.way, last)
		}
	})
}

// One slip anywhere, the first and the last row included, and it is a stretch of
// no mode. Four rows at least: of three rows of full step the middle one can be
// replaced so that the other direction comes out.
func TestOneSlipIsRefused(t *testing.T) {
	modes := everyMode(t)
	slips := map[string]func(*rapid.T, stretch) []Row{
		"replaced by another row of the mode": func(t *rapid.T, s stretch) []Row {
			i := rapid.IntRange(0, len(s.rows)-1).Draw(t, "i")
			by := rapid.IntRange(1, s.mode.Rows()-1).Draw(t, "by")
			at := int64(s.start) + int64(s.way)*int64(i)
			s.rows[i] = s.mode.Order().Row(at + int64(by))
			return s.rows
		},
		"replaced by a row with an output off": func(t *rapid.T, s stretch) []Row {
			i := rapid.IntRange(0, len(s.rows)-1).Draw(t, "i")
			for _, e := range s.rows[i].On() {
				if s.rows[i][e] > 0.1 {
					s.rows[i][e] = 0
					break
				}
			}
			return s.rows
		},
		"weakened": func(t *rapid.T, s stretch) []Row {
			i := rapid.IntRange(0, len(s.rows)-1).Draw(t, "i")
			for e := range s.rows[i] {
				s.rows[i][e] *= 0.95
			}
			return s.rows
		},
		"cancelled": func(t *rapid.T, s stretch) []Row {
			s.rows[rapid.IntRange(0, len(s.rows)-1).Draw(t, "i")] = Row{1, 1, 1, 1}
			return s.rows
		},
		"repeated": func(t *rapid.T, s stretch) []Row {
			i := rapid.IntRange(0, len(s.rows)-1).Draw(t, "i")
			return append(append(append([]Row(nil), s.rows[:i]...), s.rows[i]), s.rows[i:]...)
		},
		"left out": func(t *rapid.T, s stretch) []Row {
			i := rapid.IntRange(1, len(s.rows)-2).Draw(t, "i")
			return append(append([]Row(nil), s.rows[:i]...), s.rows[i+1:]...)
		},
		"exchanged with its neighbour": func(t *rapid.T, s stretch) []Row {
			i := rapid.IntRange(0, len(s.rows)-2).Draw(t, "i")
			s.rows[i], s.rows[i+1] = s.rows[i+1], s.rows[i]
			return s.rows
		},
	}
	for name, slip := range slips {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				if got, ok := Recognise(slip(t, drawStretch(t, modes, 4))); ok {
					t.Fatalf("told to be %s %s from %d", got.Mode.Title, got.Direction, got.Start)
				}
			})
		})
	}
}

// What an order that only shakes makes is no stretch of any mode.
func TestShakingIsNotRecognised(t *testing.T) {
	for _, p := range Permutations() {
		for _, m := range Modes {
			s, ok := Recognise(through(m, p, 1))
			if ok != (p.Turns() != Standing) || ok && (s.Mode.Name != m.Name || s.Direction != p.Turns()) {
				t.Errorf("%s through %v: %v %s %s", m.Name, p, ok, s.Mode.Name, s.Direction)
			}
		}
	}
}
