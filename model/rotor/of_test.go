package rotor

import (
	"math"
	"math/big"
	"testing"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
)

// Figures come in the holding torque of one phase: catalogues give it with two
// phases on, √2 times as much (common practice, no source).
func TestOf(t *testing.T) {
	figures := motor.Figures{HoldingTorque: quantity.NewtonMetres(math.Sqrt2), Detent: quantity.NewtonMetres(0.1),
		Friction: quantity.NewtonMetres(0.2), Load: quantity.NewtonMetres(-0.3)}
	m := motor.Motor{PolePairs: 50, Figures: figures}
	check := func(what string, got, want Machine) {
		t.Helper()
		if got.PolePairs != want.PolePairs || got.DetentShift != want.DetentShift || !near(got.Detent, want.Detent, 1e-12) ||
			!near(got.Friction, want.Friction, 1e-12) || !near(got.Load, want.Load, 1e-12) || !near(got.OnePhase, want.OnePhase, 1e-12) {
			t.Errorf("%s: %+v, want %+v", what, got, want)
		}
	}
	want := Machine{PolePairs: 50, Detent: 0.1, Friction: 0.2, Load: -0.3, OnePhase: 1}
	check("two phases", Of(m), want)

	m.Figures.HoldingTorque, m.Figures.OnePhase = quantity.Torque{}, quantity.NewtonMetres(1)
	check("one phase", Of(m), want)

	m.Figures.OnePhase = quantity.NewtonMetres(2)
	check("a motor twice as strong", Of(m), Machine{PolePairs: 50, Detent: 0.05, Friction: 0.1, Load: -0.15, OnePhase: 2})

	// With a train all torques are at the shaft: their proportions stay, and
	// the rotor has the ratio's part.
	m.Train = motor.Train{Nominal: big.NewRat(64, 1)}
	check("geared", Of(m), Machine{PolePairs: 50, Detent: 0.05, Friction: 0.1, Load: -0.15, OnePhase: 2.0 / 64})

	m.Figures.DetentAt45 = true
	if got := Of(m); got.DetentShift != 180 {
		t.Errorf("detents at the two-phase positions are shifted by %v°", got.DetentShift)
	}

	m.Figures.OnePhase = quantity.Torque{}
	check("without a torque", Of(m), Machine{PolePairs: 50, DetentShift: 180})
}

// Every built-in motor turns in every mode, whatever detent it has: a row on,
// and the rotor is known.
func TestBuiltInMotorsRest(t *testing.T) {
	for _, name := range motor.Names() {
		built, _ := motor.BuiltIn(name)
		m := Of(built)
		if m.OnePhase <= 0 || m.Detent >= 0.25 || m.Friction+math.Abs(m.Load) >= 1 {
			t.Errorf("%s: %+v", name, m)
		}
		w, balance := m.Follow(At(Position{}), aPlus)
		if _, ok := w.Known(); !ok || balance != Held {
			t.Errorf("%s: %v, balance %d", name, w, balance)
		}
	}
}
