package course

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"sort"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/recording"
	"coilwalk/model/table"
)

// Choice is the channels that were taken for the outputs, and why.
type Choice struct {
	Channels []string // as many as the pins are
	Outputs  [4]string
	Pins     table.Pins
	Why      string
}

// Bounds on the look at the beginning of a recording, by which outputs are found.
const (
	lookedSamples = 1 << 18
	lookedRows    = 600 // of each four channels
	leastShare    = 0.7 // of their changes must go on the same way
	leastRows     = 4   // changes that must be steps for four channels to be found
)

// choose finds the channels, and gives the samples that were read to do so.
func choose(r *recording.Reader, names []string, pins table.Pins) (Choice, []recording.Sample, error) {
	c := Choice{Pins: pins}
	want := 4
	if pins == table.TwoLine {
		want = 2
	}
	if len(names) > 0 {
		chosen, err := named(r, names, want)
		if err != nil {
			return c, nil, err
		}
		c.Why = "as named"
		c.take(r, chosen)
		return c, nil, r.Watch(chosen)
	}
	if len(r.Channels) == want {
		c.Why = fmt.Sprintf("the recording has %d channels", want)
		c.take(r, upTo(want))
		return c, nil, r.Watch(upTo(want))
	}
	if len(r.Channels) < want {
		return c, nil, &files.Complaint{File: r.Name(), What: fmt.Sprintf("only %d channels are recorded (%s)", len(r.Channels), listed(r.Channels)), Right: fmt.Sprintf("the %d pins of one motor are wanted; two polarity lines are read with --pins two-line, step and direction lines with --pins step-direction", want)}
	}
	if len(r.Channels) > recording.MostChannels || want != 4 || pins == table.PhaseEnable {
		return c, nil, &files.Complaint{File: r.Name(), What: fmt.Sprintf("it has %d channels", len(r.Channels)), Right: fmt.Sprintf("name the %d of the motor with --channels; there are %s", want, listed(r.Channels))}
	}
	early, err := beginning(r)
	if err != nil {
		return c, nil, err
	}
	chosen, why := find(r, early)
	if chosen == nil {
		return c, nil, &files.Complaint{File: r.Name(), What: why, Right: "name the four outputs of the motor with --channels; there are " + listed(r.Channels)}
	}
	c.Why = why
	c.take(r, chosen)
	kept := make([]recording.Sample, len(early))
	for i, s := range early {
		kept[i].At = s.At
		for k, n := range chosen {
			kept[i].High |= s.High >> n & 1 << k
			kept[i].Unknown |= s.Unknown >> n & 1 << k
		}
	}
	return c, kept, r.Watch(chosen)
}

func upTo(n int) (all []int) {
	for i := range n {
		all = append(all, i)
	}
	return all
}

// take notes the channels; two lines stand for the ends of A and B each.
func (c *Choice) take(r *recording.Reader, chosen []int) {
	for _, n := range chosen {
		c.Channels = append(c.Channels, r.Channels[n].Name)
	}
	switch c.Pins {
	case table.TwoLine, table.PhaseEnable:
		c.Outputs = [4]string{"A+", "B+", "A-", "B-"}
	default:
		copy(c.Outputs[:], c.Channels)
	}
}

// named gives the channels of these names; the name of a bus stands for its bits.
func named(r *recording.Reader, names []string, want int) (chosen []int, err error) {
	var known []string
	for _, c := range r.Channels {
		known = append(known, c.Name)
	}
	for _, name := range names {
		found := false
		for i, c := range r.Channels {
			if strings.EqualFold(c.Name, name) || c.Bus != "" && strings.EqualFold(c.Bus, name) || slices.ContainsFunc(c.Others, func(o string) bool { return strings.EqualFold(o, name) }) {
				chosen, found = append(chosen, i), true
			}
		}
		if !found {
			right := "there are " + listed(r.Channels)
			if near := files.Nearest(name, known); near != "" {
				right = fmt.Sprintf("did you mean %q? %s", near, right)
			}
			return nil, &files.Complaint{File: r.Name(), What: fmt.Sprintf("it has no channel %s", files.Quoted(name)), Right: right}
		}
	}
	if len(chosen) != want {
		return nil, &files.Complaint{What: fmt.Sprintf("--channels names %d channels", len(chosen)), Right: fmt.Sprintf("%d are wanted, output 1 first", want)}
	}
	seen := map[int]bool{}
	for _, n := range chosen {
		if seen[n] {
			return nil, &files.Complaint{What: fmt.Sprintf("--channels names %s twice", files.Quoted(r.Channels[n].Name)), Right: "each output has a channel of its own"}
		}
		seen[n] = true
	}
	return chosen, nil
}

func listed(channels []recording.Channel) string {
	const most = 16
	var names []string
	for _, c := range channels {
		names = append(names, c.Name)
	}
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	return strings.Join(names, ", ")
}

// beginning reads as much as outputs are found by, over all channels.
func beginning(r *recording.Reader) ([]recording.Sample, error) {
	if err := r.Watch(upTo(len(r.Channels))); err != nil {
		return nil, err
	}
	early := make([]recording.Sample, lookedSamples)
	n := 0
	for n < len(early) {
		k, err := r.Next(early[n:])
		n += k
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
	}
	return early[:n], nil
}

