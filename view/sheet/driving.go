package sheet

import (
	"errors"
	"fmt"
	"strings"

	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
)

// Driving is what drives the motor, of which rates and power speak alike.
type Driving struct {
	Stage      driver.Stage
	Supply     driver.Supply
	Limit      quantity.Current // of what the supply gives
	Connection string
	Set        set
}

// set is what a stage that regulates is set to.
type set struct {
	current quantity.Current
	holding bool
	hold    float64 // part of it at rest, of which power alone speaks
}

// What the lines of it ask. What counts while they are empty is told beside them.
var (
	asksStage     = driver.Names() + ", or a file:"
	asksSupply    = "as 12V or 12V 2A, or " + driver.SupplyNames() + ":"
	asksConnected = files.Either(motor.ConnectionWords) + ":"
	asksSet       = "a chopper's current, and a part of it at rest, as 1.2A 50%:"
)

// drivingNames are the lines of it, by the name that they have in each sheet.
var drivingNames = [...]string{sharedStage: "stage", sharedSupply: "supply", sharedConnected: "connected", sharedSet: "set to"}

const (
	sharedStage = iota
	sharedSupply
	sharedConnected
	sharedSet
)

// Shared is what stands in those lines: once for all sheets of a motor.
type Shared [len(drivingNames)]string

// Into puts what is shared into the lines of a sheet that have it.
func Into[S any](s *Shared, lines []Line[S]) {
	for k, name := range drivingNames {
		if at := At(lines, name); at >= 0 {
			lines[at].Text = s[k]
		}
	}
}

// Keep takes what is shared from the lines of a sheet, once they can be used.
func Keep[S any](s *Shared, lines []Line[S]) {
	for k, name := range drivingNames {
		if at := At(lines, name); at >= 0 {
			s[k] = lines[at].Text
		}
	}
}

// Drives says how a motor is driven by what is shared.
func (s *Shared) Drives(m motor.Motor) (power.Driven, error) {
	r := Rates{Motor: m}
	for k, name := range drivingNames {
		lines := RatesLines(m)
		if err := lines[At(lines, name)].set(&r, s[k]); err != nil {
			return r.Driven, err
		}
	}
	err := r.Drives()
	return r.Driven, err
}

// drives settles how a motor is driven by it.
func (d *Driving) drives(m motor.Motor) (power.Driven, error) {
	driven, err := power.Drives(m, d.Stage, d.Supply, d.Connection)
	if err != nil {
		return driven, err
	}
	if d.Limit.Given() {
		driven.Heat.Supply.Limit, driven.Heat.Supply.Promised = d.Limit.Base(), 0
	}
	if err := d.fits(driven.Stage); err != nil {
		return driven, err
	}
	return driven, driven.SetTo(d.Set.current)
}

// fits says whether the stage can be set as it is asked for.
func (d *Driving) fits(stage driver.Stage) error {
	if (d.Set.current.Given() || d.Set.holding) && !stage.Regulates() {
		return fmt.Errorf("set to: the %s does not set its current; empty the line, or take a stage that does", stage.Title)
	}
	return nil
}

// DrivingWords are what lines of rates and power can hold, where these are words;
// the others take letters. Each has the empty one, for what counts by itself.
func DrivingWords(m motor.Motor, line string) []string {
	words := []string{""}
	switch line {
	case "stage":
		for _, s := range driver.Stages {
			words = append(words, s.Name)
		}
	case "supply":
		for _, s := range driver.Supplies {
			words = append(words, s.Name)
		}
	case "connected":
		for _, c := range m.Connections() {
			words = append(words, c.Word)
		}
	default:
		return TakeWords(line)
	}
	return words
}

func (d *Driving) setStage(text string) (err error) {
	d.Stage = driver.Stage{}
	if text == "-" {
		return errors.New("there is no standard input to read here; a name or a file is wanted")
	}
	if text != "" {
		d.Stage, err = driver.Open(text, strings.NewReader(""))
	}
	return err
}

// setSupply reads a supply, and after it what it may give.
func (d *Driving) setSupply(text string) (err error) {
	d.Supply, d.Limit = driver.Supply{}, quantity.Current{}
	if text == "" {
		return nil
	}
	if cut := strings.LastIndexAny(text, " ,"); cut > 0 && d.Limit.Set(text[cut+1:]) == nil {
		text = text[:cut]
	}
	d.Supply, err = driver.ParseSupply(text)
	return err
}

func (d *Driving) setConnection(text string) error { d.Connection = text; return nil }

// setCurrent reads a current, a part that is held with at rest, or both.
func (d *Driving) setCurrent(text string) (err error) {
	d.Set = set{}
	for _, word := range strings.Fields(text) {
		if strings.HasSuffix(word, "%") {
			d.Set.holding = true
			d.Set.hold, err = power.ParsePart(word)
		} else {
			err = d.Set.current.Set(word)
		}
		if err != nil {
			return err
		}
	}
	return nil
}
