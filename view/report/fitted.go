package report

import "fmt"

// RatesFitted is a measured start–stop rate that the inertia was fitted to.
type RatesFitted struct {
	Starts float64 `json:"starts"`
	Text   string  `json:"text"` // "" where there is nothing to be added
}

// fitsTo is what a fit comes to of what was measured, at least.
const fitsTo = 0.98

// Fit says what a measured start–stop rate became. It is the rate that a bench gets to
// upwards: a resonance below, where the motor would not start, may have been passed
// over, and then the start–stop rate here is that below the resonance.
func (r *Rates) Fit(measured float64) {
	r.Fitted = &RatesFitted{Starts: measured}
	if r.rates.StartStop >= fitsTo*measured || len(r.rates.Windows) == 0 {
		return
	}
	ends := "there is none up to which all rates start"
	if r.StartStop > 0 {
		ends = "the start–stop rate, up to which all rates start, is that below them, " + rowsTold(r.StartStop)
	}
	r.Fitted.Text = fmt.Sprintf("the inertia was fitted so that it starts up to %s as measured, over the holes below that; %s", rowsGiven(measured), ends)
}
