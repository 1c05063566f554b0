package main

import "testing"

// So many rows a second, as a plain number or with a unit, are one rate.
func TestRatesOfRows(t *testing.T) {
	for text, want := range map[string]float64{"600": 600, " 600 ": 600, "600/s": 600, "0.6kHz": 600, "1e3": 1000, "x": -1, "": -1, "NaN": -1, "inf": -1, "600V": -1, "600 /min": -1} {
		var r rowRate
		if err := r.Set(text); (err == nil) != (want >= 0) || err == nil && r.Base() != want {
			t.Errorf("%q is read as %v rows a second, %v; want %v", text, r.Base(), err, want)
		}
	}
}
