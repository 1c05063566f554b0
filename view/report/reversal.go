package report

import (
	"fmt"

	"coilwalk/model/rotor"
)

// RatesReversal is what comes of turning round at a rate, at once.
type RatesReversal struct {
	Rate   float64  `json:"rate"`
	Play   *float64 `json:"play_rows"`   // of the train, by its angle alone; null where it is not known
	Stands *float64 `json:"stands_rows"` // until the shaft goes back; null when it did not
	Lost   int64    `json:"lost_rows"`
	Text   string   `json:"text"`
}

// coasts is how many rows sooner than the play alone a shaft goes back that was
// not where the train had pushed it.
const coasts = 2

// AddReversal adds what comes of a reversal, of a train whose play is known or not.
func (r *Rates) AddReversal(v rotor.Reversal, known bool) {
	out := &RatesReversal{Rate: v.Rate, Lost: v.Lost}
	if play := perSecond(v.Play); known {
		out.Play = &play
	}
	if stands := perSecond(v.Stands); v.Stands > 0 {
		out.Stands = &stands
	}
	if v.Before {
		out.Text = fmt.Sprintf("it does not start at %s, so it can not be turned round there", rowsGiven(v.Rate))
		r.Reversal = out
		return
	}
	out.Text = fmt.Sprintf("turned round at once at %s ", rowsGiven(v.Rate))
	switch {
	case v.Stands == 0:
		out.Text += "the shaft does not go back"
	case known:
		out.Text += fmt.Sprintf("the shaft goes back after %s rows (its play alone is %s", Fixed(*out.Stands, 1), Fixed(*out.Play, 1))
		if *out.Stands < *out.Play-coasts {
			out.Text += "; what hangs there coasts on into it"
		}
		out.Text += ")"
	case r.motor.Train.Geared():
		out.Text += "it goes back with the rotor, as far as is known: no play of the train is given"
	case *out.Stands < 0.1:
		out.Text += "it goes back with the first row"
	default:
		out.Text += fmt.Sprintf("it goes back after %s rows", Fixed(*out.Stands, 1))
	}
	if v.Lost == 0 {
		out.Text += ", and no row is lost"
	} else {
		out.Text += fmt.Sprintf(", and %s rows are lost over it: turn round at a lower rate, or stop for a moment", Count(v.Lost))
	}
	r.Reversal = out
}
