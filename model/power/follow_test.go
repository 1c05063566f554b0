package power

import (
	"math"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// Held for good a winding comes to what Judge says of it; after one time constant,
// with a heat that hardly changes, it is at 63 % of the way (1 − 1/e of a
// first-order system; common practice, no source); switched off it cools to the
// room.
func TestFollowedWinding(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	q, err := Ask(m, driver.Usual(m.Drive, false), driver.Supply{})
	if err != nil {
		t.Fatal(err)
	}
	q.Mode = sequence.Full
	a, err := Judge(q)
	if err != nil {
		t.Fatal(err)
	}
	w, err := Follow(q)
	if err != nil {
		t.Fatal(err)
	}
	row := sequence.Full.Order().Row(0)
	for range 20000 {
		w.Pass(row, w.Seconds/2000)
		if math.IsNaN(w.Celsius) {
			t.Fatal("not a number")
		}
	}
	if rise := a.Final - q.Ambient; math.Abs(w.Celsius-a.Final) > 0.02*rise {
		t.Errorf("it comes to %.2f °C, judged to %.2f", w.Celsius, a.Final)
	}
	w.Celsius = q.Ambient
	for range 1000 {
		w.Pass(row, w.Seconds/1000)
	}
	if part := (w.Celsius - q.Ambient) / (a.Final - q.Ambient); part < 0.6 || part > 0.7 {
		t.Errorf("after a time constant it is at %.3f of the way", part)
	}
	for range 10 {
		w.Pass(sequence.Row{}, w.Seconds)
	}
	if math.Abs(w.Celsius-q.Ambient) > 0.01 {
		t.Errorf("off for ten time constants it is at %.3f °C", w.Celsius)
	}
}
