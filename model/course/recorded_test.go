package course_test

import (
	"fmt"
	"slices"
)

// ring says how a wiring turns the field of a forward order: 1 forward, −1
// reverse, 0 when it only shakes the rotor.
func ring(said, real []int) int {
	var to [4]int
	for k := range real {
		to[real[k]] = said[k]
	}
	step := (to[1] - to[0] + 4) % 4
	for k := range to {
		if (to[(k+1)%4]-to[k]+4)%4 != step || step == 2 {
			return 0
		}
	}
	return 2 - step
}

// record lays a script out on pins, adds what else an analyser sees, writes the
// file, and makes up what the person says of it.
func (g *generated) record(s *script, t timing, tick int) {
	fastest := s.beats[0].usual
	for _, b := range s.beats {
		fastest = min(fastest, b.usual)
	}
	t.skew = min(20e3, fastest/20) * s.Float64() * float64(s.IntN(2))
	t.order = [4]int(s.Perm(4))
	for i := range g.faults {
		if f := &g.faults[i]; f.kind == "stuck-low" || f.kind == "stuck-high" {
			t.stuck = append(t.stuck, *f)
			for k := range g.faults {
				g.faults[k].loose = g.faults[k].loose || k != i
			}
		}
	}

	tr := &trace{}
	others := s.IntN(5)
	count := 4 + others
	tr.names, tr.start, tr.unknown = make([]string, count), make([]bool, count), make([]bool, count)
	places := s.Perm(count)
	copy(t.pins[:], places)
	begins := s.chance(0.5) // the analyser was started before anything was set
	if begins {
		t.first = s.beats[0].usual * s.between(1, 30)
	}
	tr.edges = s.lay(&t)
	last := s.beats[len(s.beats)-1]
	tr.until = last.at + last.lasts
	for end, c := range t.pins {
		tr.start[c] = t.low
		for _, w := range t.stuck {
			if w.whole && w.end == end {
				tr.start[c] = w.high
			}
		}
	}
	g.asking(s, &t, tr)
	if !begins {
		for _, e := range tr.edges[:4] {
			tr.start[e.channel] = e.high
		}
	} else if !g.asCSV(tick) && s.chance(0.3) {
		for _, c := range t.pins {
			tr.unknown[c] = true
		}
	}
	for _, f := range g.faults {
		if f.kind == "glitch" {
			tr.edges = f.pulses(tr.edges, t.pins[f.end], t.low)
		}
	}
	names, start, edges := s.bystanders(others, 4, tr.until)
	for k, name := range names {
		c := places[4+k]
		tr.start[c] = start[k]
		if g.asked.channels != nil {
			tr.names[c] = fmt.Sprintf("%s%d", name, k)
		}
	}
	for _, e := range edges {
		e.channel = places[e.channel]
		tr.edges = append(tr.edges, e)
	}
	tr.settle()
	g.tell(s, &t, tr, tick)
	g.trace, g.tick = tr, tick
	if g.asCSV(tick) {
		g.text = tr.csv(s.Rand, tick)
	} else {
		g.text = tr.vcd(s.Rand, tick)
	}
}

func (g *generated) asCSV(tick int) bool { return tick == 3 }

// asking makes up names, and what the person says.
func (g *generated) asking(s *script, t *timing, tr *trace) {
	kind := func(k string) bool {
		return slices.ContainsFunc(g.faults, func(f wrong) bool { return f.kind == k })
	}
	for c := range tr.names {
		tr.names[c] = fmt.Sprintf("D%d", c)
	}
	stuck := len(t.stuck) > 0
	named := stuck || kind("outputs-permuted") || kind("direction-reversed") || len(s.beats) < 50 || s.chance(0.6)
	if !named {
		g.saying(s, stuck)
		return
	}
	g.feeds = s.Perm(4)
	for output, end := range g.feeds {
		name := fmt.Sprintf("IN%d", output+1)
		tr.names[t.pins[end]] = name
		g.asked.channels = append(g.asked.channels, name)
	}
	most := 0
	rows := 0
	for _, r := range g.runs {
		most += r.way * r.rows
		rows += r.rows
	}
	switch {
	case kind("outputs-permuted"):
		for g.asked.wiring = s.Perm(4); ring(g.asked.wiring, g.feeds) != 0; g.asked.wiring = s.Perm(4) {
		}
	case kind("direction-reversed") || s.chance(0.5):
		for g.asked.wiring = s.Perm(4); ring(g.asked.wiring, g.feeds) == 0; g.asked.wiring = s.Perm(4) {
		}
		if kind("direction-reversed") || abs(most)*10 > rows*4 && s.chance(0.5) {
			g.asked.meant = sign(most) * ring(g.asked.wiring, g.feeds)
		}
		if kind("direction-reversed") {
			g.asked.meant = -g.asked.meant
		}
	}
	g.saying(s, stuck)
}

func abs(n int) int { return max(n, -n) }

func sign(n int) int {
	if n < 0 {
		return -1
	}
	return 1
}

// saying says which level is on, where the rows can not show it: full step reads
// the same either way, and a row that is wrong only shows against the level.
func (g *generated) saying(s *script, stuck bool) {
	hidden := !slices.ContainsFunc(s.legs, func(l leg) bool { return l.mode != fullMode }) && len(g.faults) > 0
	if hidden || stuck || s.chance(0.4) {
		g.asked.level = 1 - 2*int(bit(g.low))
	}
}

// tell notes where and when each fault shows.
func (g *generated) tell(s *script, t *timing, tr *trace, tick int) {
	for i := range g.faults {
		f := &g.faults[i]
		slack := f.first.usual*1.1 + t.skew + ticks[tick].ns
		f.row, f.lastRow = f.first.row-1, f.last.row+1
		f.from, f.to = (f.first.at-slack)/1e9, (f.last.at+slack)/1e9
		if f.kind == "glitch" {
			f.from, f.to = f.from+f.within/1e9, f.to+f.within/1e9
		}
		if f.whole {
			f.row, f.from = 0, 0
			f.lastRow = max(f.lastRow, 1)
		}
		if f.kind == "outputs-permuted" || f.kind == "direction-reversed" {
			shows := s.beats[slices.IndexFunc(s.beats, func(b *beat) bool { return b.row == 5 })] // within the first rows
			f.lastRow, f.to = shows.row, shows.at/1e9
		}
		if f.end >= 0 {
			f.channel = tr.names[t.pins[f.end]]
		}
	}
}
