package report

import (
	"strings"
	"testing"

	"coilwalk/model/bench"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

// A rotor that friction holds off the field is not told to be at rest in it.
func TestARotorHeldOffIsNotInTheField(t *testing.T) {
	m, _ := motor.BuiltIn("vent-flap")
	b := bench.New(m)
	b.SetMode(sequence.Full)
	b.SetMode(sequence.Half) // whose row of 45° is on already
	r := b.Read()
	words, _ := Happened(b)
	if lag := r.Lag; !r.LagOK || lag < 1 && lag > -1 {
		t.Fatalf("the rotor lags %.2f°: nothing to tell", r.Lag)
	}
	if strings.Contains(words, "at rest in it") || !strings.Contains(words, "electrical") {
		t.Errorf("%.2f° off the field: %s", r.Lag, words)
	}
}
