package driver

// Limits are what a stage stands: of its kind, or of a part from a file. Zero is
// not known, and then nothing is judged by it.
type Limits struct {
	Output     float64 // A, through each output, for good
	Peak       float64 // A, for moments
	Together   float64 // A, through all outputs of a package
	Least      float64 // V, of the motor supply, below which it does not work
	Most       float64 // V, of the motor supply
	PerPackage int     // of the four outputs, that share one package and its heat
	Thermal    float64 // K/W, junction to ambient: still air, no heat sink
	Keep       float64 // °C, that the junction should stay below
	Hottest    float64 // °C, that it must
}

// Input is what the controller has to give to an input.
type Input struct {
	Ampere float64 // A, at most, for each input that is on
	Needs  Curve   // V, for each current of the output
	Silent string  // the line that keeps the outputs off, in words
}

// Works says whether a controller's high level, in volts, switches a current of
// the output in ampere; always where it is not known what is needed.
func (i Input) Works(level, ampere float64) bool { return level >= i.Needs.At(ampere) }

// Reference says how a chopper is set: volts at its reference pin are
// Gain × Sense × the current in ampere. (A maker's data sheet of a chopper
// module's part: I = VREF/(8·RS).)
type Reference struct {
	Sense float64 // ohm
	Gain  float64
}

// Volts gives the reference for a current; 0 where there is none to set.
func (r Reference) Volts(ampere float64) float64 { return r.Gain * r.Sense * ampere }

// warmFrom is the junction temperature, in °C, that published drops are of.
const warmFrom = 25

// drop gives the straight piece of a curve at a current and a junction
// temperature. What conducts either way has no threshold.
func (s Stage) drop(c Curve, ampere, junctionC float64) Drop {
	line := s.Switch
	if len(c) > 0 {
		line = c.Line(ampere)
	}
	if s.channel && line.Volts != 0 {
		line = Drop{Ohms: line.At(ampere) / max(ampere, 1e-12)}
	}
	warm := max(0, 1+s.Warm*(junctionC-warmFrom))
	return Drop{warm * line.Volts, warm * line.Ohms}
}

// Around gives the stage with the drop that its published points have about a
// current in ampere, at a junction temperature in °C: the same machine as the
// stage itself, whose one straight line has to do for all currents.
func (s Stage) Around(ampere, junctionC float64) Stage {
	s.Switch = s.drop(s.Typical, ampere, junctionC)
	return s
}

// Worst gives the drop in volts that a part may have at a current in ampere and a
// junction temperature in °C: the published maximum, else the typical one.
func (s Stage) Worst(ampere, junctionC float64) float64 {
	c := s.Guaranteed
	if len(c) == 0 {
		c = s.Typical
	}
	return s.drop(c, ampere, junctionC).At(ampere)
}
