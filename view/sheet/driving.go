package sheet

import (
	"errors"
	"strings"

	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
)

// Driving is what drives the motor, of which rates and power speak alike.
type Driving struct {
	Stage      driver.Stage
	Supply     driver.Supply
	Limit      quantity.Current // of what the supply gives
	Connection string
}

// What the lines of it ask. What counts while they are empty is told beside them.
var (
	asksStage     = driver.Names() + ", or a file:"
	asksSupply    = "as 12V or 12V 2A, or " + driver.SupplyNames() + ":"
	asksConnected = files.Either(motor.ConnectionWords) + ":"
)

// drivingNames are the lines of it, by the name that they have in each sheet.
var drivingNames = [...]string{"stage", "supply", "connected"}

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
