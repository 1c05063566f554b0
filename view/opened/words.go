package opened

import (
	"fmt"
	"math"

	"coilwalk/model/motor"
	"coilwalk/sequence"
	"coilwalk/view/report"
)

// Moment says which row it is, when, and for how long.
func (p *Place) Moment() []string {
	row := p.Course.Row(p.Row)
	number := int64(p.Row + 1)
	if p.Verdict != nil {
		number = p.Verdict.Numbers.Of(p.Row)
	}
	dwell := p.Course.Seconds(p.Course.Dwell(p.Row))
	parts := []string{"row " + report.Count(max(number, 0)), report.Clock(p.Course.Seconds(row.At)), "lasts " + report.Lasting(dwell)}
	if dwell > 0 {
		parts = append(parts, report.PerSecond(1/dwell)+"/s")
	}
	if between := p.Between(); between != "" {
		parts = append(parts, between)
	}
	return parts
}

// Between tells the time from mark A to mark B, "" while there are not both.
func (p *Place) Between() string {
	if p.MarkA < 0 || p.MarkB < 0 {
		return ""
	}
	a, b := min(p.MarkA, p.MarkB), max(p.MarkA, p.MarkB)
	seconds := p.Course.Seconds(p.Course.Row(b).At - p.Course.Row(a).At)
	words := fmt.Sprintf("A-B %s, %s rows", report.Lasting(seconds), report.Count(int64(b-a)))
	if seconds > 0 {
		words += ", " + report.PerSecond(float64(b-a)/seconds) + "/s"
	}
	return words
}

// Coils is what the row puts on the coil ends.
func (p *Place) Coils() sequence.Row { return p.Verdict.Row(p.Course.Row(p.Row).Levels) }

// On says what the row puts on the coils, and where it commands the shaft, of the
// motor that was named.
func (p *Place) On(m *motor.Motor) []string {
	coils := p.Coils()
	on := ""
	for _, end := range coils.On() {
		if on != "" {
			on += " and "
		}
		on += end.String()
		if m != nil {
			on += " " + string(m.Ends[end])
		}
	}
	parts := []string{"all off"}
	if on != "" {
		parts[0] = on + " on"
	}
	if deg, ok := coils.Field().Degrees(); ok {
		parts = append(parts, "field "+report.Angle(deg, 0))
	} else if on != "" {
		parts = append(parts, "no field")
	}
	if p.Verdict.Position == nil {
		return parts
	}
	steps := p.Verdict.Positions.Steps(p.Row)
	words := "commanded " + report.Signed(steps, 1) + " steps"
	if m != nil {
		perTurn, _ := m.StepsPerShaftTurn(sequence.Full).Float64()
		words += ", shaft " + report.Signed(steps*360/perTurn, 2) + "°"
	}
	return append(parts, words)
}

// Lag says how far the rotor is from where the row commands it to; bad where it
// has lost steps.
func (p *Place) Lag(at Rotor) (words string, bad bool) {
	lag := 90*p.Verdict.Positions.Steps(p.Row) - at.Turned
	switch {
	case math.Abs(lag) > 250:
		return "rotor: " + report.Fixed(math.Abs(4*math.Round(lag/360)), 0) + " full steps out", true
	case lag < 0:
		return fmt.Sprintf("rotor %s ahead at row's end", report.Angle(-lag, 0)), false
	}
	return fmt.Sprintf("rotor %s behind at row's end", report.Angle(lag, 0)), false
}

// Clean says what was found where nothing is wrong, with the motor of that name.
func (p *Place) Clean(name string) string {
	words := "Nothing is wrong in it"
	if p.Verdict.Lost != nil && *p.Verdict.Lost == 0 {
		words += ", and " + name + ", run along it, loses no step"
	}
	return words + "."
}
