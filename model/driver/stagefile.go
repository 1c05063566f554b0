package driver

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/quantity"
)

// longestFile bounds a stage file, which a person writes by hand.
const longestFile = 64 << 10 // bytes

// document is a stage file as it stands in TOML.
type document struct {
	Name   string `toml:"name"`
	Title  string `toml:"title"`
	Source string `toml:"source"`
	Kind   string `toml:"kind"`
	Switch string `toml:"switch"`
	Decay  string `toml:"decay"`
	Drop   struct {
		At         []quantity.Current  `toml:"at"`
		Typical    []quantity.Voltage  `toml:"typical"`
		Most       []quantity.Voltage  `toml:"most"`
		Resistance quantity.Resistance `toml:"resistance"`
		Diode      quantity.Voltage    `toml:"diode"`
	} `toml:"drop"`
	Limits struct {
		Output     quantity.Current     `toml:"output"`
		Peak       quantity.Current     `toml:"peak"`
		Together   quantity.Current     `toml:"together"`
		Least      quantity.Voltage     `toml:"least_supply"`
		Most       quantity.Voltage     `toml:"most_supply"`
		PerPackage *int                 `toml:"per_package"`
		Thermal    quantity.Thermal     `toml:"thermal_resistance"`
		Keep       quantity.Temperature `toml:"junction"`
		Hottest    quantity.Temperature `toml:"junction_most"`
	} `toml:"limits"`
	Input struct {
		Current quantity.Current `toml:"current"`
		Logic   quantity.Voltage `toml:"logic"`
		Silent  string           `toml:"silent"`
	} `toml:"input"`
	Chopper struct {
		Sense quantity.Resistance `toml:"sense"`
		Gain  *int                `toml:"gain"`
	} `toml:"chopper"`
}

// stageFile is what the complaints about one may tell of.
var stageFile = files.Form{
	Kind: "stage file", Line: `name = "my-board"`, Text: `"my-board"`, List: `["100 mA", "350 mA"]`,
	Fields: map[string][]string{
		"":        {"name", "title", "source", "kind", "switch", "decay", "drop", "limits", "input", "chopper"},
		"drop":    {"at", "typical", "most", "resistance", "diode"},
		"limits":  {"output", "peak", "together", "least_supply", "most_supply", "per_package", "thermal_resistance", "junction", "junction_most"},
		"input":   {"current", "logic", "silent"},
		"chopper": {"sense", "gain"},
	},
	Tables: []string{"drop", "limits", "input", "chopper"},
	Bare:   []string{"limits.per_package", "chopper.gain"},
}

