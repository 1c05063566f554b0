package motor

import (
	"fmt"

	"coilwalk/sequence"
)

// Winding is a two-phase winding as its leads show it.
type Winding struct {
	Ends   [4]Lead // the outer ends in field order A+ B+ A- B-
	Common Lead    // 5 leads: the joined inner ends
	Taps   [2]Lead // 6 leads: the centre taps A0 and B0
	Inner  [4]Lead // 8 leads: the inner end of each half, in field order

	OrderGuessed bool // ohms told the leads, and the shaft has not told their order
}

// GuessedOrder says so.
const GuessedOrder = "the order of its leads is a guess: the shaft has yet to tell which lead goes where"

// Leads lists the leads: the ends in field order, then common, taps or inner
// ends.
func (w Winding) Leads() []Lead {
	leads := append([]Lead(nil), w.Ends[:]...)
	switch {
	case w.Common != "":
		return append(leads, w.Common)
	case w.Taps[0] != "":
		return append(leads, w.Taps[:]...)
	case w.Inner[0] != "":
		return append(leads, w.Inner[:]...)
	}
	return leads
}

// Drives gives the drives that the leads allow, the usual one first: four
// leads have no point that could go to the supply, five can not be parted.
func (w Winding) Drives() []sequence.Drive {
	switch len(w.Leads()) {
	case 4:
		return []sequence.Drive{sequence.Bipolar}
	case 5:
		return []sequence.Drive{sequence.Unipolar}
	}
	return []sequence.Drive{sequence.Unipolar, sequence.Bipolar}
}

// Allows says whether the leads allow a drive, and if not, why.
func (w Winding) Allows(d sequence.Drive) error {
	for _, can := range w.Drives() {
		if can == d {
			return nil
		}
	}
	if d == sequence.Unipolar {
		return fmt.Errorf("a 4-lead motor has no tap to put to the supply, so its drive is bipolar")
	}
	return fmt.Errorf("the common of a 5-lead motor joins both phases, so its drive is unipolar")
}

// Supply says where the inner ends go under a drive, in words.
func (w Winding) Supply(d sequence.Drive) string {
	switch {
	case w.Common != "":
		return "common " + string(w.Common) + " to the supply"
	case w.Taps[0] != "" && d == sequence.Unipolar:
		return fmt.Sprintf("taps %s and %s to the supply", w.Taps[0], w.Taps[1])
	case w.Taps[0] != "":
		return fmt.Sprintf("taps %s and %s open, insulated", w.Taps[0], w.Taps[1])
	case w.Inner[0] != "" && d == sequence.Unipolar:
		return fmt.Sprintf("inner ends %s %s %s %s to the supply", w.Inner[0], w.Inner[1], w.Inner[2], w.Inner[3])
	case w.Inner[0] != "":
		return fmt.Sprintf("halves in series: join %s with %s, %s with %s", w.Inner[0], w.Inner[2], w.Inner[1], w.Inner[3])
	}
	return "no tap"
}
