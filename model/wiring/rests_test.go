package wiring

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// The places of a buzz are those that are seen most often over all benches, and of as
// many the fewer: here what a row does is written down for each bench.
func TestPlacesSeenMostOften(t *testing.T) {
	rows := make([]sequence.Row, 4)
	for k := range rows {
		rows[k] = sequence.Wave.Order().Row(int64(k))
	}
	to := map[int][4]float64{1: {}, 2: {30, -30, 30, -30}, 3: {30, 30, -60, 0}, 4: {20, 20, 20, -60}}
	for _, c := range []struct {
		free, rubs, pushed, pulled int // places on a bench: weights 0.45, 0.25, 0.15 and 0.15
		want                       int
	}{{2, 3, 4, 4, 2}, {4, 3, 2, 2, 4}, {1, 1, 4, 3, 3}, {1, 1, 3, 4, 3}, {1, 2, 3, 3, 3}, {1, 1, 1, 1, 0}} {
		for range 8 { // the order of a map is by chance
			b := behaveBy(rows, 1, func(at bench) func(int, float64) restWay {
				n := c.free
				switch {
				case at.load > 0:
					n = c.pushed
				case at.load < 0:
					n = c.pulled
				case at.friction > 0:
					n = c.rubs
				}
				return func(row int, _ float64) restWay { return restWay{by: [2]float64{to[n][row]}, ways: 1} }
			})
			if b.Places != c.want {
				t.Fatalf("%+v: %d places of %v", c, b.Places, b.Share)
			}
		}
	}
}

// States stand by angle, then by how far they came, then by the way they went last;
// those that move come last, and sums are made in that order whatever a map does.
func TestStatesInOrder(t *testing.T) {
	want := []state{{deg: 1, total: 5, last: 1}, {deg: 2, total: -3, last: 1}, {deg: 2, total: 4, last: -1, moved: true}, {deg: 2, total: 4, last: 1}, {deg: 2, total: 4, last: 1, moved: true}, {deg: 2, total: 4, last: 1, moved: true, rests: places{1}}, {deg: 2, total: 7, last: -1}, {deg: 3, total: -9, last: -1}}
	random := rand.New(rand.NewPCG(3, 3))
	for range 20 {
		now := map[state]float64{}
		for _, k := range random.Perm(len(want)) {
			now[want[k]] = 1
		}
		if got := inOrder(now); !slices.Equal(got, want) {
			t.Fatalf("in order they are %v", got)
		}
	}
}

// At most so many states are followed on, the likeliest, and of those that are alike
// the first; nothing of the weight is lost, and fewer are kept as they are.
func TestStatesThatAreFollowed(t *testing.T) {
	stay := runner{holds: []bool{true}, grain: 1, rest: func(int, float64) restWay { return restWay{ways: 1} }}
	for _, n := range []int{1, 30, mostTracked, mostTracked + 1, mostTracked + 50} {
		now := map[state]float64{}
		for k := range n {
			now[state{deg: float64(k) / 2}] = 1
		}
		now[state{deg: float64(n-1) / 2}] = 2
		sum, last := 0.0, 0
		next := stay.step(now, 0)
		for s, w := range next {
			sum += w
			if w > 1.5 {
				last++
			} else if n > mostTracked && s.deg > float64(mostTracked-2)/2 {
				t.Errorf("of %d states that at %g° is kept", n, s.deg)
			}
		}
		if len(next) != min(n, mostTracked) || math.Abs(sum-float64(n+1)) > 1e-6 || last != 1 {
			t.Errorf("of %d states %d are kept, with %g, and %d of the likeliest", n, len(next), sum, last)
		}
	}
}

// Two rests within a grain are one place: of 15°, 44° and 46° are, 44° and 61° are not.
func TestRestsWithinAGrain(t *testing.T) {
	r := runner{holds: []bool{true}, grain: oneSwing}
	for second, want := range map[float64]int{46: 1, 52: 1, 53: 2, 61: 2, 37: 2, 38: 1} {
		s := r.to(r.to(state{deg: 40}, 4, 0), second-44, 0)
		if s.rests.count() != want {
			t.Errorf("44° and %g° are %d places", second, s.rests.count())
		}
	}
}

