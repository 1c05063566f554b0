package report

import (
	"fmt"
	"strings"
	"time"

	"coilwalk/model/live"
)

// Alarm is how much a state wants to be seen.
type Alarm int

// From nothing on to something wrong.
const (
	Calm Alarm = iota
	Ready
	Energised
	Trouble
)

// LiveState puts how a real motor stands into a mark and a word.
func LiveState(s live.State) (words string, alarm Alarm) {
	link := "LIVE"
	if s.About.Null {
		link = "REHEARSAL"
	}
	switch {
	case s.Lost:
		return "× LINK LOST", Trouble
	case s.Running:
		return "▶ " + link + " runs", Energised
	case s.On:
		return "● " + link + " on", Energised
	case s.Armed:
		return "◐ " + link + " armed", Ready
	}
	return "○ " + link + " off", Calm
}

// Late says how late rows went out, shortly.
func Late(p live.Pace) string {
	return fmt.Sprintf("up to %s", milliseconds(p.Worst))
}

// LatePhrase says it in words.
func LatePhrase(p live.Pace) string {
	if p.Rows < 2 {
		return fmt.Sprintf("%d rows", p.Rows)
	}
	return fmt.Sprintf("%d rows, intervals ±%s RMS, the latest %s late", p.Rows, milliseconds(p.Spread), milliseconds(p.Worst))
}

func milliseconds(d time.Duration) string {
	return fmt.Sprintf("%.1f ms", d.Seconds()*1e3)
}

// LiveCautions is what is said before a motor is armed.
func LiveCautions(a live.About) []string {
	lines := []string{
		"Before you arm it:",
		"· Switching off releases the load: a weight or a spring will move it. Support",
		"  it, and keep fingers, hair and sleeves out of gears and linkages.",
		"· A motor held at rest gets hot, and so does its driver. Stay with it.",
		"· Motor supply off before a lead is plugged or pulled: a coil that is parted",
		"  gives a spike of voltage. The driver's clamps go to the motor supply.",
		"· The motor has a supply of its own, not the port or the pins; grounds joined.",
		"· Pins float while the board is reset: each driver input wants a resistor of",
		"  10 kohm to the level that switches it off.",
		"· Mains and machines: local codes hold, and a licensed person does that work.",
		"Space switches all coils off at once, always.",
	}
	switch {
	case a.Null:
		lines = append(lines, "There is no board here: nothing is energised, whatever the screen shows.")
	case !a.Guard.Known:
		lines = append(lines,
			"! This firmware does not switch off by itself: if coilwalk or the cable dies,",
			"  nothing can promise that the coils go off. Rows are held for 10 s at most.",
			"  Have a switch in the motor supply at hand, or load what coilwalk write",
			"  firmware writes, which does.")
	default:
		lines = append(lines, fmt.Sprintf("This firmware switches off by itself after %.0f s without a word from here.", a.Guard.Silence))
	}
	return lines
}

// LiveCautionsSaid is the same for a voice: one thought a line, without marks.
func LiveCautionsSaid(a live.About) (lines []string) {
	for _, line := range LiveCautions(a) {
		switch {
		case strings.HasPrefix(line, "  "):
			lines[len(lines)-1] += " " + strings.TrimSpace(line)
		case strings.HasPrefix(line, "Space switches"):
			lines = append(lines, "The word off, and an empty line, switch all coils off at once, always.")
		default:
			lines = append(lines, strings.TrimPrefix(strings.TrimPrefix(line, "· "), "! "))
		}
	}
	return lines
}
