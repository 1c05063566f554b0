package motor

import (
	"reflect"
	"testing"

	"coilwalk/sequence"
)

// windings are the four kinds that a two-phase motor comes in.
var windings = map[int]Winding{
	4: {Ends: [4]Lead{"a+", "b+", "a-", "b-"}},
	5: {Ends: [4]Lead{"a+", "b+", "a-", "b-"}, Common: "c"},
	6: {Ends: [4]Lead{"a+", "b+", "a-", "b-"}, Taps: [2]Lead{"a0", "b0"}},
	8: {Ends: [4]Lead{"a+", "b+", "a-", "b-"}, Inner: [4]Lead{"ia+", "ib+", "ia-", "ib-"}},
}

func TestLeads(t *testing.T) {
	for n, want := range map[int][]Lead{
		4: {"a+", "b+", "a-", "b-"},
		5: {"a+", "b+", "a-", "b-", "c"},
		6: {"a+", "b+", "a-", "b-", "a0", "b0"},
		8: {"a+", "b+", "a-", "b-", "ia+", "ib+", "ia-", "ib-"},
	} {
		if got := windings[n].Leads(); !reflect.DeepEqual(got, want) {
			t.Errorf("%d leads: %v, want %v", n, got, want)
		}
	}
}

// 4 leads: two isolated pairs, bipolar only; 8 leads: unipolar, in series or in
// parallel (Nippon Pulse, FAQ on rotary hybrid stepper motors). 5 leads: every
// coil ends at one common (I. Harries, Imperial College, "Other Stepper
// Motors"), so no bridge can reverse one phase alone. 6 leads: either.
func TestDrivesAndAllows(t *testing.T) {
	const (
		uni, bi = sequence.Unipolar, sequence.Bipolar
		noTap   = "a 4-lead motor has no tap to put to the supply, so its drive is bipolar"
		joined  = "the common of a 5-lead motor joins both phases, so its drive is unipolar"
	)
	for n, want := range map[int]struct {
		drives  []sequence.Drive
		refused map[sequence.Drive]string
	}{
		4: {[]sequence.Drive{bi}, map[sequence.Drive]string{uni: noTap}},
		5: {[]sequence.Drive{uni}, map[sequence.Drive]string{bi: joined}},
		6: {[]sequence.Drive{uni, bi}, nil},
		8: {[]sequence.Drive{uni, bi}, nil},
	} {
		w := windings[n]
		if got := w.Drives(); !reflect.DeepEqual(got, want.drives) {
			t.Errorf("%d leads: drives %v, want %v", n, got, want.drives)
		}
		for _, d := range sequence.Drives {
			err := w.Allows(d)
			if refused := want.refused[d]; (err != nil) != (refused != "") || err != nil && err.Error() != refused {
				t.Errorf("%d leads, %s: %v, want %q", n, d, err, refused)
			}
		}
	}
}

func TestSupply(t *testing.T) {
	for _, c := range []struct {
		leads int
		drive sequence.Drive
		want  string
	}{
		{4, sequence.Bipolar, "no tap"},
		{5, sequence.Unipolar, "common c to the supply"},
		{6, sequence.Unipolar, "taps a0 and b0 to the supply"},
		{6, sequence.Bipolar, "taps a0 and b0 open, insulated"},
		{8, sequence.Unipolar, "inner ends ia+ ib+ ia- ib- to the supply"},
		{8, sequence.Bipolar, "halves in series: join ia+ with ia-, ib+ with ib-"},
	} {
		if got := windings[c.leads].Supply(c.drive); got != c.want {
			t.Errorf("%d leads, %s: %q, want %q", c.leads, c.drive, got, c.want)
		}
	}
}

// The sheet of an 8-lead hybrid of 57 mm (connection table, 2007-05-13, rev. A)
// has phase A in the halves red-yellow and blue-black, phase B in white-orange
// and brown-green, and joins yellow with blue and orange with brown in series.
func TestSeriesJoinsHalvesOfOnePhase(t *testing.T) {
	w := Winding{Ends: [4]Lead{"RD", "WH", "BK", "GN"}, Inner: [4]Lead{"YE", "OG", "BU", "BN"}}
	if got, want := w.Supply(sequence.Bipolar), "halves in series: join YE with BU, OG with BN"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
