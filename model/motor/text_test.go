package motor

import (
	"strings"
	"testing"

	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// The words beside each part of a motor file say what stands there, and nothing is
// written that is not known.
func TestMotorFilesInWords(t *testing.T) {
	for _, c := range []struct {
		name       string
		change     func(*Motor)
		with, none string
	}{
		{"bare", func(*Motor) {}, "\n[rotor]\npole_pairs = 50  # 200 full steps to a turn\n\n[wiring]\noutputs = [\"a+\", \"b+\", \"a-\", \"b-\"]  # the leads on driver outputs 1 to 4\ndrive = \"bipolar\"\n", "[train]|[figures]|common|taps|inner|rings|teeth|step_angle|backlash|detent_at"},
		{"common", func(m *Motor) { m.Winding = windings[5] }, `common = "c"`, "taps|inner"},
		{"taps", func(m *Motor) { m.Winding = windings[6] }, `taps = ["a0", "b0"]  # A0, B0`, "common|inner"},
		{"inner", func(m *Motor) { m.Winding = windings[8] }, `inner = ["ia+", "ib+", "ia-", "ib-"]  # the other end of each half`, "common|taps"},
		{"rings", func(m *Motor) { m.Counted.Rings, m.Counted.Teeth = 4, 50 }, "rings = 4\nteeth = 50  # of one ring\n", "rotor_teeth"},
		{"rotor teeth", func(m *Motor) { m.Counted.RotorTeeth = 50 }, "rotor_teeth = 50\n", "rings"},
		{"step angle", func(m *Motor) { m.Counted.StepAngle = quantity.Degrees(0.9) }, `step_angle = "0.9 deg"  # as printed; may be the half-step angle`, "rings"},
		{"meshes", func(m *Motor) { m.Train = Train{Meshes: []Mesh{{9, 32}, {11, 22}}} }, "\n[train]\nmeshes = \"9:32,11:22\"  # teeth, driving:driven, from the rotor on\n", "ratio|backlash"},
		{"ratio", func(m *Motor) { m.Train, _ = ParseRatio("64:1") }, "\n[train]\nratio = \"64:1\"  # as printed; teeth not counted\n", "meshes|backlash"},
		{"backlash of each", func(m *Motor) {
			m.Train = Train{Meshes: []Mesh{{9, 32}, {11, 22}}, Backlash: Backlash{quantity.Degrees(1.5), quantity.Degrees(1)}}
		}, `backlash = "1.5 deg,1 deg"  # of each mesh, at its driven gear`, "at the output shaft"},
		{"backlash in all", func(m *Motor) {
			m.Train = Train{Meshes: []Mesh{{9, 32}, {11, 22}}, Backlash: Backlash{quantity.Degrees(8)}}
		}, `backlash = "8 deg"  # at the output shaft, rotor held`, "of each mesh"},
		{"another wiring", func(m *Motor) { m.Wiring = m.Wiring.Swapped(1, 2) }, `outputs = ["a+", "a-", "b+", "b-"]`, "[figures]"},
		{"figures", func(m *Motor) { m.Figures.Detent, m.Figures.DetentAt45 = quantity.NewtonMetres(0.001), true }, "\n[figures]  # of one coil where there are two, of one half where there is a tap\ndetent_torque = \"", "torques at the output shaft|voltage"},
		{"geared figures", func(m *Motor) {
			m.Train, _ = ParseRatio("64:1")
			m.Figures.Inertia = quantity.KilogramSquareMetres(1e-7)
		}, "of one half where there is a tap; torques at the output shaft\ninertia = ", "detent"},
	} {
		m := Motor{Name: "x", Title: "X", Winding: windings[4], PolePairs: 50, Drive: sequence.Bipolar, Wiring: sequence.Straight}
		c.change(&m)
		text := string(m.Text())
		if !strings.Contains(text, c.with) {
			t.Errorf("%s:\n%s\nwant %s", c.name, text, c.with)
		}
		for _, word := range strings.Split(c.none, "|") {
			if strings.Contains(text, word) {
				t.Errorf("%s:\n%s\nand %s stands in it", c.name, text, word)
			}
		}
	}
}
