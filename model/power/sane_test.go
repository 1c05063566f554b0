package power

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Whatever is asked, an answer has figures: nothing is colder than the room, what is
// warm is no stronger than what is cold unless its current is set, the verdict is
// that of the worst check, and a stiffer supply brings no less current.
func TestAnswersAreSane(t *testing.T) {
	names := motor.Names()
	rapid.Check(t, func(t *rapid.T) {
		m, _ := motor.BuiltIn(rapid.SampledFrom(names).Draw(t, "motor"))
		supply := driver.Supply{Title: "any", Volts: rapid.Float64Range(0.5, 60).Draw(t, "V"), Ohms: rapid.Float64Range(0, 3).Draw(t, "ohm"),
			Limit: rapid.Float64Range(0, 3).Draw(t, "A")}
		q, err := Ask(m, rapid.SampledFrom(driver.Stages).Draw(t, "stage"), supply)
		if err != nil {
			t.Fatal(err)
		}
		q.Duty, q.Hold, q.Ambient = rapid.Float64Range(0, 1).Draw(t, "duty"), rapid.Float64Range(0, 1).Draw(t, "hold"), rapid.Float64Range(-20, 60).Draw(t, "°C")
		q.Rate, q.Series, q.For = rapid.SampledFrom([]float64{0, 0, 5}).Draw(t, "rate"), rapid.Float64Range(0, 50).Draw(t, "series"), rapid.SampledFrom([]float64{0, 10, 1e4, 1e8}).Draw(t, "s")
		q.Mode = rapid.SampledFrom(sequence.Modes[:]).Draw(t, "mode")
		if rapid.Bool().Draw(t, "micro") {
			q.Mode, _ = sequence.Micro(8, 0)
		}
		q.Logic, q.Load = rapid.Float64Range(0, 5).Draw(t, "logic"), rapid.Float64Range(0, 1).Draw(t, "N·m")
		a, err := Judge(q)
		if err != nil {
			t.Fatal(err)
		}
		worst := Fine
		for _, c := range a.Checks {
			worst = max(worst, c.Verdict)
			if math.IsNaN(c.Value) || math.IsNaN(c.Limit) {
				t.Fatalf("%+v", c)
			}
		}
		if worst != a.Verdict || a.Checks[0].Verdict != worst {
			t.Fatalf("%s by %+v", a.Verdict, a.Checks)
		}
		if _, misfit := a.Check(FitsLeads); misfit {
			return
		}
		for what, v := range map[string]float64{"supply": a.Balance.Supply, "copper": a.Balance.Copper, "stage": a.Balance.Stage, "series": a.Balance.Series, "package": a.Driver.Package,
			"rise": a.Rise.Seconds, "stored": a.Stored, "part": a.Part} {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				t.Fatalf("%s: %g", what, v)
			}
		}
		if !(a.Final >= q.Ambient-1e-6 && a.Final <= Hottest) || !(a.After <= a.Final+0.5) || a.Driver.Junction < q.Ambient-1e-6 || a.Driver.JunctionMost < a.Driver.Junction-0.01 {
			t.Fatalf("room %g, winding %g and %g, chip %g and %g °C", q.Ambient, a.After, a.Final, a.Driver.Junction, a.Driver.JunctionMost)
		}
		if !q.Stage.Regulates() && a.Warm.Strength > a.Cold.Strength+1e-6 && q.Stage.Warm == 0 {
			t.Fatalf("warm %g, cold %g", a.Warm.Strength, a.Cold.Strength)
		}
		q.Supply.Ohms = 0
		if stiff, err := Judge(q); err != nil || mostCoil(stiff) < mostCoil(a)-1e-6 {
			t.Fatalf("%g A behind %g ohm, %g A without", mostCoil(a), supply.Ohms, mostCoil(stiff))
		}
	})
}

func mostCoil(a *Answer) (most float64) {
	for _, i := range a.Cold.Coils {
		most = max(most, math.Abs(i))
	}
	return most
}
