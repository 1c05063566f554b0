package report

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/rotor"
)

// RatesOff is where the rotor goes when the coils are switched off.
type RatesOff struct {
	Row      int       `json:"row"`
	RotorDeg []float64 `json:"rotor_deg"` // two where it may fall to either side, [] where the load drives it on
}

// switchedOff puts that into degrees of the rotor.
func switchedOff(all []rotor.Off, polePairs int) []RatesOff {
	off := []RatesOff{}
	for _, o := range all {
		one := RatesOff{Row: o.Row, RotorDeg: []float64{}}
		for _, deg := range o.Degrees {
			one.RotorDeg = append(one.RotorDeg, math.Round(deg/float64(polePairs)*1e4)/1e4+0)
		}
		off = append(off, one)
	}
	return off
}

// offWords says where the rotor goes when the coils are switched off.
func offWords(all []RatesOff) string {
	if len(all) == 0 {
		return "it goes on as before: no row held it"
	}
	var parts []string
	moves := false
	for _, o := range all {
		words := "the load drives it on"
		switch {
		case len(o.RotorDeg) == 2:
			words = fmt.Sprintf("it falls by %s to either side", Angle(math.Abs(o.RotorDeg[0]), 3))
		case len(o.RotorDeg) == 1 && math.Abs(o.RotorDeg[0]) < 0.001:
			words = "it stays"
		case len(o.RotorDeg) == 1:
			words = fmt.Sprintf("it goes by %s", Signed(o.RotorDeg[0], 3)+"°")
		}
		moves = moves || len(o.RotorDeg) != 1 || math.Abs(o.RotorDeg[0]) >= 0.001
		parts = append(parts, fmt.Sprintf("after row %d %s", o.Row, words))
	}
	text := strings.Join(parts, "; ")
	if moves {
		text += ". So a position is lost when the current is cut between moves"
	}
	return text
}
