package course

import (
	"fmt"
	"sort"

	"coilwalk/model/table"
	"coilwalk/sequence"
)

// Level says which level of an output switches its coil on.
type Level int

// Levels: Unsaid is to be found.
const (
	Unsaid Level = iota
	High
	Low
)

// Question is what a course is held against.
type Question struct {
	Wiring    *sequence.Permutation // the coil end that each output drives; nil when nobody says
	Leads     [4]string             // the lead on each output; "" when nobody knows
	Pins      table.Pins            // what the channels are: Auto for coil ends
	Active    Level
	Direction sequence.Direction // that is meant; Standing when nobody says
}

// Pairing is one of the three ways to make two coils of four outputs.
type Pairing struct {
	Coils [2][2]int // outputs from 1, the plus end first
	Sound bool
	Mode  string // of most of its rows: wave, full or half; none where it is not sound
}

// Verdict is what is found.
type Verdict struct {
	Course     *Course
	Numbers    Numbers
	Channels   [4]string // on each output
	Active     Level
	ActiveFrom string // given, found or assumed
	Pairings   []Pairing
	Wiring     *sequence.Permutation // as given
	Taken      sequence.Permutation  // that the rest is told in
	Sound      bool
	Runs       []Run
	Pauses     []Pause
	Faults     []Fault
	More       int // faults beyond those told
	Notes      []string
	Skew       float64  // seconds: from a row's first edge to its last, usually
	Position   *float64 // full steps from the first row to the last, as commanded; nil where the field only jumps
	Positions  *Positions
	Lost       *float64 // full steps that a motor, run along it, is behind at the end; nil when none was run
	LostWhy    string   // why it is nil

	codes codes
	cured *sequence.Permutation // where the outputs are in a wrong order: the one that the faults were sought in
	rows  int64                 // of outputs whose duty makes the rows
}

// Rows counts the rows of the energising order.
func (v *Verdict) Rows() int64 {
	if v.rows > 0 || v.Course.n == 0 {
		return v.rows
	}
	return max(0, v.Numbers.Of(v.Course.n-1))
}

// Judge holds a course against a question. Channels are the names of the four
// outputs.
func Judge(c *Course, channels [4]string, q Question) *Verdict {
	v := &Verdict{Course: c, Channels: channels, Wiring: q.Wiring}
	if k, ok := carrierOf(c); ok {
		if k.varies {
			return v.microsteps(c, k, q)
		}
		c = k.held(c)
		v.Course = c
		v.Notes = append(v.Notes, fmt.Sprintf("The outputs are modulated at %.3g kHz; a pin that is modulated was taken for on. How strongly a coil is driven does not show in that: a current chopper's duty says more of the supply than of the current.", 1e-3/c.Seconds(k.period)))
	}
	t := turnsOf(c)
	v.level(&t, q)
	c = v.withoutOff(c, &t)
	followed := v.pair(c, &t, q)
	v.codes = codesOf(v.Taken, v.Active == Low)
	f := followed[v.Taken]
	if f == nil {
		f = v.follow(c, v.Taken)
	}
	permuted := false
	if q.Wiring != nil {
		if cured := v.permuted(c, f); cured != nil {
			f, permuted = cured, true
		}
	}
	v.Numbers = Numbers{f.skipped}
	v.noteUnknown()
	v.Runs, v.Pauses, v.More = f.runs, f.pauses, f.more
	v.Faults = append(v.Faults, f.told()...)
	for i := range v.Runs {
		v.rate(&v.Runs[i])
		if permuted {
			v.Runs[i].Direction = sequence.Standing
		}
	}
	if f.hopeless() {
		v.Faults = v.noOrder(f)
		v.More = 0
	}
	v.quantised()
	v.againstDirection(q)
	v.Skew = usualSkew(v.Course)
	v.Positions = positions(v.Course, v.codes)
	if !permuted && !f.hopeless() {
		steps := v.Positions.Steps(v.Course.n - 1)
		v.Position = &steps
	}
	v.number()
	v.words(q)
	v.sort()
	return v
}

// sort puts what matters most first, and says whether all is sound: cautions
// alone do not make it unsound.
func (v *Verdict) sort() {
	sort.SliceStable(v.Faults, func(i, k int) bool {
		a, b := v.Faults[i], v.Faults[k]
		if weights[a.Kind] != weights[b.Kind] {
			return weights[a.Kind] < weights[b.Kind]
		}
		return a.At < b.At
	})
	v.Sound = v.More == 0
	for _, f := range v.Faults {
		v.Sound = v.Sound && f.caution
	}
}

// noteUnknown says where levels were neither high nor low.
func (v *Verdict) noteUnknown() {
	n, began := 0, false
	for i := range v.Course.n {
		if known := v.Course.Row(i).Flags&unknown == 0; known {
			began = true
		} else if began {
			n++
		}
	}
	if n > 0 {
		v.Notes = append(v.Notes, fmt.Sprintf("%d times a level was neither high nor low; the rows there were not judged, and a run is parted by them.", n))
	}
}

// microsteps is the verdict on outputs whose duty makes the rows.
func (v *Verdict) microsteps(c *Course, k carrier, q Question) *Verdict {
	v.Active, v.ActiveFrom = High, "assumed"
	if q.Active != Unsaid {
		v.Active, v.ActiveFrom = q.Active, "given"
	}
	v.micro(c, k, q)
	v.codes = codesOf(v.Taken, v.Active == Low)
	v.Positions = positions(c, v.codes)
	for i := range v.Runs {
		v.Runs[i].Row = v.rows + 1
		v.rows += v.Runs[i].Rows
	}
	v.againstDirection(q)
	v.words(q)
	v.sort()
	return v
}

