package report

import (
	"fmt"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Order is the answer of the command "order": one cycle of a mode, with what
// each row does to the motor.
type Order struct {
	Coilwalk  int        `json:"coilwalk"`
	Motor     string     `json:"motor"`
	Mode      string     `json:"mode"`
	Drive     string     `json:"drive"`
	Direction string     `json:"direction"`
	PerRotor  int        `json:"steps_per_rotor_turn"`
	PerShaft  string     `json:"steps_per_shaft_turn"`
	Rows      []OrderRow `json:"rows"`
	motor     motor.Motor
	title     string
	shares    bool
}

// OrderRow is a row of an Order.
type OrderRow struct {
	Index    int        `json:"index"`
	Outputs  string     `json:"outputs"`
	Coils    []string   `json:"coils"`
	Currents [2]float64 `json:"currents"`
	FieldDeg float64    `json:"field_deg"`
	Strength float64    `json:"strength"`
	RotorDeg *float64   `json:"rotor_deg"`
	ShaftDeg *float64   `json:"shaft_deg"`
	row      sequence.Row
	lag      float64
	held     bool
	balance  rotor.Balance
}

// NewOrder walks one cycle of a mode from its row start (from 1), after one
// cycle to settle in, and reports where the rotor of the model rests.
func NewOrder(m motor.Motor, mode sequence.Mode, drive sequence.Drive, start int, reverse bool) Order {
	o := Order{Coilwalk: Version, Motor: m.Name, Mode: mode.Name, Drive: drive.String(), Direction: sequence.Forward.String(),
		PerRotor: m.StepsPerRotorTurn(mode), PerShaft: m.StepsPerShaftTurn(mode).RatString(),
		motor: m, title: mode.Title, shares: mode.Shares}
	way := int64(1)
	if reverse {
		way, o.Direction = -1, sequence.Reverse.String()
	}
	machine, order := rotor.Of(m), mode.Order()
	rows := int64(order.Len())
	var where rotor.Whereabouts
	var balance rotor.Balance
	settle := func(k int64) sequence.Row {
		row := order.Row(int64(start-1) + way*k)
		if f := row.Field(); len(where.Places) == 0 && k == -rows {
			deg, _ := f.Degrees()
			where, balance = machine.Follow(rotor.At(rotor.Position{Deg: deg}), f)
		} else {
			where, balance = machine.Follow(where, f)
		}
		return row
	}
	for k := -rows; k < 0; k++ {
		settle(k)
	}
	var first rotor.Position
	for k := range rows {
		row := settle(k)
		f := row.Field()
		deg, _ := f.Degrees()
		r := OrderRow{Index: order.Index(int64(start-1)+way*k) + 1, Outputs: row.Onto(m.Wiring).Bits(), Coils: []string{},
			Currents: [2]float64{degrees(f.A), degrees(f.B)}, FieldDeg: degrees(deg), Strength: degrees(f.Strength()), row: row.Onto(m.Wiring), balance: balance}
		for _, e := range row.On() {
			r.Coils = append(r.Coils, e.String())
		}
		if p, ok := where.Known(); ok {
			if k == 0 {
				first = p
			}
			rotorDeg := degrees(m.AtRotor(p.From(first)))
			ratio, _ := m.Train.Ratio().Float64()
			shaftDeg := degrees(m.AtRotor(p.From(first)) / ratio)
			r.RotorDeg, r.ShaftDeg = &rotorDeg, &shaftDeg
			r.lag, r.held = m.AtRotor(sequence.Between(p.Deg, deg)), true
		}
		o.Rows = append(o.Rows, r)
	}
	return o
}

// Text writes the order as a table in plain words.
func (o Order) Text() string {
	var b strings.Builder
	m := o.motor
	fmt.Fprintf(&b, "%s, %s, %s, for %s (%s)\n", o.title, o.Drive, o.Direction, m.Title, Winding(m))
	fmt.Fprintf(&b, "%d rows to a rotor turn", o.PerRotor)
	if m.Train.Geared() {
		fmt.Fprintf(&b, ", %s to a shaft turn through the train %s", o.PerShaft, Ratio(m.Train))
	}
	b.WriteString("\n\n")
	leads := make([]string, 4)
	for k := range leads {
		leads[k] = fmt.Sprintf("%5s", m.Output(m.Wiring, k))
	}
	fmt.Fprintf(&b, " row    outputs 1 to 4     on           field  strength     rotor      shaft  rests\n")
	fmt.Fprintf(&b, "     %s\n", strings.Join(leads, ""))
	for _, r := range o.Rows {
		fmt.Fprintf(&b, "%4d %s   %-12s %6s°  %8s %9s %10s  %s\n", r.Index, o.levels(r.row), strings.Join(r.Coils, " "),
			strings.TrimSuffix(Angle(r.FieldDeg, 2), "°"), Fixed(r.Strength, 2), known(r.RotorDeg, 3), known(r.ShaftDeg, 4), r.rests())
	}
	if w := Against(m.Train); w != "" {
		b.WriteString("\n" + w + "\n")
	}
	fmt.Fprintf(&b, "\nForward turns the shaft clockwise, seen facing its end. Angles of rotor and shaft count from the first row.\n")
	fmt.Fprintf(&b, "The rests come from the torque curve of the motor model %s (%s).\n", m.Name, m.Origin)
	fmt.Fprintf(&b, "%s.\n", Sentence(m.Supply(driveOf(o.Drive))))
	b.WriteString("Before you plug or unplug a motor lead, switch the motor supply off: breaking a coil's current kicks.\n")
	return b.String()
}

// Lines says each row in words of its own.
func (o Order) Lines() []string {
	lines := make([]string, len(o.Rows))
	for k, r := range o.Rows {
		on := "nothing"
		if len(r.Coils) > 0 {
			on = strings.Join(r.Coils, " and ")
		}
		levels := OutputsOn(r.row)
		if o.shares {
			levels = "outputs " + strings.Join(strings.Fields(o.levels(r.row)), " ")
		}
		lines[k] = fmt.Sprintf("row %d: %s; %s on; field %s electrical, strength %s; rotor %s, shaft %s, rests %s.", r.Index, levels, on,
			Angle(r.FieldDeg, 2), Fixed(r.Strength, 2), known(r.RotorDeg, 3), known(r.ShaftDeg, 4), r.rests())
	}
	return lines
}

func (o Order) levels(row sequence.Row) string {
	var b strings.Builder
	for _, v := range row {
		if o.shares {
			fmt.Fprintf(&b, "%5.0f", v*100)
		} else {
			fmt.Fprintf(&b, "%5.0f", v)
		}
	}
	return b.String()
}

func (r OrderRow) rests() string {
	switch {
	case r.balance == rotor.Adrift:
		return Balance(r.balance)
	case !r.held:
		return "not known"
	case r.lag > 0.005:
		return Angle(r.lag, 2) + " behind the field"
	case r.lag < -0.005:
		return Angle(-r.lag, 2) + " ahead of the field"
	}
	return "in the field"
}

func known(deg *float64, decimals int) string {
	if deg == nil {
		return "?"
	}
	return Fixed(*deg, decimals) + "°"
}

func driveOf(name string) sequence.Drive {
	if name == sequence.Bipolar.String() {
		return sequence.Bipolar
	}
	return sequence.Unipolar
}

// Sentence begins words with a capital.
func Sentence(words string) string {
	if words == "" {
		return words
	}
	return strings.ToUpper(words[:1]) + words[1:]
}
