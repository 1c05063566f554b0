package motor

import (
	"fmt"
	"strconv"
	"strings"
)

// Text writes the motor as a motor file, with a word of explanation beside
// each part. Parse gives the same motor back.
func (m Motor) Text() []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "# A motor file of coilwalk. Lists of four are in the order A+ B+ A- B-.\n")
	fmt.Fprintf(&b, "name = %s\n", quoted(m.Name))
	fmt.Fprintf(&b, "title = %s\n", quoted(m.Title))
	fmt.Fprintf(&b, "origin = %s\n", quoted(m.Origin))

	fmt.Fprintf(&b, "\n[winding]\nends = %s\n", list(m.Ends[:]))
	switch {
	case m.Common != "":
		fmt.Fprintf(&b, "common = %s\n", quoted(string(m.Common)))
	case m.Taps[0] != "":
		fmt.Fprintf(&b, "taps = %s  # A0, B0\n", list(m.Taps[:]))
	case m.Inner[0] != "":
		fmt.Fprintf(&b, "inner = %s  # the other end of each half\n", list(m.Inner[:]))
	}

	if m.OrderGuessed {
		b.WriteString("order_guessed = true  # the shaft has not told it; take this line out once it has\n")
	}

	fmt.Fprintf(&b, "\n[rotor]\npole_pairs = %d  # %d full steps to a turn\n", m.PolePairs, 4*m.PolePairs)
	if c := m.Counted; c.Rings != 0 {
		fmt.Fprintf(&b, "rings = %d\nteeth = %d  # of one ring\n", c.Rings, c.Teeth)
	}
	if n := m.Counted.RotorTeeth; n != 0 {
		fmt.Fprintf(&b, "rotor_teeth = %d\n", n)
	}
	if a := m.Counted.StepAngle; a.Given() {
		fmt.Fprintf(&b, "step_angle = %s  # as printed; may be the half-step angle\n", quoted(a.String()))
	}

	if m.Train.Nominal != nil {
		fmt.Fprintf(&b, "\n[train]\nratio = %s  # as printed; teeth not counted\n", quoted(m.Train.String()))
	} else if m.Train.Geared() {
		fmt.Fprintf(&b, "\n[train]\nmeshes = %s  # teeth, driving:driven, from the rotor on\n", quoted(m.Train.String()))
	}
	if len(m.Train.Backlash) > 0 {
		note := "at the output shaft, rotor held"
		if len(m.Train.Backlash) == len(m.Train.Meshes) {
			note = "of each mesh, at its driven gear"
		}
		fmt.Fprintf(&b, "backlash = %s  # %s\n", quoted(m.Train.Backlash.String()), note)
	}

	outputs := make([]Lead, 4)
	for k := range outputs {
		outputs[k] = m.Output(m.Wiring, k)
	}
	fmt.Fprintf(&b, "\n[wiring]\noutputs = %s  # the leads on driver outputs 1 to 4\ndrive = %s\n", list(outputs), quoted(m.Drive.String()))
	b.WriteString(m.Figures.text(m.Train.Geared()))
	return []byte(b.String())
}

func (f Figures) text(geared bool) string {
	var b strings.Builder
	add := func(name string, value fmt.Stringer, note string) {
		if text := value.String(); text != "" {
			fmt.Fprintf(&b, "%s = %s", name, quoted(text))
			if note != "" {
				fmt.Fprintf(&b, "  # %s", note)
			}
			b.WriteByte('\n')
		}
	}
	add("voltage", f.Voltage, "across one coil")
	add("current", f.Current, "through one coil")
	add("resistance", f.Resistance, "")
	add("inductance", f.Inductance, "")
	add("holding_torque", f.HoldingTorque, "two phases on")
	add("one_phase_torque", f.OnePhase, "")
	add("detent_torque", f.Detent, "")
	if f.DetentAt45 {
		b.WriteString("detent_at = \"two-phase\"\n")
	}
	add("friction", f.Friction, "")
	add("inertia", f.Inertia, "of the rotor")
	add("load", f.Load, "pulls back against forward turning")
	add("thermal_resistance", f.Thermal, "winding to ambient, as mounted")
	add("thermal_time", f.ThermalTime, "after which 63 % of a rise are there")
	add("insulation", f.Insulation, "class of the winding")
	if b.Len() == 0 {
		return ""
	}
	where := "# of one coil where there are two, of one half where there is a tap"
	if geared {
		where += "; torques at the output shaft"
	}
	return "\n[figures]  " + where + "\n" + b.String()
}

func list(leads []Lead) string {
	parts := make([]string, len(leads))
	for i, l := range leads {
		parts[i] = quoted(string(l))
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// quoted writes a TOML basic string. Go's escapes are TOML's for all that a
// motor can hold, since control characters are refused when it is read.
func quoted(text string) string { return strconv.Quote(text) }