// Open reads a stage: one of Stages by its word, or a stage file; "-" is stdin.
func Open(name string, stdin io.Reader) (Stage, error) {
	s, unknown := Named(name)
	if unknown == nil {
		return s, nil
	}
	text, err := files.Read(name, longestFile, stdin)
	if err == nil {
		return ParseStage(files.Called(name), text)
	}
	if _, missing := os.Stat(name); errors.Is(missing, fs.ErrNotExist) && !strings.ContainsAny(name, `./\`) {
		return Stage{}, unknown
	}
	return Stage{}, err
}

// ParseStage reads the text of a stage file. Its errors are *files.Complaint with
// line and column.
func ParseStage(file string, text []byte) (Stage, error) {
	var d document
	if err := stageFile.Decode(file, text, &d); err != nil {
		return Stage{}, err
	}
	s, wrong := d.stage()
	if wrong != nil {
		return Stage{}, files.At(file, text, wrong.field, wrong.what, wrong.right)
	}
	return s, nil
}

// wrongField is a field whose value can not be, found after decoding.
type wrongField struct{ field, what, right string }

func (d *document) stage() (Stage, *wrongField) {
	s := Stage{Name: d.Name, Title: d.Title, Source: d.Source}
	for _, text := range []struct {
		field, value string
		most         int
	}{{"name", d.Name, 32}, {"title", d.Title, 60}, {"source", d.Source, 300}, {"input.silent", d.Input.Silent, 200}} {
		if len([]rune(text.value)) > text.most || files.Shown(text.value) != text.value {
			return s, &wrongField{text.field, "this is too long, or holds control characters", fmt.Sprintf("at most %d plain characters on one line are wanted", text.most)}
		}
	}
	if s.Name == "" || strings.ContainsAny(s.Name, " \t") {
		return s, &wrongField{"name", "the stage has no usable name", `one word is wanted, as name = "my-board"`}
	}
	if s.Title == "" {
		s.Title = s.Name
	}
	if s.Source == "" {
		return s, &wrongField{"source", "it is not said where the figures come from", `source = "the data sheet of …, table 4", or "measured" is wanted`}
	}
	for _, part := range []func(*Stage) *wrongField{d.works, d.drops, d.stands, d.takes} {
		if wrong := part(&s); wrong != nil {
			return s, wrong
		}
	}
	return s, nil
}

// works reads what kind of stage it is.
func (d *document) works(s *Stage) *wrongField {
	switch d.Switch {
	case "", "bipolar":
	case "mosfet":
		s.channel, s.Warm = true, warmMOSFET
	default:
		return &wrongField{"switch", fmt.Sprintf("there is no switch %s", files.Quoted(d.Switch)), "bipolar or mosfet is wanted"}
	}
	s.idle = brakes
	switch {
	case d.Decay == "fast" && d.Kind == "bridge":
		s.idle = returns
	case d.Decay != "" && d.Kind != "bridge":
		return &wrongField{"decay", "only a bridge has a decay to choose", "leave the line out"}
	case d.Decay != "" && d.Decay != "slow":
		return &wrongField{"decay", fmt.Sprintf("there is no decay %s", files.Quoted(d.Decay)), "slow or fast is wanted"}
	}
	switch d.Kind {
	case "sink":
		s.sink, s.idle, s.ClampsTo = sinks, nil, "through the clamp diodes to their common pin, which goes to the motor supply and never to ground"
	case "bridge":
		s.bridge, s.ClampsTo = bridges, bridgeDiodes
	case "chopper":
		s.bridge, s.idle, s.ClampsTo = chops, chopsToNone, bridgeDiodes
		if s.channel = true; d.Switch == "bipolar" {
			return &wrongField{"switch", "a chopper of bipolar transistors is not known here", "mosfet is wanted, or leave the line out"}
		}
		s.Warm = warmMOSFET
	default:
		return &wrongField{"kind", fmt.Sprintf("there is no kind %s", files.Quoted(d.Kind)), "sink, bridge or chopper is wanted"}
	}
	return nil
}

// drops reads what is lost: a resistance, or points over the current.
func (d *document) drops(s *Stage) *wrongField {
	p := d.Drop
	for _, volts := range []struct {
		name string
		all  []quantity.Voltage
		to   *Curve
	}{{"typical", p.Typical, &s.Typical}, {"most", p.Most, &s.Guaranteed}} {
		if volts.all == nil {
			continue
		}
		if len(volts.all) != len(p.At) {
			return &wrongField{"drop." + volts.name, fmt.Sprintf("%d drops for %d currents", len(volts.all), len(p.At)), "one is wanted for each current of at"}
		}
		for k, v := range volts.all {
			if !(p.At[k].Base() > 0) || k > 0 && !(p.At[k].Base() > p.At[k-1].Base()) {
				return &wrongField{"drop.at", "the currents of the drops do not rise", `rising ones above zero are wanted, as ["100 mA", "350 mA"]`}
			}
			if v.Base() < 0 || k > 0 && v.Base() < volts.all[k-1].Base() {
				return &wrongField{"drop." + volts.name, "a drop falls as the current rises, or is below nothing", "give what the sheet says for each current of at"}
			}
			*volts.to = append(*volts.to, Point{p.At[k].Base(), v.Base()})
		}
	}
	ohms := p.Resistance.Base()
	switch {
	case p.Resistance.Given() && s.Typical != nil:
		return &wrongField{"drop.resistance", "the drop is given twice, as a resistance and as points", "keep the one that the sheet gives"}
	case p.Resistance.Given() && ohms < 0:
		return &wrongField{"drop.resistance", "a resistance can not be negative", "that of all that is on together is wanted"}
	case p.Resistance.Given():
		s.Typical = Curve{{0, 0}, {1, ohms}}
	case s.Typical == nil:
		return &wrongField{"drop", "it is not said what the stage loses", `at and typical, or resistance, are wanted under [drop]`}
	}
	last := s.Typical[len(s.Typical)-1]
	first := s.Typical[0]
	s.Switch = Drop{Volts: last.Volts}
	switch {
	case s.channel && last.Ampere > 0:
		s.Switch = Drop{Ohms: last.Volts / last.Ampere}
	case last.Ampere > first.Ampere:
		ohms := (last.Volts - first.Volts) / (last.Ampere - first.Ampere)
		s.Switch = Drop{max(0, last.Volts-ohms*last.Ampere), ohms}
		if s.Switch.Volts == 0 {
			s.Switch.Ohms = last.Volts / last.Ampere
		}
	}
	diode := 0.8 // V; common practice, no source
	if p.Diode.Given() {
		if diode = p.Diode.Base(); diode < 0 {
			return &wrongField{"drop.diode", "a diode can not have a drop below nothing", "that of one clamp diode is wanted, as 1.2V"}
		}
	}
	s.Diode, s.Clamp = Drop{Volts: diode}, Drop{Volts: diode}
	if s.sink == nil { // two in the way
		s.Diode.Volts *= 2
	}
	return nil
}

// stands reads the limits.
func (d *document) stands(s *Stage) *wrongField {
	l := d.Limits
	for _, limit := range []struct {
		name  string
		given bool
		value float64
		to    *float64
	}{
		{"output", l.Output.Given(), l.Output.Base(), &s.Limits.Output},
		{"peak", l.Peak.Given(), l.Peak.Base(), &s.Limits.Peak},
		{"together", l.Together.Given(), l.Together.Base(), &s.Limits.Together},
		{"least_supply", l.Least.Given(), l.Least.Base(), &s.Limits.Least},
		{"most_supply", l.Most.Given(), l.Most.Base(), &s.Limits.Most},
		{"thermal_resistance", l.Thermal.Given(), l.Thermal.Base(), &s.Limits.Thermal},
		{"junction", l.Keep.Given(), l.Keep.Base(), &s.Limits.Keep},
		{"junction_most", l.Hottest.Given(), l.Hottest.Base(), &s.Limits.Hottest},
	} {
		if limit.given && !(limit.value > 0) {
			return &wrongField{"limits." + limit.name, limit.name + " must be above zero", "leave the line out if it is not known"}
		}
		*limit.to = limit.value
	}
	if s.Limits.Most > 0 && s.Limits.Least > s.Limits.Most {
		return &wrongField{"limits.most_supply", "the highest supply is below the lowest", "exchange them"}
	}
	if s.Limits.Hottest == 0 {
		s.Limits.Hottest = 150 // °C, of silicon; common practice, no source
	}
	if s.Limits.Keep == 0 {
		s.Limits.Keep = min(125, s.Limits.Hottest)
	}
	if s.Limits.PerPackage = 4; l.PerPackage != nil {
		if s.Limits.PerPackage = *l.PerPackage; s.Limits.PerPackage != 1 && s.Limits.PerPackage != 2 && s.Limits.PerPackage != 4 {
			return &wrongField{"limits.per_package", fmt.Sprintf("%d outputs can not share a package here", *l.PerPackage), "1, 2 or 4 of the four outputs is wanted"}
		}
	}
	return nil
}

// takes reads what a controller has to give, and how a chopper is set.
func (d *document) takes(s *Stage) *wrongField {
	in := d.Input
	if in.Current.Base() < 0 || in.Logic.Base() < 0 {
		return &wrongField{"input", "an input can not take less than nothing", "leave the line out if it is not known"}
	}
	s.Input = Input{Ampere: in.Current.Base(), Silent: in.Silent}
	if in.Logic.Given() {
		s.Input.Needs = Curve{{0, in.Logic.Base()}}
	}
	c := d.Chopper
	if (c.Sense.Given() || c.Gain != nil) && d.Kind != "chopper" {
		return &wrongField{"chopper", "only a chopper has a current to set", "leave the table out"}
	}
	if c.Sense.Given() != (c.Gain != nil) || c.Sense.Given() && !(c.Sense.Base() > 0 && *c.Gain > 0) {
		return &wrongField{"chopper", "sense and gain go together, both above zero", `sense = "0.1 ohm" and gain = 8 mean a reference of 8 × 0.1 ohm × the current`}
	}
	if c.Sense.Given() {
		s.Reference = Reference{Sense: c.Sense.Base(), Gain: float64(*c.Gain)}
	}
	return nil
}
