package driver

import "sort"

// Point is a published value of volts at a current in ampere.
type Point struct{ Ampere, Volts float64 }

// Curve is volts over current as published: straight between the points, and
// carried on as straight beyond the first and the last. Points rise in current.
type Curve []Point

// At gives the volts at a current i ≥ 0; 0 for a curve without points.
func (c Curve) At(ampere float64) float64 { return c.Line(ampere).At(ampere) }

// Line gives the straight piece of the curve at a current. Where a piece carried
// on would start below no voltage at all, the one from the origin is taken, for a
// drop can not drive a current.
func (c Curve) Line(ampere float64) Drop {
	if len(c) == 0 {
		return Drop{}
	}
	if len(c) == 1 {
		return Drop{Volts: c[0].Volts}
	}
	k := sort.Search(len(c), func(i int) bool { return c[i].Ampere >= ampere })
	k = min(max(k, 1), len(c)-1)
	a, b := c[k-1], c[k]
	ohms := (b.Volts - a.Volts) / (b.Ampere - a.Ampere)
	line := Drop{a.Volts - ohms*a.Ampere, ohms}
	if line.Volts < 0 {
		line = Drop{Ohms: max(line.At(ampere), 0) / max(ampere, 1e-12)}
		if ampere <= a.Ampere {
			line = Drop{Ohms: a.Volts / a.Ampere}
		}
	}
	return line
}
