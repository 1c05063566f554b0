package rotor

import "coilwalk/sequence"

// mostPlaces bounds how many possible positions are followed one by one. Past
// it only the angle within a pole pitch is kept: which pitch is not known.
const mostPlaces = 8

// Whereabouts is what can be known of the rotor: usually one position; after
// an unstable balance several, for no side is picked; none while it is adrift.
type Whereabouts struct {
	Places    []Position // never changed once made, so that copies may share it
	PitchLost bool       // only the angle within a pole pitch is known; Pitch means nothing
}

// At is the rotor known to be at one place.
func At(p Position) Whereabouts { return Whereabouts{Places: []Position{p}} }

// Known gives the one position, if there is just one and its pitch is known.
func (w Whereabouts) Known() (p Position, ok bool) {
	if len(w.Places) != 1 || w.PitchLost {
		return Position{}, false
	}
	return w.Places[0], true
}

// Angle gives the electrical angle, if all places have the same one: then only
// the pitch, under which tooth the rotor stands, may be open.
func (w Whereabouts) Angle() (deg float64, ok bool) {
	f := w.folded()
	if len(f.Places) != 1 {
		return 0, false
	}
	return f.Places[0].Deg, true
}

// Follow gives the whereabouts after a field was put on and the rotor came to
// rest, and what keeps it there: the least sure balance of all its places.
func (m Machine) Follow(w Whereabouts, f sequence.Field) (Whereabouts, Balance) {
	if len(w.Places) == 0 {
		return m.caught(f)
	}
	next := Whereabouts{PitchLost: w.PitchLost}
	worst := Held
	for i, from := range w.Places {
		to, balance := m.Rest(f, from)
		if balance == Adrift {
			return Whereabouts{}, Adrift
		}
		if i == 0 || rank(balance) > rank(worst) {
			worst = balance
		}
		for _, p := range to {
			next.add(p)
		}
	}
	if len(next.Places) > mostPlaces {
		next = next.folded()
	}
	return next, worst
}

// caught is a rotor that was anywhere and comes under a field: it ends at the
// foot of the pull, of which pitch is not known.
func (m Machine) caught(f sequence.Field) (Whereabouts, Balance) {
	deg, ok := f.Degrees()
	if !ok {
		return Whereabouts{}, Unknown
	}
	places, balance := m.Rest(f, Position{Deg: deg})
	if balance == Adrift {
		return Whereabouts{}, Adrift
	}
	return Whereabouts{Places: places, PitchLost: true}.folded(), balance
}

// rank orders balances by how little they promise.
func rank(b Balance) int {
	return [...]int{Held: 0, Detent: 1, Loose: 2, Stuck: 3, Either: 4, Adrift: 5, Unknown: 6}[b]
}

func (w *Whereabouts) add(p Position) {
	if w.PitchLost {
		p.Pitch = 0
	}
	for _, q := range w.Places {
		if q.same(p) {
			return
		}
	}
	w.Places = append(w.Places, p)
}

// folded forgets the pitch.
func (w Whereabouts) folded() Whereabouts {
	f := Whereabouts{PitchLost: true}
	for _, p := range w.Places {
		f.add(p)
	}
	return f
}

// Shifted gives the whereabouts a number of whole pitches further on.
func (w Whereabouts) Shifted(pitches int64) Whereabouts {
	if pitches == 0 || w.PitchLost {
		return w
	}
	s := Whereabouts{Places: make([]Position, len(w.Places))}
	for i, p := range w.Places {
		s.Places[i] = Position{Pitch: p.Pitch + pitches, Deg: p.Deg}
	}
	return s
}

// Apart says by how many whole pitches w lies further on than v, when it is
// otherwise the same; ok is false when it is not.
func (w Whereabouts) Apart(v Whereabouts) (pitches int64, ok bool) {
	if len(w.Places) != len(v.Places) || w.PitchLost != v.PitchLost {
		return 0, false
	}
	if len(w.Places) == 0 {
		return 0, true
	}
	pitches = w.Places[0].Pitch - v.Places[0].Pitch
	switch over := w.Places[0].Deg - v.Places[0].Deg; { // either side of the seam at 0°
	case over > 180:
		pitches++
	case over < -180:
		pitches--
	}
	for i, p := range w.Places {
		if !p.same(Position{Pitch: v.Places[i].Pitch + pitches, Deg: v.Places[i].Deg}) {
			return 0, false
		}
	}
	return pitches, true
}
