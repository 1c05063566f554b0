package report

import (
	"fmt"

	"coilwalk/model/files"
	"coilwalk/model/handoff"
)

// Written is the answer of the command "write": what was made, and where it is.
type Written struct {
	Coilwalk  int      `json:"coilwalk"`
	Kind      string   `json:"kind"`
	File      *string  `json:"file"` // null where it was printed
	Bytes     int      `json:"bytes"`
	Motor     string   `json:"motor"`
	Mode      *string  `json:"mode"` // null where the file holds no rows, and so are its rates
	Drive     string   `json:"drive"`
	Wiring    []string `json:"wiring"`
	Stepper   bool     `json:"stepper"`
	StartRate *float64 `json:"start_rate"`
	Rate      *float64 `json:"rate"`
	Cautions  []string `json:"cautions"`
	Written   *string  `json:"text"` // null where it went into a file
	proven    bool     // read back; a drawing is not
}

// NewWritten tells of a text that was read back and found to be what was walked.
func NewWritten(kind handoff.Kind, w *handoff.Walk, file string, printed bool, text []byte) Written {
	out := Written{Coilwalk: Version, Kind: kind.Name, Bytes: len(text), Motor: w.Motor.Name, Drive: w.Motor.Drive.String(),
		Stepper: w.Stepper, Cautions: kind.Cautions(w), proven: !Drawn(kind)}
	if kind.Name != handoff.Bench {
		start, rate := degrees(w.Pace.StartRate()), degrees(w.Pace.Rate())
		out.Mode, out.StartRate, out.Rate = &w.Mode.Name, &start, &rate
	}
	for _, e := range w.Motor.Wiring {
		out.Wiring = append(out.Wiring, e.String())
	}
	if words := string(text); printed {
		out.Written = &words
	} else {
		out.File = &file
	}
	return out
}

// Text says where the file is, and what to take care of.
func (o Written) Text() string {
	if o.File == nil {
		return *o.Written
	}
	words := fmt.Sprintf("Written: %s, %d bytes", files.Shown(*o.File), o.Bytes)
	switch {
	case o.Mode == nil:
		words += ", read back and found to be for the board that was meant"
	case o.proven:
		words += fmt.Sprintf(", read back and found to be the %s order of %s", *o.Mode, o.Motor)
	}
	words += ".\n"
	for _, caution := range o.Cautions {
		words += "Caution: " + caution + "\n"
	}
	return words
}
