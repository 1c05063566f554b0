package report

import (
	"errors"
	"strings"

	"coilwalk/model/power"
)

// Forbids is what power says against the drive that a motor is run with: rates are
// those of a stage that goes on, whatever it carries.
type Forbids struct {
	Works bool   `json:"works"` // the stage, on what is left of its supply
	Text  string `json:"text"`
	first string // the figure that decides
}

// ForbiddenBy says what of a drive will not do where the motor is held at rest; nil
// where all will, or where that is not judged.
func ForbiddenBy(d power.Driven) *Forbids {
	a := d.Cost()
	if a == nil || a.Verdict != power.Not {
		return nil
	}
	f := &Forbids{Works: a.Works(), Text: low(strings.TrimSuffix(PowerVerdict(a), ".")), first: CheckText(a, a.Checks[0])}
	if c, _ := a.Check(power.SupplyLow); !f.Works { // of all that will not do this comes first
		f.first = CheckText(a, c)
	}
	return f
}

// Short says the one figure that decides.
func (f *Forbids) Short() string { return low(verdictWords[power.Not]) + ": " + f.first }

// Idle says that a motor is not run, for the stage does not work; nil where it does.
func (f *Forbids) Idle() error {
	if f == nil || f.Works {
		return nil
	}
	return errors.New(f.first + ", so the motor follows nothing")
}

func low(words string) string { return strings.ToLower(words[:1]) + words[1:] }
