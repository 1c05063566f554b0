package sheet

import (
	"coilwalk/model/bench"
	"coilwalk/sequence"
)

// asksMode is what every sheet's line of the step mode asks.
var asksMode = sequence.AsksMode() + ":"

// Walked gives the step mode that is walked, which counts for a sheet as well
// until it names another: that of a table where its rows are an order as the leads
// stand. Where they are none it is half step.
func Walked(b *bench.Bench) sequence.Mode {
	m, _ := walked(b)
	return m
}

func walked(b *bench.Bench) (m sequence.Mode, is bool) {
	if m, ok := b.Read().Order.Mode(); ok {
		return m, true
	}
	_, coils := b.Ahead()
	if s, ok := sequence.Recognise(append(coils, coils[0])); ok && !s.Mode.Shares {
		return s.Mode, true
	}
	return sequence.Half, false
}

// WalkedHere says in a few words which that is.
func WalkedHere(b *bench.Bench) string {
	switch m, is := walked(b); {
	case !is:
		return m.Name + "; the table is not sound"
	case b.Read().Table:
		return m.Name + ", as the table on Walk"
	default:
		return m.Name + ", as on Walk"
	}
}
