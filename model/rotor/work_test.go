package rotor

import "testing"

// Each row that comes on asks the equations anew, and each step asks them several
// times: what limits a trial counts up.
func TestWorkIsCounted(t *testing.T) {
	p := unipolarMotor(t)
	m := begun(&p, 0, aRow)
	var all Work
	for _, row := range [...][4]float64{bRow, aRow, abRow} {
		before := m.Work()
		m.Energise(row)
		come := m.Work()
		if come.Evaluations <= before.Evaluations || come.Steps != before.Steps {
			t.Errorf("a row: from %+v to %+v", before, come)
		}
		if err := m.Advance(m.State().Seconds + 1e-4); err != nil {
			t.Fatal(err)
		}
		// Eleven stages of the pair (Dormand, Prince: DOP853) for each step that is tried, and
		// the slope at the end of one that is taken.
		gone := m.Work()
		steps, refused := gone.Steps-come.Steps, gone.Refused-come.Refused
		if steps < 1 || refused < 0 || gone.Evaluations-come.Evaluations < 12*steps+11*refused {
			t.Errorf("a tenth of a millisecond: from %+v to %+v", come, gone)
		}
		all.Refused += refused
	}
	if all.Refused == 0 {
		t.Error("no step was refused: it counts none of them")
	}
}
