package course

import (
	"fmt"
	"strings"

	"coilwalk/sequence"
)

// words puts each fault into a sentence of evidence, what usually makes it, and
// what cures it.
func (v *Verdict) words(q Question) {
	for i := range v.Faults {
		f := &v.Faults[i]
		if f.Text != "" {
			continue
		}
		say, ok := sentences[f.Kind]
		if !ok {
			continue
		}
		f.Text, f.Cause, f.Cure = say(v, f)
		if f.Times > 1 && f.Every == 0 && (f.Kind == "late-pin" || f.Kind == "glitch") {
			f.Text += fmt.Sprintf(" It does so %d times, up to %s: the first is told here.", f.Times, Duration(f.Long))
		} else if f.Times > 1 && f.Kind != "open-wrap" && f.Kind != "no-order" {
			f.Text += fmt.Sprintf(" It comes %d times, every %d rows: it stands so in the table.", f.Times, f.Every)
		}
		if f.Kind == "outputs-permuted" {
			f.Cure = v.swapWords(f, q)
		}
		if cure := v.tableCure(f); cure != "" {
			f.Cure = cure
		}
	}
}

// sentences says what is to be said of each kind.
var sentences = map[string]func(v *Verdict, f *Fault) (text, cause, cure string){
	"outputs-permuted": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("The outputs do not drive the coil ends in a turning order (%s on %s): the field jumps to and fro, so the rotor shakes, and commanded the other way it shakes just the same.",
				endsText(v.Taken), strings.Join(v.Channels[:], ", ")),
			"Leads plugged in another order than the firmware's, or pins named in another order in the firmware.", ""
	},
	"direction-reversed": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("Most rows go the other way than %s, which is meant.", f.Turns), "The two ends of one coil are exchanged, or the order is walked from its other end.",
			"Exchange the two ends of one coil at the plug, or change the sign of the steps in firmware."
	},
	"no-order": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("No order can be seen in the rows: %d of them are not what the rows about them would want.", f.Times),
			"These may not be the four outputs of one motor, or the wiring that was stated is another.", "Name the channels with --channels, and look at the traces."
	},
	"stuck-low":  stuckWords,
	"stuck-high": stuckWords,
	"both-ends-on": func(v *Verdict, f *Fault) (string, string, string) {
		return v.rowText(f, "has both ends of a coil on"), "A wrong row in the table, or pins written one after another by slow code.",
			"Correct the row. In a unipolar winding the halves cancel and heat twice; a bridge whose two inputs are one half-bridge each only brakes, but one with high and low side apart is shorted."
	},
	"no-field": func(v *Verdict, f *Fault) (string, string, string) {
		return v.rowText(f, "is all off"), "A row of zeros in the table, or the outputs cleared before each row is written.", "Leave the row out, or write the new row in one go: while all is off nothing holds the rotor."
	},
	"wrong-row": func(v *Verdict, f *Fault) (string, string, string) {
		if f.Stood {
			return fmt.Sprintf("%s was never sent before row %d: a row beside it stood in its place, for twice the time.", f.Wanted, f.Row),
				"A row that stands twice in the table where another is meant, or a step that was missed and made up for by the next.", "Look whether the table holds that row; if so, at what blocks the step before."
		}
		return v.rowText(f, "has no place in the order"), "A wrong line in the table, a bit flipped, or something else that writes these pins.", "Correct the line; if it is right, look what else writes the port."
	},
	"rows-exchanged": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("Rows %d and %d are exchanged: the field goes on, back, and on again.", f.Row, f.Row+1), "Two lines of the table exchanged.", "Exchange them back."
	},
	"skipped-row": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("%s missing before row %d: the field jumps by %s steps at once.", count(f.Count, "A row is", "rows are"), f.Row, count(f.Count+1, "", "")),
			"The index went on twice (two interrupts, a step counted while another was written), or the recorder lost a sample.", "Move the index in one place only, and guard it against interrupts."
	},
	"open-wrap": func(v *Verdict, f *Fault) (string, string, string) {
		what := map[string]string{"skipped-row": "a row is missing", "repeated-row": "a row stands twice", "reversal": "it runs back"}[f.Levels]
		return fmt.Sprintf("The order does not close: every %d rows %s, %d times from here on.", f.Every, what, f.Times), "The table has a row too few or too many, or the index wraps at the wrong number.",
			"Count the rows of the table, and the number at which the index starts again."
	},
	"reversal": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("%s back here, against the rows before and after.", count(f.Count, "One row runs", "rows run")), "The sign of the step flickered (a noisy direction line, an unsigned number that went below zero), or a line of the table is wrong.",
			"Look at what sets the direction; take a new one only between moves."
	},
	"repeated-row": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("Row %d lasts %s, %d times the %s of the rows about it: it stands twice, or a tick was missed.", f.Row-1, Duration(f.Long), f.Count, Duration(f.Usual)),
			"A row that stands twice in the table, or a missed timer tick while something else blocked.", "If it comes in every cycle look at the table, else at what blocks: a long interrupt, a print, a delay."
	},
	"gap": func(v *Verdict, f *Fault) (string, string, string) {
		held := ""
		if f.Levels == "0000" {
			held = ", with all outputs off"
		}
		return fmt.Sprintf("%s pass before row %d, %.3g times the %s of the rows about it%s.", Duration(f.Long), f.Row, f.Long/f.Usual, Duration(f.Usual), held),
			"The program was busy elsewhere and missed its time.", "Step from a timer interrupt, or keep what else the loop does short."
	},
	"glitch": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("%s moves for %s within row %d and goes back: too short for the rotor, not for counters and drivers with inputs of their own.", v.names(f.Outputs), Duration(f.Long), f.Row),
			"Crosstalk on the leads of the recorder, a missing ground, or two writes to the port where one was meant.", "Look whether the recorder's ground is near; else write the whole row at once."
	},
	"late-pin": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("%s comes %s late in row %d; the other pin moved with the row.", v.names(f.Outputs), Duration(f.Long), f.Row),
			"Pins are written one by one, and something came between.", "Write all four pins in one go, or with interrupts held off."
	},
	"quantised-timer": func(v *Verdict, f *Fault) (string, string, string) {
		return fmt.Sprintf("All intervals of the ramp are whole milliseconds, %d different ones, down to %d ms: between %.0f and %.0f rows a second there is nothing.", f.Count, f.Least, 1000/float64(f.Least), 1000/float64(f.Least+1)),
			"Delays in whole milliseconds, or a division of whole numbers that cuts off the rest.", "Reckon in microseconds, or in ticks of a timer."
	},
}