// level settles which level is on.
func (v *Verdict) level(t *turns, q Question) {
	if q.Active != Unsaid {
		v.Active, v.ActiveFrom = q.Active, "given"
		return
	}
	low, found := t.level()
	v.Active, v.ActiveFrom = High, "assumed"
	if low {
		v.Active = Low
	}
	if found {
		v.ActiveFrom = "found"
	}
	switch {
	case q.Pins == table.TwoLine || q.Pins == table.PhaseEnable:
		v.Active = High
	case low:
		v.Notes = append(v.Notes, "A low level was taken for on: rows have three of four outputs high, or rest with all of them high. --active high says otherwise.")
	case !found:
		v.Notes = append(v.Notes, "That a high level is on is assumed: full step reads the same either way. --active low says otherwise.")
	}
}

// pair tries the three pairings, and settles the wiring that the rest is told in.
func (v *Verdict) pair(c *Course, t *turns, q Question) map[sequence.Permutation]*follower {
	followed := map[sequence.Permutation]*follower{}
	best, which := t.best(v.Active == Low)
	v.Taken = best
	fewest := -1
	likeliest := codesOf(best, v.Active == Low)
	likely := t.sound(&likeliest)
	if q.Wiring != nil {
		v.Taken = *q.Wiring
	}
	if q.Pins == table.TwoLine || q.Pins == table.PhaseEnable {
		v.Taken = sequence.Straight
		return followed
	}
	first := -1
	for i, coils := range pairings {
		p := Pairing{Coils: [2][2]int{{coils[0][0] + 1, coils[0][1] + 1}, {coils[1][0] + 1, coils[1][1] + 1}}, Mode: "none"}
		wiring := wiringOf(coils)
		if of := codesOf(wiring, v.Active == Low); likely >= plainly && t.sound(&of) < unlikely {
			v.Pairings = append(v.Pairings, p) // so far from sound that it need not be gone through
			continue
		}
		f := v.follow(c, wiring)
		followed[wiring] = f
		if p.Sound = f.sound(); p.Sound {
			p.Mode = f.mainMode()
		}
		if n := f.cost(); fewest < 0 || n < fewest {
			fewest, which = n, i
		}
		if p.Sound && first < 0 {
			first = i
		}
		v.Pairings = append(v.Pairings, p)
	}
	if q.Wiring != nil {
		return followed
	}
	if first >= 0 {
		which = first
	}
	v.Taken = wiringOf(pairings[which])
	coils := v.Pairings[which].Coils
	verb := "must be"
	if first < 0 {
		verb = "were taken for"
	}
	v.Notes = append(v.Notes, fmt.Sprintf("%s and %s %s the two ends of one coil, %s and %s those of the other. Wired otherwise the motor shakes instead of turning, whatever is sent; --wiring or --motor says how it is wired.",
		v.Channels[coils[0][0]-1], v.Channels[coils[0][1]-1], verb, v.Channels[coils[1][0]-1], v.Channels[coils[1][1]-1]))
	return followed
}

// Shares of the changes that are steps, by which pairings are plainly right or not.
const (
	plainly  = 0.95
	unlikely = 0.7
)

func (v *Verdict) follow(c *Course, wiring sequence.Permutation) *follower {
	f := newFollower(c, codesOf(wiring, v.Active == Low))
	f.all()
	return f
}

// timed are the faults that are of time alone, whatever the wiring.
var timed = map[string]bool{"repeated-row": true, "gap": true, "glitch": true, "late-pin": true}

// sound says whether the rows are in order, whatever their times.
func (f *follower) sound() bool {
	for _, fault := range f.faults {
		if !timed[fault.Kind] {
			return false
		}
	}
	return f.more == 0 && len(f.runs) > 0
}

// mainMode is the mode of most rows.
func (f *follower) mainMode() string {
	rows := map[string]int64{}
	best := "none"
	for _, r := range f.runs {
		if rows[r.Mode] += r.Rows; rows[r.Mode] > rows[best] {
			best = r.Mode
		}
	}
	return best
}

// mainDirection is the way of most rows.
func (f *follower) mainDirection() sequence.Direction {
	sum := int64(0)
	for _, r := range f.runs {
		sum += int64(r.Direction) * r.Rows
	}
	switch {
	case sum > 0:
		return sequence.Forward
	case sum < 0:
		return sequence.Reverse
	}
	return sequence.Standing
}

// againstDirection compares the way of most rows with the way that is meant.
func (v *Verdict) againstDirection(q Question) {
	if q.Direction == sequence.Standing || len(v.Runs) == 0 {
		return
	}
	sum := int64(0)
	for _, r := range v.Runs {
		sum += int64(r.Direction) * r.Rows
	}
	if sum*int64(q.Direction) < 0 {
		v.Faults = append(v.Faults, Fault{Kind: "direction-reversed", At: v.Runs[0].From, raw: v.Runs[0].first, Times: 1, Turns: q.Direction, Swaps: v.endSwaps(q)})
	}
}

// noOrder is all that is said where nothing can be seen in the rows.
func (v *Verdict) noOrder(f *follower) []Fault {
	var kept []Fault
	for _, k := range v.Faults {
		if k.Kind == "outputs-permuted" {
			kept = append(kept, k)
		}
	}
	return append(kept, Fault{Kind: "no-order", At: f.faults[0].At, raw: f.faults[0].raw, Times: len(f.faults) + f.more})
}

// number gives the faults and runs the numbers of their rows.
func (v *Verdict) number() {
	for i := range v.Faults {
		f := &v.Faults[i]
		f.Row = max(1, v.Numbers.Of(f.raw))
	}
	for i := range v.Runs {
		r := &v.Runs[i]
		r.Row = v.Numbers.Of(r.first)
		r.Rows = v.Numbers.Of(r.last) - r.Row + 1
	}
}
