package handoff

import (
	"bytes"
	"encoding/json"

	"coilwalk/sequence"
)

// object is the JSON of a step table.
type object struct {
	Coilwalk  int         `json:"coilwalk"`
	Head      []string    `json:"head"`
	Motor     string      `json:"motor"`
	Mode      string      `json:"mode"`
	Drive     string      `json:"drive"`
	Outputs   []objectOut `json:"outputs"`
	Active    string      `json:"active"`
	Port      *string     `json:"port"`
	Mask      *int        `json:"mask"`
	Off       *int        `json:"off"`
	IdleOff   bool        `json:"idle_off"`
	PerRotor  int         `json:"steps_per_rotor_turn"`
	PerShaft  string      `json:"steps_per_shaft_turn"`
	Forward   []objectRow `json:"forward"`
	Reverse   []objectRow `json:"reverse"`
	ClockHz   *int64      `json:"clock_hz"`
	Prescale  *int64      `json:"prescale"`
	Intervals []int64     `json:"interval_ticks"`
}

// objectOut is an output with what it feeds.
type objectOut struct {
	Lead string `json:"lead"`
	End  string `json:"end"`
	Bit  int    `json:"bit"`
	Pin  *int   `json:"pin"`
}

// objectRow is a row: levels of the pins, and in microstepping null; shares of
// current on the outputs.
type objectRow struct {
	Index  int          `json:"index"`
	Levels *[4]int      `json:"levels"`
	Word   *int         `json:"word"`
	Shares sequence.Row `json:"shares"`
}

func writeJSON(w *Walk) []byte {
	o := object{Coilwalk: 1, Head: w.Head(), Motor: w.Motor.Name, Mode: w.Mode.Name, Drive: w.Motor.Drive.String(), Active: w.Board.level(),
		IdleOff: w.IdleOff, PerRotor: w.Motor.StepsPerRotorTurn(w.Mode), PerShaft: w.Motor.StepsPerShaftTurn(w.Mode).RatString(), Intervals: []int64{}}
	if w.Board.Port != "" {
		o.Port = &w.Board.Port
	}
	if w.whole() {
		mask, none := int(w.Board.Mask()), int(w.Board.Word(off))
		o.Mask, o.Off = &mask, &none
		o.ClockHz, o.Prescale, o.Intervals = &w.Pace.ClockHz, &w.Pace.Prescale, w.Pace.Intervals
	}
	for k, e := range w.Motor.Wiring {
		out := objectOut{Lead: string(w.Motor.Output(w.Motor.Wiring, k)), End: e.String(), Bit: w.Board.Bits[k]}
		if w.Board.Numbered {
			out.Pin = &w.Board.Pins[k]
		}
		o.Outputs = append(o.Outputs, out)
	}
	o.Forward, o.Reverse = w.objectRows(forwardName), w.objectRows(reverseName)
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(o); err != nil {
		panic(err) // an object of ours that JSON can not hold
	}
	return b.Bytes()
}

func (w *Walk) objectRows(name string) (rows []objectRow) {
	for k, row := range w.tables()[name] {
		one := objectRow{Index: w.number(name, k), Shares: row}
		if w.whole() {
			levels, word := w.Board.Levels(row), int(w.Board.Word(row))
			one.Levels, one.Word = &levels, &word
		}
		rows = append(rows, one)
	}
	return rows
}

func readJSON(w *Walk, text []byte) (contents, error) {
	var o object
	if err := json.Unmarshal(text, &o); err != nil {
		return contents{}, err
	}
	c := contents{tables: map[string][]sequence.Row{}, intervals: o.Intervals}
	for name, rows := range map[string][]objectRow{forwardName: o.Forward, reverseName: o.Reverse} {
		for _, one := range rows {
			row := one.Shares
			if one.Word != nil { // what the pins do counts
				row = w.Board.row(uint16(*one.Word))
			}
			c.tables[name] = append(c.tables[name], row)
		}
	}
	return c, nil
}