// A load in T1 is one at the rotor: at the shaft the train makes it as much larger as
// it makes the rotor slower.
func TestLoadOfABench(t *testing.T) {
	s := NewSlowly(builtIn(t, "vent-flap"))
	at := s.at(bench{load: 0.1, friction: 0.05})
	if s.plant.Ratio < 2 {
		t.Fatalf("a train of %g", s.plant.Ratio)
	}
	if got := (at.plant.Load.Torque - s.plant.Load.Torque) / s.plant.Ratio; math.Abs(got-0.1*s.plant.OnePhase()) > 1e-9*s.plant.OnePhase() || at.plant.Friction < 0.05*s.plant.OnePhase() {
		t.Errorf("at the rotor it is %g of %g N·m", got, s.plant.OnePhase())
	}
}

// A quarter turn of what a row takes a rotor from is kept as the same, whatever is on
// before and then, and broken.
func TestQuarterTurnsAreOneKey(t *testing.T) {
	for _, row := range []sequence.Row{{}, {1, 0, 0, 0}, {1, 0, 1, 0}, {1, 1, 1, 1}, {0, 1, 1, 0}} {
		for _, before := range []sequence.Row{{}, {1, 0, 0, 0}, {1, 0, 1, 0}, {0, 1, 1, 1}, {1, 1, 0, 0}} {
			for _, broken := range [][4]bool{{}, {true}, {true, false, true, false}} {
				key := settleKey{before, row, broken, 30}
				want := key.turned()
				for range 4 {
					key = settleKey{quarter(key.before), quarter(key.row), quarter(key.broken), within(key.deg - 90)}
					if got := key.turned(); got != want {
						t.Errorf("%+v is kept as %+v and as %+v", key, got, want)
					}
				}
			}
		}
	}
}

// What a run in time comes to, for a rotor that a load alone drags on, at a speed that
// is measured first: counted after two cycles, 0.8 of a pitch in each is turning, 0.2
// is turning too little, and less a buzz.
func TestShareOfARunInTime(t *testing.T) {
	p := plantFor(t, "hybrid-4")
	p.Detent, p.Friction, p.Load.Friction = 0, 0, 0
	free := [4]driver.Feed{}
	for k := range free {
		free[k] = driver.Feed{Firm: true}
	}
	p.Damping *= 20
	for _, load := range []float64{0.05, -0.05} {
		p.Load.Torque = load * p.OnePhase()
		m := newTimed(&p)
		m.Feed(free)
		far := func(at float64) rotor.Position {
			if err := m.Advance(at); err != nil {
				t.Fatal(err)
			}
			return m.State().Place
		}
		from := far(1)
		speed := far(2).From(from) // electrical degrees a second, at its end speed
		way := Clockwise
		if speed < 0 {
			way = CounterClockwise
		}
		for _, n := range []int{1, 4} {
			for share, want := range map[float64]Does{0.85: way, 0.81: way, 0.78: Skips, 0.7: Skips, 0.22: Skips, 0.18: Buzzes} {
				rows, holds := make([][4]driver.Feed, n), make([]bool, n)
				for k := range rows {
					rows[k] = free
				}
				rate := math.Abs(speed) / (360 * share) * float64(n) // rows a second
				if does, _ := runInTime(m, rows, holds, Trial{Rate: rate}, 30); does != want {
					t.Errorf("%g of a pitch in each cycle of %d rows: %s, want %s", share, n, does, want)
				}
			}
		}
	}
}

// Places are those of the last cycle: a rotor begun on the hill of the first row goes to
// and fro between two places, whatever it did before.
func TestPlacesOfTheLastCycle(t *testing.T) {
	p := plantFor(t, "hybrid-4")
	p.Detent = 0
	var rows [][4]driver.Feed
	for k := range int64(2) {
		rows = append(rows, Feeds(&p, sequence.Wave.Order().Row(k), [4]bool{}))
	}
	if does, n := runInTime(newTimed(&p), rows, []bool{true, true}, Trial{Rate: slowRate}, 180); does != Buzzes || n != 2 {
		t.Errorf("%s among %d places", does, n)
	}
}

// With two neighbours exchanged, by hand: wave drive has four fields, a quarter or a
// half turn from each other, full step two and twice none, half step six and twice
// none. Run in time those are the places of a buzz, beside the starts that turn.
func TestPlacesOfABuzzInTime(t *testing.T) {
	m, p := builtIn(t, "hybrid-4"), plantFor(t, "hybrid-4")
	f, err := ParseFault(m, "swap 2 3")
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []int{4, 2, 6} {
		b := BehaveInTime(m, p, []Fault{f}, Trial{Mode: sequence.Modes[i], Way: sequence.Forward, Rate: slowRate})
		if b.Places != want || b.Share[Buzzes] < 0.1 || b.Share[Buzzes] > 0.9 {
			t.Errorf("%s: %d places, and %v", sequence.Modes[i].Name, b.Places, b.Share)
		}
	}
}
