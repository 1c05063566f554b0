package driver

import (
	"fmt"
	"math"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/quantity"
)

// Supply is what feeds the motor: a voltage behind a resistance, up to a current.
type Supply struct {
	Name     string  // the word for it; "" for a plain voltage
	Title    string  // in full
	Volts    float64 // without load; 0 for the motor's rated voltage
	Promised float64 // A that it gives without being asked; 0 where all of Limit is
	Limit    float64 // A that it may give; 0 where that is not known
	Ohms     float64 // of the source and its leads
	Capacity float64 // A·s that it holds; 0 where it does not run out
	Never    string  // why a coil must never hang on it, whatever the current; "" where it may
	Note     string  // a condition on it
	Source   string
}

// Supplies lists the kinds of supply, with the figures of each kind.
var Supplies = []Supply{
	{
		Name: "usb", Title: "USB 2.0 port", Volts: 5, Promised: 0.1, Limit: 0.5,
		Ohms:   0.5, // 4.75 V, the least allowed at a port, at 500 mA
		Note:   "a port promises 100 mA; 500 mA only once the host grants them",
		Source: "USB 2.0, section 7.2.1, as quoted at second hand: unit load 100 mA, at most five; 5 V ± 5 %",
	},
	{
		Name: "usb3", Title: "USB 3 port", Volts: 5, Promised: 0.15, Limit: 0.9,
		Ohms:   0.6, // 4.45 V at 900 mA
		Note:   "a port promises 150 mA; 900 mA only once the host grants them",
		Source: "USB 3.x as quoted at second hand: unit load 150 mA, at most six; 4.45 to 5.25 V",
	},
	{
		Name: "block", Title: "9 V block battery", Volts: 9, Limit: 0.3, Ohms: 2, Capacity: 0.5 * 3600,
		Note:   "it sags as it empties",
		Source: "an alkaline block: some 0.5 A·h at a light load, about 2 ohm fresh; from memory",
	},
	{
		Name: "regulator", Title: "linear 5 V regulator of a controller board, fed with 12 V", Volts: 5,
		Limit:  0.14, // 1 W of heat at the 7 V that it takes up
		Note:   "it turns the rest of its input into heat, and the controller hangs on it too",
		Source: "1 W without a heat sink; common practice, no source",
	},
	{
		Name: "bench", Title: "bench supply", Limit: 3, Ohms: 0.05,
		Source: "3 A and short leads; common practice, no source",
	},
	{
		Name: "pin", Title: "pin of a controller", Volts: 5, Limit: 0.02, Ohms: 25,
		Never:  "a pin is no supply: it has no clamp for the coil's kick, and the kick breaks the controller",
		Source: "20 mA a pin, 40 mA before it breaks, some 25 ohm; from memory of data sheets of 8-bit controllers",
	},
}

// SupplyNames lists the words of all kinds.
func SupplyNames() string {
	var names []string
	for _, s := range Supplies {
		names = append(names, s.Name)
	}
	return strings.Join(names, ", ")
}

// ParseSupply reads a supply: a word of the list, or a voltage as "12V".
func ParseSupply(text string) (Supply, error) {
	text = strings.TrimSpace(text)
	if text == "" || text[0] >= '0' && text[0] <= '9' || strings.ContainsAny(text[:1], "+-.") {
		var v quantity.Voltage
		if err := v.Set(text); err != nil {
			return Supply{}, err
		}
		if v.Base() <= 0 {
			return Supply{}, &files.Complaint{What: fmt.Sprintf("a supply of %s drives nothing", v), Right: "more than 0 V is wanted"}
		}
		return SupplyOf(v), nil
	}
	var known []string
	for _, s := range Supplies {
		if s.Name == strings.ToLower(text) {
			return s, nil
		}
		known = append(known, s.Name)
	}
	c := &files.Complaint{What: fmt.Sprintf("no supply is called %s", files.Quoted(text)), Right: "a voltage as 12V, or one of " + strings.Join(known, ", ") + " is wanted"}
	if near := files.Nearest(text, known); near != "" {
		c.Right = "did you mean " + near + "?"
	}
	return Supply{}, c
}

// SupplyOf gives a stiff supply of a voltage.
func SupplyOf(v quantity.Voltage) Supply {
	return Supply{Title: "supply of " + v.String(), Volts: v.Base(), Source: "as given; what it can give is not known, and not judged"}
}

// Leaves gives the volts at the terminals of the supply with a current in ampere
// drawn; below nothing it is no supply any more.
func (s Supply) Leaves(ampere float64) float64 { return s.Volts - s.Ohms*ampere }

// Meets gives the volts at the terminals at which a load takes just what the
// supply gives: demand is the current of the load, in ampere, at a voltage. The
// limit holds where limited says so, as a bench supply's does: then the voltage
// falls until the load is content. It is the highest such voltage, which a load
// that is switched on reaches from above.
func (s Supply) Meets(demand func(volts float64) float64, limited bool) float64 {
	short := func(u float64) bool { // the load wants more than there is
		want := demand(u)
		return want > 0 && (s.Leaves(want) < u || limited && s.Limit > 0 && want > s.Limit)
	}
	if !short(s.Volts) {
		return s.Volts
	}
	if u, ok := s.iterated(demand); ok && !(limited && s.Limit > 0) {
		return u
	}
	const parts = 40 // in which the first voltage that will do is looked for
	above := s.Volts
	for k := 1; k <= parts; k++ {
		below := s.Volts * float64(parts-k) / parts
		if short(below) {
			above = below
			continue
		}
		for range 50 {
			if mid := (above + below) / 2; short(mid) {
				above = mid
			} else {
				below = mid
			}
		}
		return below
	}
	return 0
}

// iterated lets the voltage fall by what the load draws, again and again, until it
// stays: the way that it goes by itself. ok is false where it does not stay.
func (s Supply) iterated(demand func(volts float64) float64) (volts float64, ok bool) {
	u := s.Volts
	for range 100 {
		next := s.Leaves(demand(u))
		if !(next > 0) {
			return 0, false
		}
		if math.Abs(next-u) < 1e-12*s.Volts {
			return next, true
		}
		u = next
	}
	return 0, false
}
