// Package tour is the walk-through of the first minutes: a few short notes beside
// the real bench, each of which asks for one thing and sees on the bench whether
// it was done. It blocks nothing: whatever else is done is done.
package tour

import (
	"math"

	"coilwalk/model/bench"
	"coilwalk/sequence"
)

// Seen is the word by which the settings keep that it was shown.
const Seen = "tour"

// Note is one thing to try.
type Note struct {
	Title  string
	Stages []Stage // one after the other
}

// Stage is what a note says until it was done.
type Stage struct {
	Shows string // what was seen so far, or is about to be
	Press string // what to do on the screen; keys stand in it by what they do: {walk.next}
	Say   string // the same in the line mode, by its words
	done  func(since, last, now bench.Reading) bool
}

// All gives the notes in their order. The last one is never done: it tells where
// to go on.
func All() []Note { return notes }

// Tour is a walk through the notes. Its zero value is not usable; Begin makes one.
type Tour struct {
	note, stage int
	since, last bench.Reading // when the stage began, and when it was looked at last
}

// Begin starts at the first note, with the bench as it stands.
func Begin(b *bench.Bench) *Tour {
	r := b.Read()
	return &Tour{since: r, last: r}
}

// At gives the note and its stage, and the place of the note, from 1.
func (t *Tour) At() (n Note, s Stage, place int) {
	n = notes[t.note]
	return n, n.Stages[t.stage], t.note + 1
}

// Last says whether this is the last note.
func (t *Tour) Last() bool { return t.note == len(notes)-1 }

// Look sees whether what the stage asks for was done on the bench, and goes on to
// the next if so; it says whether it went on.
func (t *Tour) Look(b *bench.Bench) bool {
	now := b.Read()
	done := notes[t.note].Stages[t.stage].done
	on := done != nil && done(t.since, t.last, now)
	if t.last = now; !on {
		return false
	}
	if t.since = now; t.stage+1 < len(notes[t.note].Stages) {
		t.stage++
		return true
	}
	t.note, t.stage = t.note+1, 0
	return true
}

// Waits says whether the bench, as it stands, leaves something to do in the stage.
func (t *Tour) Waits(b *bench.Bench) bool {
	done, now := notes[t.note].Stages[t.stage].done, b.Read()
	return done == nil || !done(t.since, now, now)
}

// Skip goes on to the next note, done or not; false at the last.
func (t *Tour) Skip(b *bench.Bench) bool {
	if t.Last() {
		return false
	}
	t.note, t.stage = t.note+1, 0
	t.since = b.Read()
	t.last = t.since
	for t.stage+1 < len(notes[t.note].Stages) && !t.Waits(b) { // it stands so already
		t.stage++
	}
	return true
}

// in says whether the order is that of a step mode.
func in(r bench.Reading, mode sequence.Mode) bool {
	m, ok := r.Order.Mode()
	return ok && m.Name == mode.Name
}

// walked says whether at least so many rows of a mode were energised, or another
// mode was gone on to.
func walked(mode sequence.Mode, rows float64) func(since, last, now bench.Reading) bool {
	return func(since, _, now bench.Reading) bool {
		return !in(now, mode) || math.Abs(float64(now.Step-since.Step)) >= rows
	}
}

// changed says whether the order was changed to a mode; being in it already counts.
func changed(mode sequence.Mode) func(since, last, now bench.Reading) bool {
	return func(_, _, now bench.Reading) bool { return in(now, mode) }
}

// faulty says whether leads are swapped or a fault is put in.
func faulty(r bench.Reading) bool { return r.Rewired || len(r.Faults) > 0 }
