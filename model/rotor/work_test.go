package rotor

import "testing"

// Each row that comes on asks the equations anew, and each step asks them several
// times: what limits a trial counts up.
func TestWorkIsCounted(t *testing.T) {
	p := unipolarMotor(t)
	m := begun(&p, 0, aRow)
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
		if gone := m.Work(); gone.Steps <= come.Steps || gone.Evaluations < come.Evaluations+6*(gone.Steps-come.Steps) {
			t.Errorf("a tenth of a millisecond: from %+v to %+v", come, gone)
		}
	}
}
