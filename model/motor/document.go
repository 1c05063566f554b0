package motor

import (
	"fmt"
	"math/big"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// document is a motor file as it stands in TOML. Lists of four are in field
// order A+ B+ A- B-.
type document struct {
	Name    string      `toml:"name"`
	Title   string      `toml:"title"`
	Origin  string      `toml:"origin"`
	Winding windingPart `toml:"winding"`
	Rotor   rotorPart   `toml:"rotor"`
	Train   struct {
		Meshes   meshText     `toml:"meshes"`
		Ratio    ratioText    `toml:"ratio"`
		Backlash backlashText `toml:"backlash"`
	} `toml:"train"`
	Wiring struct {
		Outputs []leadText `toml:"outputs"`
		Drive   string     `toml:"drive"`
	} `toml:"wiring"`
	Figures figuresPart `toml:"figures"`
}

type windingPart struct {
	Ends   []leadText `toml:"ends"`
	Common leadText   `toml:"common"`
	Taps   []leadText `toml:"taps"`
	Inner  []leadText `toml:"inner"`

	OrderGuessed bool `toml:"order_guessed"`
}

type rotorPart struct {
	PolePairs  *int           `toml:"pole_pairs"`
	Rings      *int           `toml:"rings"`
	Teeth      *int           `toml:"teeth"`
	RotorTeeth *int           `toml:"rotor_teeth"`
	StepAngle  quantity.Angle `toml:"step_angle"`
}

type figuresPart struct {
	Voltage       quantity.Voltage    `toml:"voltage"`
	Current       quantity.Current    `toml:"current"`
	Resistance    quantity.Resistance `toml:"resistance"`
	Inductance    quantity.Inductance `toml:"inductance"`
	HoldingTorque quantity.Torque     `toml:"holding_torque"`
	OnePhase      quantity.Torque     `toml:"one_phase_torque"`
	Detent        quantity.Torque     `toml:"detent_torque"`
	DetentAt      string              `toml:"detent_at"`
	Friction      quantity.Torque     `toml:"friction"`
	Inertia       quantity.Inertia    `toml:"inertia"`
	Load          quantity.Torque     `toml:"load"`
	Thermal       quantity.Thermal    `toml:"thermal_resistance"`
	ThermalTime   quantity.Time       `toml:"thermal_time"`
	Insulation    insulationText      `toml:"insulation"`
}

// fields are the known fields by table, to name the nearest one to a slip.
var fields = map[string][]string{
	"":        {"name", "title", "origin", "winding", "rotor", "train", "wiring", "figures"},
	"winding": {"ends", "common", "taps", "inner", "order_guessed"},
	"rotor":   {"pole_pairs", "rings", "teeth", "rotor_teeth", "step_angle"},
	"train":   {"meshes", "ratio", "backlash"},
	"wiring":  {"outputs", "drive"},
	"figures": {"voltage", "current", "resistance", "inductance", "holding_torque", "one_phase_torque",
		"detent_torque", "detent_at", "friction", "inertia", "load", "thermal_resistance", "thermal_time", "insulation"},
}

// These read a text of the file where it stands, so that a complaint has its
// place.
type (
	leadText  struct{ Lead }
	meshText  struct{ Train }
	ratioText struct{ Train }

	backlashText struct{ Backlash }

	insulationText struct{ Insulation }
)

func (i *insulationText) UnmarshalText(text []byte) (err error) {
	i.Insulation, err = ParseInsulation(string(text))
	return err
}

func (l *leadText) UnmarshalText(text []byte) (err error) {
	l.Lead, err = ParseLead(string(text))
	return err
}

func (m *meshText) UnmarshalText(text []byte) (err error) {
	m.Train, err = ParseTrain(string(text))
	return err
}

func (r *ratioText) UnmarshalText(text []byte) (err error) {
	r.Train, err = ParseRatio(string(text))
	return err
}

func (b *backlashText) UnmarshalText(text []byte) (err error) {
	b.Backlash, err = ParseBacklash(string(text))
	return err
}

// wrongField is a field whose value can not be, found after decoding.
type wrongField struct{ field, what, right string }

func (d *document) motor() (Motor, *wrongField) {
	m := Motor{Name: d.Name, Title: d.Title, Origin: d.Origin}
	if !IsName(m.Name) {
		return m, &wrongField{"name", "the motor has no usable name", NameWanted + `, as name = "vent-flap"`}
	}
	if m.Title == "" {
		m.Title = m.Name
	}
	if !IsTitle(m.Title) {
		return m, &wrongField{"title", "the title is too long, or holds control characters", TitleWanted}
	}
	if !IsOrigin(m.Origin) {
		return m, &wrongField{"origin", "the origin is too long, or holds control characters", OriginWanted}
	}
	if wrong := d.Rotor.into(&m); wrong != nil {
		return m, wrong
	}
	if wrong := d.Winding.into(&m.Winding); wrong != nil {
		return m, wrong
	}
	if d.Train.Meshes.Geared() && d.Train.Ratio.Geared() {
		return m, &wrongField{"train.ratio", "the train is given twice, as meshes and as a ratio", "keep the meshes if the teeth were counted"}
	}
	m.Train = d.Train.Meshes.Train
	if d.Train.Ratio.Geared() {
		m.Train = d.Train.Ratio.Train
	}
	var err error
	if m.Train, err = m.Train.WithBacklash(d.Train.Backlash.Backlash); err != nil {
		return m, &wrongField{"train.backlash", err.Error(), `as backlash = "8deg", or one angle for each mesh`}
	}
	if wrong := d.wiring(&m); wrong != nil {
		return m, wrong
	}
	return m, d.Figures.into(&m.Figures)
}

// into takes the pole pairs, as stated or as counted, and the counts.
func (r rotorPart) into(m *Motor) *wrongField {
	for _, count := range []struct {
		from *int
		to   *int
		name string
	}{{r.Rings, &m.Counted.Rings, "rings"}, {r.Teeth, &m.Counted.Teeth, "teeth"}, {r.RotorTeeth, &m.Counted.RotorTeeth, "rotor_teeth"}} {
		if count.from == nil {
			continue
		}
		if *count.to = *count.from; *count.to < 1 {
			return &wrongField{"rotor." + count.name, fmt.Sprintf("%d can not be counted", *count.to), "leave the line out if it was not counted"}
		}
	}
	m.Counted.StepAngle = r.StepAngle
	counts, err := m.Counted.Counts()
	if err != nil {
		return &wrongField{"rotor", err.Error(), ""}
	}
	if r.PolePairs == nil {
		agreed := Agree(counts)
		if agreed.Steps == 0 {
			what := "the rotor's pole pairs are missing"
			if len(counts) > 0 {
				what += ", and the counts leave them open: " + agreed.Text
			}
			return &wrongField{"rotor.pole_pairs", what, "pole_pairs is wanted under [rotor]: full steps to a rotor turn divided by 4"}
		}
		m.PolePairs = int(agreed.Steps / 4)
		return nil
	}
	m.PolePairs = *r.PolePairs
	if m.PolePairs < 1 || m.PolePairs > 500 {
		return &wrongField{"rotor.pole_pairs", fmt.Sprintf("the rotor can not have %d pole pairs", m.PolePairs),
			"a number from 1 to 500 is wanted: full steps per rotor turn divided by 4"}
	}
	stated := Count{Steps: big.NewRat(4*int64(m.PolePairs), 1)}
	for _, c := range counts {
		if c.Steps.Cmp(stated.Steps) != 0 && !isHalfAngle(c, stated) {
			return &wrongField{"rotor.pole_pairs", fmt.Sprintf("%d pole pairs are %d full steps to a turn, but %s would make %s", m.PolePairs, 4*m.PolePairs, c.How, trimmed(c.Steps.FloatString(3))),
				"count again; leave out what is not sure"}
		}
	}
	return nil
}

func (w windingPart) into(to *Winding) *wrongField {
	if !four(w.Ends, &to.Ends) {
		return &wrongField{"winding.ends", fmt.Sprintf("%d coil ends are named", len(w.Ends)), "four are wanted, in the order A+ B+ A- B-"}
	}
	to.OrderGuessed = w.OrderGuessed
	kinds := 0
	if to.Common = w.Common.Lead; to.Common != "" {
		kinds++
	}
	if w.Taps != nil {
		kinds++
		if len(w.Taps) != 2 {
			return &wrongField{"winding.taps", fmt.Sprintf("%d taps are named", len(w.Taps)), "two are wanted, of phase A and of phase B"}
		}
		to.Taps = [2]Lead{w.Taps[0].Lead, w.Taps[1].Lead}
	}
	if w.Inner != nil {
		kinds++
		if !four(w.Inner, &to.Inner) {
			return &wrongField{"winding.inner", fmt.Sprintf("%d inner ends are named", len(w.Inner)), "four are wanted, of the halves A+ B+ A- B-"}
		}
	}
	if kinds > 1 {
		return &wrongField{"winding", "more than one of common, taps and inner is given", "common is for 5 leads, taps for 6, inner for 8, none for 4"}
	}
	seen := map[string]bool{}
	for _, l := range to.Leads() {
		name := folded(l) // a1 and A1 would be one lead to whoever types it
		if seen[name] {
			return &wrongField{"winding", fmt.Sprintf("the lead %s is named twice", l), "each lead is one end; tell like colours apart by a name, as BK1 and BK2"}
		}
		seen[name] = true
	}
	return nil
}

func four(from []leadText, to *[4]Lead) bool {
	if len(from) != len(to) {
		return false
	}
	for i, l := range from {
		to[i] = l.Lead
	}
	return true
}

func (d *document) wiring(m *Motor) *wrongField {
	m.Drive = m.Drives()[0]
	if d.Wiring.Drive != "" {
		found := false
		for _, drive := range sequence.Drives {
			if drive.String() == d.Wiring.Drive {
				m.Drive, found = drive, true
			}
		}
		if !found {
			return &wrongField{"wiring.drive", fmt.Sprintf("there is no drive %s", files.Quoted(d.Wiring.Drive)), "unipolar or bipolar is wanted"}
		}
		if err := m.Allows(m.Drive); err != nil {
			what, right, _ := strings.Cut(err.Error(), ", so ")
			if len(m.Leads()) == 4 {
				right += "; or name the common or the taps under [winding]"
			}
			return &wrongField{"wiring.drive", what, right}
		}
	}
	m.Wiring = sequence.Straight
	if d.Wiring.Outputs == nil {
		return nil
	}
	right := fmt.Sprintf("the leads on outputs 1 to 4 are wanted, each of %s %s %s %s once", m.Ends[0], m.Ends[1], m.Ends[2], m.Ends[3])
	if len(d.Wiring.Outputs) != 4 {
		return &wrongField{"wiring.outputs", fmt.Sprintf("%d outputs are given", len(d.Wiring.Outputs)), right}
	}
	for k, l := range d.Wiring.Outputs {
		m.Wiring[k] = -1
		for e, end := range m.Ends {
			if folded(end) == folded(l.Lead) {
				m.Wiring[k] = sequence.End(e)
			}
		}
		if m.Wiring[k] < 0 {
			return &wrongField{"wiring.outputs", fmt.Sprintf("output %d feeds %s, which is no coil end", k+1, l.Lead), right}
		}
	}
	if !m.Wiring.Valid() {
		return &wrongField{"wiring.outputs", "one lead stands on two outputs", right}
	}
	return nil
}

func (f figuresPart) into(to *Figures) *wrongField {
	*to = Figures{Voltage: f.Voltage, Current: f.Current, Resistance: f.Resistance, Inductance: f.Inductance,
		HoldingTorque: f.HoldingTorque, OnePhase: f.OnePhase, Detent: f.Detent, Friction: f.Friction, Inertia: f.Inertia, Load: f.Load,
		Thermal: f.Thermal, ThermalTime: f.ThermalTime, Insulation: f.Insulation.Insulation}
	for _, figure := range []struct {
		name  string
		given bool
		value float64
		zero  bool // it may be zero
	}{
		{"voltage", f.Voltage.Given(), f.Voltage.Base(), false},
		{"current", f.Current.Given(), f.Current.Base(), false},
		{"resistance", f.Resistance.Given(), f.Resistance.Base(), false},
		{"inductance", f.Inductance.Given(), f.Inductance.Base(), false},
		{"holding_torque", f.HoldingTorque.Given(), f.HoldingTorque.Base(), false},
		{"one_phase_torque", f.OnePhase.Given(), f.OnePhase.Base(), false},
		{"inertia", f.Inertia.Given(), f.Inertia.Base(), false},
		{"thermal_resistance", f.Thermal.Given(), f.Thermal.Base(), false},
		{"thermal_time", f.ThermalTime.Given(), f.ThermalTime.Base(), false},
		{"detent_torque", f.Detent.Given(), f.Detent.Base(), true},
		{"friction", f.Friction.Given(), f.Friction.Base(), true},
	} {
		if figure.given && (figure.value < 0 || figure.value == 0 && !figure.zero) {
			what := "must be above zero"
			if figure.zero {
				what = "can not be negative"
			}
			return &wrongField{"figures." + figure.name, figure.name + " " + what, "leave the line out if it is not known"}
		}
	}
	if f.HoldingTorque.Given() && f.OnePhase.Given() {
		return &wrongField{"figures.one_phase_torque", "the holding torque is given twice", "with two phases on it is √2 times that with one; keep the one that was measured"}
	}
	switch f.DetentAt {
	case "", "one-phase":
	case "two-phase":
		to.DetentAt45 = true
	default:
		return &wrongField{"figures.detent_at", fmt.Sprintf("the detents can not be at %s", files.Quoted(f.DetentAt)), "one-phase or two-phase is wanted"}
	}
	return nil
}
