package quantity

import "testing"

// As a person at a bench may write it; a unit of something else is no rate.
func TestRows(t *testing.T) {
	for text, want := range map[string]float64{"600": 600, " 600/s": 600, "600 rows/s": 600, "600rows/s": 600, "0.5": 0.5, "1.2k/s": 0, "1e3": 1000, "6kHz": 6000,
		"": 0, "0": 0, "-3": 0, "600 rpm": 0, "600 V": 0, "inf": 0, "nan": 0, "rows/s": 0, "1e400": 0} {
		got, err := Rows(text)
		if got != want || (err == nil) != (want > 0) {
			t.Errorf("%q: %v, %v, want %v", text, got, err, want)
		}
	}
}