func stuckWords(v *Verdict, f *Fault) (text, cause, cure string) {
	level := "low"
	if f.Kind == "stuck-high" {
		level = "high"
	}
	if f.Always {
		text = fmt.Sprintf("%s never moves: it is %s all the time, while the other three go on in order.", v.names(f.Outputs), level)
	} else {
		text = fmt.Sprintf("%s stays %s from here for %d rows, while the other three go on in order.", v.names(f.Outputs), level, f.Count)
	}
	return text, "The pin is not set as an output, another number was meant, the lead of the recorder is off, or the output is dead.",
		"Set that one pin by hand and look whether it moves; exchange the recorder's leads to tell pin from probe."
}

// rowText says what is wrong with a row, and what is wanted there.
func (v *Verdict) rowText(f *Fault, what string) string {
	text := fmt.Sprintf("Row %d (%s) %s", f.Row, f.Levels, what)
	if f.Wanted != "" {
		text += "; " + f.Wanted + " is wanted"
	}
	return text + "."
}

// names gives the channels on outputs, from 1.
func (v *Verdict) names(outputs []int) string {
	var names []string
	for _, o := range outputs {
		names = append(names, v.Channels[o-1])
	}
	if len(names) == 0 {
		return "A pin"
	}
	return strings.Join(names, " and ")
}

func (v *Verdict) swapWords(f *Fault, q Question) string {
	var parts []string
	for _, s := range f.Swaps {
		a, b := s.Outputs[0]-1, s.Outputs[1]-1
		words := fmt.Sprintf("exchange %s and %s", v.Channels[a], v.Channels[b])
		if q.Leads[a] != "" && q.Leads[b] != "" {
			words += fmt.Sprintf(" (leads %s and %s)", q.Leads[a], q.Leads[b])
		}
		switch s.Direction {
		case sequence.Forward:
			words += ", and most rows turn forward, clockwise"
		case sequence.Reverse:
			words += ", and most rows turn in reverse, counter-clockwise"
		}
		parts = append(parts, words)
	}
	return upper(strings.Join(parts, "; or ")) + "."
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func count(n int, one, more string) string {
	if n == 1 && one != "" {
		return one
	}
	return strings.TrimSpace(fmt.Sprintf("%d %s", n, more))
}

// Duration writes a time with three digits and its unit.
func Duration(seconds float64) string {
	switch {
	case seconds >= 0.9995:
		return fmt.Sprintf("%.3g s", seconds)
	case seconds >= 0.9995e-3: // what rounds to 1 has the greater unit
		return fmt.Sprintf("%.3g ms", seconds*1e3)
	case seconds >= 0.9995e-6:
		return fmt.Sprintf("%.3g µs", seconds*1e6)
	}
	return fmt.Sprintf("%.3g ns", seconds*1e9)
}

func endsText(p sequence.Permutation) string {
	parts := make([]string, len(p))
	for k, e := range p {
		parts[k] = e.String()
	}
	return strings.Join(parts, ",")
}
