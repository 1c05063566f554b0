package wiring

import (
	"fmt"
	"slices"
	"strings"

	"coilwalk/model/motor"
)

// Settlement is what to do with a mapping that can be trusted: how to make the
// driver's forward order turn the shaft clockwise, and how to prove it.
type Settlement struct {
	Mapping
	Outputs [4]motor.Lead   // on outputs 1 to 4, from the end of the order that moves fewest leads
	Swaps   [][2]motor.Lead // exchanges at the plug that lead there from what is on the outputs now; none when it is right or not known
	Columns [4]int          // or in firmware: the column that drives outputs 1 to 4 as the leads are now, from 1; 0 when that is not known
	Prove   string
	Rows    int // each way in the proof; 0 where that can not be counted
}

// Settle says what to do with the likeliest mapping. Now are the leads on
// outputs 1 to 4 as they are wired; empty where that is not known. The driver is
// taken to send its order A+ B+ A- B- on outputs 1 to 4, unless lamps said
// otherwise.
func (s *Sitting) Settle(now [4]motor.Lead) Settlement {
	best := s.Mappings()[0]
	out := Settlement{Mapping: best, Outputs: best.Order}
	rows := s.lamps()
	place := func(rotation int) (leads [4]motor.Lead) { // the lead for each output
		for row := range 4 {
			leads[rows[row]] = best.Order[(row+rotation)%4]
		}
		return leads
	}
	out.Outputs = place(0)
	if s.wired(now) {
		fewest := len(now) + 1
		for rotation := range 4 {
			want := place(rotation)
			if swaps := exchanges(now, want); len(swaps) < fewest {
				fewest, out.Outputs, out.Swaps = len(swaps), want, swaps
			}
		}
		for k, lead := range now {
			out.Columns[k] = slices.Index(out.Outputs[:], lead) + 1
		}
	}
	out.Prove, out.Rows = s.topology.proof()
	return out
}

// wired says whether it is known which of the leads are on outputs 1 to 4.
func (s *Sitting) wired(now [4]motor.Lead) bool {
	for _, l := range now {
		if i, known := s.index[l]; !known || s.topology.halves && !slices.Contains(s.Mappings()[0].Order[:], s.topology.Leads[i]) {
			return false
		}
	}
	return true
}

// Meant says what a test means by a lead. Where leads are said to be on outputs, its
// output is: then an exchange at the plug shows as one of the leads that were said to be
// there. Else it is the lead itself, and so it is with halves, which are energised apart.
func (s *Sitting) Meant(now [4]motor.Lead) string {
	if s.topology.halves || !s.wired(now) {
		return "the lead itself is meant, whatever output it is on"
	}
	return fmt.Sprintf("by %s outputs 1 to 4 are meant, whatever hangs there", joined(now[:]))
}

// proof says how a mapping is proved, and with how many rows.
func (t *Topology) proof() (words string, rows int) {
	rows, counted := t.ProofRows()
	words = fmt.Sprintf("Send the order forward: the shaft must turn clockwise. Mark it, send %s forward (of wave drive or full step; of half step twice as many) and as many in reverse: it goes back, and the mark is where it was", t.far(rows, counted))
	if t.Geared {
		words += ", less the play"
	}
	return words + ". Only such a pair proves a mapping: a wrong one may turn by chance or with the load.", rows
}

// lamps gives, for each row of wave drive from 0, the output that lights: as the
// lamps said, else its own number. A row that no lamp told takes an output that
// is left, and so does one of which lamps say this and that.
func (s *Sitting) lamps() (rows [4]int) {
	told := [4]int{-1, -1, -1, -1}
	used := [4]bool{}
	for _, r := range s.replies {
		if r.Test == Lamp && !slices.ContainsFunc(s.replies, r.clashes) {
			told[r.Row-1], used[r.Output-1] = r.Output-1, true
		}
	}
	for row := range told {
		if told[row] < 0 && !used[row] {
			told[row], used[row] = row, true
		}
	}
	for row := range told {
		if told[row] < 0 {
			o := slices.Index(used[:], false)
			told[row], used[o] = o, true
		}
	}
	return told
}

// exchanges gives the fewest exchanges of two leads that lead from one order to
// another: each puts one lead right for good.
func exchanges(now, want [4]motor.Lead) (swaps [][2]motor.Lead) {
	for k := range want {
		if now[k] == want[k] {
			continue
		}
		i := slices.Index(now[:], want[k])
		swaps = append(swaps, [2]motor.Lead{now[k], now[i]})
		now[k], now[i] = now[i], now[k]
	}
	return swaps
}

// Text puts a settlement into words, a line a thing to do.
func (s Settlement) Text() []string {
	lines := []string{fmt.Sprintf("On outputs 1 to 4: %s.", joined(s.Outputs[:]))}
	if len(s.Swaps) > 0 {
		var parts []string
		var now [4]motor.Lead
		for k, column := range s.Columns {
			now[k] = s.Outputs[column-1]
		}
		for _, pair := range s.Swaps {
			i, k := slices.Index(now[:], pair[0]), slices.Index(now[:], pair[1])
			parts = append(parts, fmt.Sprintf("%s with %s (outputs %d, %d)", pair[0], pair[1], min(i, k)+1, max(i, k)+1))
			now[i], now[k] = now[k], now[i]
		}
		lines = append(lines, fmt.Sprintf("As it is wired: supply off, exchange %s at the plug; or leave the plug, and let the outputs 1 to 4 be driven by columns %d %d %d %d of the table. Either cures it.", strings.Join(parts, ", then "), s.Columns[0], s.Columns[1], s.Columns[2], s.Columns[3]))
	} else if s.Columns[0] > 0 {
		lines = append(lines, "So it is wired already.")
	}
	for _, j := range s.Joins {
		lines = append(lines, fmt.Sprintf("Join %s with %s: the joint is the tap (unipolar: to the supply; bipolar: left alone, halves in series).", j[0], j[1]))
	}
	return append(lines, s.Prove)
}

func joined(leads []motor.Lead) string {
	words := make([]string, len(leads))
	for i, l := range leads {
		words[i] = string(l)
	}
	return strings.Join(words, " ")
}
