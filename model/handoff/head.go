package handoff

import (
	"fmt"
	"math/big"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Head gives what every file says of itself: which motor, wiring, mode and
// figures it was made from, and what to take care of. Its lines are safe in a
// comment of any of the languages.
func (w *Walk) Head() (lines []string) {
	add := func(format string, values ...any) { lines = append(lines, Safe(fmt.Sprintf(format, values...))) }
	add("%s of the motor %s: %s. Made by coilwalk.", w.what(), w.Motor.Name, w.Motor.Title)
	add("Figures of the motor: %s.", strings.TrimSuffix(w.Motor.Origin, "."))
	for k, e := range w.Motor.Wiring {
		add("Output %d: lead %s, coil end %s%s.", k+1, w.Motor.Output(w.Motor.Wiring, k), e, w.seat(k))
	}
	add("%s.", w.supply())
	add("A %s pin switches its coil on.", w.Board.level())
	add("%s: %d rows to a rotor turn%s.", capital(w.Mode.Title), w.Motor.StepsPerRotorTurn(w.Mode), w.shaft())
	if words := w.figures(); words != "" {
		add("%s.", words)
	}
	add("Forward turns the shaft clockwise, seen facing its end.")
	if w.whole() {
		add("%s", w.pace())
		add("Whether the motor follows that, coilwalk rates says.")
	}
	for _, caution := range w.Cautions() {
		add("Caution: %s", caution)
	}
	return lines
}

// what names what the file holds.
func (w *Walk) what() string {
	if w.Stepper {
		return "Step table and stepping source"
	}
	return "Step table"
}

// seat says where an output sits on the board.
func (w *Walk) seat(k int) (words string) {
	if w.Board.Port != "" {
		words += fmt.Sprintf(", %s bit %d", w.Board.Port, w.Board.Bits[k])
	} else {
		words += fmt.Sprintf(", bit %d", w.Board.Bits[k])
	}
	if w.Board.Numbered {
		words += fmt.Sprintf(", pin %d", w.Board.Pins[k])
	}
	return words
}

// supply says where what is no output goes.
func (w *Walk) supply() string {
	words := w.Motor.Supply(w.Motor.Drive)
	return strings.ToUpper(words[:1]) + words[1:] + fmt.Sprintf(" (%s)", w.Motor.Drive)
}

// shaft says what a turn of the output shaft is, exactly.
func (w *Walk) shaft() string {
	if !w.Motor.Train.Geared() {
		return ""
	}
	rows := w.Motor.StepsPerShaftTurn(w.Mode)
	words := fmt.Sprintf(", %s to a shaft turn through the train %s", exactly(rows), w.Motor.Train)
	if w.Motor.Train.Nominal != nil {
		words += " (as printed, not counted)"
	}
	return words
}

// exactly writes a number of rows: whole, or as a fraction with its decimals.
func exactly(rows *big.Rat) string {
	if rows.IsInt() {
		return rows.Num().String()
	}
	return fmt.Sprintf("%s (%s)", rows.RatString(), rows.FloatString(4))
}

// figures says what the coils need.
func (w *Walk) figures() string {
	c := w.Motor.Connected()
	var parts []string
	if c.Voltage.Given() {
		parts = append(parts, c.Voltage.Rounded(3))
	}
	if c.Resistance.Given() {
		parts = append(parts, c.Resistance.Rounded(3))
	}
	if c.Current.Given() {
		parts = append(parts, c.Current.Rounded(3)+" when it is on")
	}
	if len(parts) == 0 {
		return ""
	}
	return "Each coil: " + strings.Join(parts, ", ")
}

// pace says what the intervals are.
func (w *Walk) pace() string {
	tick := w.Pace.Tick()
	tick.Mul(tick, big.NewRat(1_000_000, 1))
	us := strings.TrimRight(strings.TrimRight(tick.FloatString(6), "0"), ".")
	words := fmt.Sprintf("A tick is %s us (%d Hz by %d). ", us, w.Pace.ClockHz, w.Pace.Prescale)
	if !w.Pace.Ramped() {
		return words + fmt.Sprintf("A row every %d ticks: %.4g rows a second.", w.Pace.Intervals[0], w.Pace.Rate())
	}
	return words + fmt.Sprintf("A ramp of %d intervals, from %.4g to %.4g rows a second.", len(w.Pace.Intervals), w.Pace.StartRate(), w.Pace.Rate())
}

// Cautions say what harms the motor, the driver or a finger.
func (w *Walk) Cautions() (all []string) {
	if words := w.OtherDrive(); words != "" {
		all = append(all, words)
	}
	if w.Motor.OrderGuessed {
		all = append(all, motor.GuessedOrder+".")
	}
	if words := w.Unfollowed(); words != "" {
		all = append(all, words)
	}
	return append(all, w.usual()...)
}

// usual are the cautions of every motor that is driven so.
func (w *Walk) usual() (all []string) {
	all = append(all, "switch the motor supply off before you plug or unplug a lead: breaking a coil's current kicks.")
	if w.Motor.Drive == sequence.Unipolar {
		all = append(all, "never feed a coil from a pin; each output goes to a driver with a clamp diode.")
	} else {
		all = append(all, "never feed a coil from a pin; each coil sits between two bridge outputs.")
	}
	switch {
	case w.IdleOff:
		all = append(all, "the coils are off at rest: only detent, friction and train hold the shaft then.")
	case w.Motor.Train.Geared():
		all = append(all, "a row that stays on draws its full current and gets hot; switch the coils off where the train holds.")
	default:
		all = append(all, "a row that stays on draws its full current and gets hot; switch the coils off where nothing pulls at the shaft.")
	}
	return all
}

// Safe makes words from outside harmless in a comment of any language: nothing
// ends or begins a comment, no direction marks, no line ends.
func Safe(words string) string {
	words = files.Shown(words)
	// one after another, as a blank put in never makes a new pair
	for _, pair := range []string{"*/", "/*", "??", "$e", "--"} {
		for strings.Contains(words, pair) {
			words = strings.ReplaceAll(words, pair, pair[:1]+" "+pair[1:])
		}
	}
	return strings.ReplaceAll(words, "\\", "|")
}
