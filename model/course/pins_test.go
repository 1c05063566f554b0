package course_test

import (
	"cmp"
	"math"
	"slices"
)

// edge is a change of a channel.
type edge struct {
	at      float64 // ns
	channel int
	high    bool
}

// trace is what an analyser saw: levels at the start, and edges in the order of time.
type trace struct {
	names   []string
	unknown []bool // neither high nor low until the first edge
	start   []bool
	edges   []edge
	until   float64 // ns
}

// timing is how well the firmware keeps time.
type timing struct {
	jitter float64 // of an interval
	most   float64 // ns of jitter
	skew   float64 // ns from the first pin written to the last
	order  [4]int  // in which the ends' pins are written
	pins   [4]int  // channel of each end
	low    bool    // low is on
	first  float64 // ns: time of the first beat
	stuck  []wrong // pins
}

// lay gives the edges of the four pins, and says of each beat when it is and
// which row one sees.
func (s *script) lay(t *timing) []edge {
	now := t.first
	for k, b := range s.beats {
		b.shift = 0
		if k > 0 {
			short := math.Min(b.usual, math.Min(b.lasts, math.Min(s.beats[k-1].lasts, s.beats[k-1].usual)))
			b.shift = math.Min(t.jitter*short, t.most) / 2 * s.between(-1, 1)
		}
		b.at = now
		now += b.lasts
	}
	var edges []edge
	var was, seen uint8
	row := 0
	for k, b := range s.beats {
		is := b.ends
		for _, w := range t.stuck {
			if (w.whole || b.at >= w.first.at) && (w.until == nil || b.at < w.until.at) {
				is = is&^(1<<w.end) | bit(w.high != t.low)<<w.end
			}
		}
		if k == 0 || is != seen {
			if is != 0 || row > 0 && b.leg >= 0 {
				row++
			}
			for place, end := range t.order {
				if k > 0 && (is^was)>>end&1 == 0 {
					continue
				}
				at := b.at + b.shift + b.late[end] + t.skew*float64(place)/3*s.between(0.8, 1)
				edges = append(edges, edge{math.Max(at, 0), t.pins[end], is>>end&1 == 1 != t.low})
			}
			was, seen = is, is
		}
		b.row = row
	}
	return edges
}

func bit(set bool) uint8 {
	if set {
		return 1
	}
	return 0
}

// pulses adds a glitch to a pin.
func (w *wrong) pulses(edges []edge, channel int, low bool) []edge {
	level, start := low, w.first.at+w.within
	slices.SortStableFunc(edges, func(a, b edge) int { return cmp.Compare(a.at, b.at) })
	for _, e := range edges {
		if e.channel == channel && e.at <= start {
			level = e.high
		}
	}
	return append(edges, edge{start, channel, !level}, edge{start + w.pulse, channel, level})
}

// bystanders are the lines of a recording that have nothing to do with the motor.
func (s *script) bystanders(count, first int, until float64) (names []string, start []bool, edges []edge) {
	for k := range count {
		channel := first + k
		level := s.chance(0.5)
		start = append(start, level)
		toggle := func(at float64) {
			if at < until {
				level = !level
				edges = append(edges, edge{at, channel, level})
			}
		}
		switch s.IntN(4) {
		case 0: // a clock
			names = append(names, "CLK")
			period := until / s.between(500, 2500)
			for at := period * s.Float64(); at < until; at += period / 2 {
				toggle(at)
			}
		case 1: // bytes on a serial line: ten bits of a width each, in bursts
			names = append(names, "TX")
			start[k], level = true, true
			bit := s.spread(8e3, 1e5)
			for at := until * s.Float64() / 4; at < until && len(edges) < 3000; at += until / 5 * s.Float64() {
				for range 1 + s.IntN(20) {
					toggle(at) // the start bit
					for b := range 8 {
						if s.chance(0.5) {
							toggle(at + bit*float64(b+1))
						}
					}
					if !level {
						toggle(at + bit*9)
					}
					at += bit * 10
				}
			}
		case 2: // a line that stays
			names = append(names, "LED")
		default: // a slow input
			names = append(names, "LIMIT")
			at := 0.0
			for range s.IntN(6) {
				at += until / 3 * s.Float64()
				toggle(at)
			}
		}
	}
	return names, start, edges
}

// settle orders edges and leaves out those that change nothing.
func (t *trace) settle() {
	slices.SortStableFunc(t.edges, func(a, b edge) int { return cmp.Compare(a.at, b.at) })
	level := slices.Clone(t.start)
	known := make([]bool, len(level))
	for c := range known {
		known[c] = !t.unknown[c]
	}
	t.edges = slices.DeleteFunc(t.edges, func(e edge) bool {
		same := known[e.channel] && level[e.channel] == e.high
		level[e.channel], known[e.channel] = e.high, true
		return same
	})
}