// find looks for the four channels whose changes are the steps of a motor, under
// some pairing into coils.
func find(r *recording.Reader, early []recording.Sample) (chosen []int, why string) {
	edges := make([]int, len(r.Channels))
	for i := 1; i < len(early); i++ {
		for d := (early[i].High ^ early[i-1].High) &^ (early[i].Unknown | early[i-1].Unknown); d != 0; d &= d - 1 {
			edges[trailing(d)]++
		}
	}
	var moving []int
	for i, n := range edges {
		if n > 0 {
			moving = append(moving, i)
		}
	}
	switch len(moving) {
	case 0:
		return nil, "none of its channels moves"
	case 4:
		return moving, fmt.Sprintf("of %d channels only these four move", len(r.Channels))
	case 1, 2, 3:
		var names []string
		for _, i := range moving {
			names = append(names, r.Channels[i].Name)
		}
		return nil, fmt.Sprintf("of its %d channels only %s move; with a pin that is stuck it has to be told which the four are", len(r.Channels), strings.Join(names, ", "))
	}
	type four struct {
		channels [4]int
		share    float64
		steps    int
	}
	var good []four
	for a := range moving {
		for b := a + 1; b < len(moving); b++ {
			for c := b + 1; c < len(moving); c++ {
				for d := c + 1; d < len(moving); d++ {
					f := four{channels: [4]int{moving[a], moving[b], moving[c], moving[d]}}
					if !together(edges, f.channels) {
						continue
					}
					if f.share, f.steps = stepping(early, f.channels, r.Tick); f.share >= leastShare && f.steps >= leastRows {
						good = append(good, f)
					}
				}
			}
		}
	}
	if len(good) == 0 {
		return nil, fmt.Sprintf("no four of its %d channels behave like the outputs of one motor", len(r.Channels))
	}
	sort.SliceStable(good, func(i, k int) bool { return good[i].share > good[k].share+0.02 })
	alike := good[:1]
	for _, f := range good[1:] {
		if f.share > good[0].share-0.02 {
			alike = append(alike, f)
		}
	}
	slices.SortStableFunc(alike, func(a, b four) int { return cmp.Compare(spread(edges, a.channels), spread(edges, b.channels)) })
	if len(alike) > 1 && spread(edges, alike[1].channels) < 1.2*spread(edges, alike[0].channels) {
		return nil, fmt.Sprintf("more than one four of its %d channels behave like the outputs of a motor", len(r.Channels))
	}
	best := alike[0]
	return best.channels[:], fmt.Sprintf("of %d channels only these four move like coil outputs: %.0f %% of their changes are steps the same way as the one before", len(r.Channels), 100*best.share)
}

// together says whether channels move about as often as each other: the pins of
// one motor do, whatever the mode.
func together(edges []int, channels [4]int) bool {
	least, most := edges[channels[0]], edges[channels[0]]
	for _, c := range channels {
		least, most = min(least, edges[c]), max(most, edges[c])
	}
	return most <= 4+2*least
}

// spread gives how many times as often the busiest of four channels moves as the
// one that moves least.
func spread(edges []int, channels [4]int) float64 {
	least, most := edges[channels[0]], edges[channels[0]]
	for _, c := range channels {
		least, most = min(least, edges[c]), max(most, edges[c])
	}
	return float64(most+1) / float64(least+1)
}

// stepping gives the share of the changes of four channels that are steps, under
// the best pairing and level, and how many there were.
func stepping(early []recording.Sample, channels [4]int, tick float64) (share float64, steps int) {
	g := newGatherer(tick)
	batch := make([]recording.Sample, 0, 256)
	for i := range early {
		s := recording.Sample{At: early[i].At}
		for k, c := range channels {
			s.High |= early[i].High >> c & 1 << k
			s.Unknown |= early[i].Unknown >> c & 1 << k
		}
		if batch = append(batch, s); len(batch) == cap(batch) {
			g.add(batch)
			batch = batch[:0]
			if g.course.n > lookedRows {
				break
			}
		}
	}
	g.add(batch)
	c := g.end(early[len(early)-1].At)
	t := turnsOf(c)
	low, _ := t.level()
	wiring, _ := t.best(low)
	of := codesOf(wiring, low)
	return goingOn(c, &of), t.all
}

// goingOn gives the share of the changes that are a step the same way as the
// step before: a line that belongs to something else makes the field go to and
// fro.
func goingOn(c *Course, of *codes) float64 {
	good, all := 0, 0
	last, way := lost, int8(0)
	for i := range c.n {
		now := of.of(c.Row(i))
		if now == off || now == lost {
			last, way = lost, 0
			continue
		}
		s := int8(0)
		if now < eighths && last < eighths {
			s = step(last, now)
		}
		if last != lost {
			if all++; s >= 1 && s <= 2 && way >= 0 || s >= -2 && s <= -1 && way <= 0 {
				good++
			}
		}
		last, way = now, s
	}
	if all == 0 {
		return 0
	}
	return float64(good) / float64(all)
}

func trailing(d uint32) int {
	n := 0
	for d&1 == 0 {
		d, n = d>>1, n+1
	}
	return n
}
