package motor

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"

	"pgregory.net/rapid"

	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// plain tells whether a name or a title may hold a character: any that shows,
// and the blank; the mark for what could not be read shows nothing.
func plain(r rune) bool { return unicode.IsPrint(r) && r != unicode.ReplacementChar }

// inkRune draws a plain character, those that mean something in TOML often.
func inkRune() *rapid.Generator[rune] {
	return rapid.OneOf(rapid.RuneFrom([]rune(`"\'#[]{}=,.-_/ab9é`)), rapid.Rune().Filter(plain))
}

// drawnLead draws a colour, a striped one, or a name of one's own.
func drawnLead() *rapid.Generator[Lead] {
	code := func(t *rapid.T) string { return rapid.SampledFrom(standardColours).Draw(t, "colour").code }
	return rapid.OneOf(
		rapid.Custom(func(t *rapid.T) Lead { return Lead(code(t)) }),
		rapid.Custom(func(t *rapid.T) Lead { return Lead(code(t) + "/" + code(t)) }),
		rapid.Custom(func(t *rapid.T) Lead {
			name := rapid.StringOfN(rapid.OneOf(rapid.RuneFrom([]rune(`ab19+-_./\`)), rapid.Rune().Filter(unicode.IsPrint)), 1, 16, -1)
			return Lead(name.Filter(func(s string) bool {
				l, err := ParseLead(s)
				return err == nil && string(l) == s
			}).Draw(t, "name"))
		}))
}

func drawnWinding(t *rapid.T) Winding {
	n := rapid.SampledFrom([]int{4, 5, 6, 8}).Draw(t, "leads")
	fold := func(l Lead) string { return strings.ToLower(strings.ToUpper(string(l))) }
	l := rapid.SliceOfNDistinct(drawnLead(), n, n, fold).Draw(t, "lead")
	w := Winding{Ends: [4]Lead(l[:4])}
	switch n {
	case 5:
		w.Common = l[4]
	case 6:
		w.Taps = [2]Lead(l[4:])
	case 8:
		w.Inner = [4]Lead(l[4:])
	}
	return w
}

func drawnTrain(t *rapid.T) Train {
	train := drawnRatio(t)
	for range rapid.SampledFrom([]int{0, 1, len(train.Meshes)}).Draw(t, "angles of backlash") {
		var a quantity.Angle
		if err := a.Set(fmt.Sprintf("%g deg", float64(rapid.IntRange(0, 1800).Draw(t, "tenths"))/10)); err != nil {
			t.Fatal(err)
		}
		if train.Geared() {
			train.Backlash = append(train.Backlash, a)
		}
	}
	return train
}

func drawnRatio(t *rapid.T) Train {
	switch rapid.IntRange(0, 2).Draw(t, "train") {
	case 0:
		return Train{}
	case 1:
		return Train{Nominal: big.NewRat(rapid.Int64Range(1000, 999_999).Draw(t, "thousandths"), 1000)}
	}
	for {
		train := drawnMeshes(t)
		if _, err := ParseTrain(train.String()); err == nil { // within a million
			return train
		}
	}
}

type figure interface{ Set(text string) error }

// drawFigure gives a figure a value, or not, in any of some units.
func drawFigure(t *rapid.T, f figure, least int, units ...string) {
	if rapid.Bool().Draw(t, "left out") {
		return
	}
	digits := rapid.IntRange(least, 99_999).Draw(t, "digits")
	text := fmt.Sprintf("%de%d %s", digits, rapid.IntRange(-7, 4).Draw(t, "exponent"), rapid.SampledFrom(units).Draw(t, "unit"))
	if err := f.Set(text); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
}

func drawnFigures(t *rapid.T) Figures {
	torque := []string{"mN.m", "N.m", "N.cm", "gf.cm", "kgf.cm", "ozf.in"}
	var f Figures
	drawFigure(t, &f.Voltage, 1, "V", "mV", "kV")
	drawFigure(t, &f.Current, 1, "A", "mA", "uA")
	drawFigure(t, &f.Resistance, 1, "ohm", "kohm", "mohm")
	drawFigure(t, &f.Inductance, 1, "mH", "uH", "H")
	if rapid.Bool().Draw(t, "one phase") {
		drawFigure(t, &f.OnePhase, 1, torque...)
	} else {
		drawFigure(t, &f.HoldingTorque, 1, torque...)
	}
	drawFigure(t, &f.Detent, 0, torque...)
	drawFigure(t, &f.Friction, 0, torque...)
	drawFigure(t, &f.Inertia, 1, "g.cm2", "kg.cm2", "kg.m2")
	drawFigure(t, &f.Load, -99_999, torque...)
	drawFigure(t, &f.Thermal, 1, "K/W", "mK/W")
	drawFigure(t, &f.ThermalTime, 1, "s", "min", "h")
	f.Insulation = rapid.SampledFrom([]Insulation{"", "Y", "A", "E", "B", "F", "H"}).Draw(t, "insulation")
	f.DetentAt45 = rapid.Bool().Draw(t, "detents at 45")
	return f
}

// drawnMotor draws any motor that a file can hold.
func drawnMotor(t *rapid.T) Motor {
	word := inkRune().Filter(func(r rune) bool { return !unicode.IsSpace(r) })
	m := Motor{
		Name:      rapid.StringOfN(word, 1, 32, -1).Draw(t, "name"),
		Title:     rapid.StringOfN(inkRune(), 1, 60, -1).Draw(t, "title"),
		Origin:    rapid.StringOfN(inkRune(), 0, 300, -1).Draw(t, "origin"),
		Winding:   drawnWinding(t),
		PolePairs: rapid.IntRange(1, 500).Draw(t, "pole pairs"),
		Train:     drawnTrain(t),
		Wiring:    rapid.SampledFrom(sequence.Permutations()).Draw(t, "wiring"),
		Figures:   drawnFigures(t),
	}
	m.Drive = rapid.SampledFrom(m.Drives()).Draw(t, "drive")
	if rapid.Bool().Draw(t, "rings") {
		m.Counted.Rings, m.Counted.Teeth = 4, m.PolePairs
	}
	if rapid.Bool().Draw(t, "rotor teeth") {
		m.Counted.RotorTeeth = m.PolePairs
	}
	if turn := 4 * m.PolePairs; 360_000%turn == 0 && rapid.Bool().Draw(t, "step angle") {
		if err := m.Counted.StepAngle.Set(fmt.Sprintf("%g deg", 360/float64(turn))); err != nil {
			t.Fatal(err)
		}
	}
	return m
}
