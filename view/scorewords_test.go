package view

import (
	"testing"

	"coilwalk/sequence"
	"coilwalk/view/picture"
	"coilwalk/view/practice"
)

// After a long sitting the score still stands beside the title, in 80 columns.
func TestTheScoreHasRoomBesideItsTitle(t *testing.T) {
	scores := [len(sequence.Modes)]practice.Score{{Right: 41, Asked: 44}, {Right: 38, Asked: 40, Streak: 12}, {Right: 9, Asked: 10, Streak: 3}}
	now := sequence.Modes[1]
	words := scoreWords(scores, now)
	if want := "88 of 94: wave 41/44, full 38/40, half 9/10; 12 in a row"; words != want {
		t.Errorf("%q, want %q", words, want)
	}
	if w := picture.Width(" practice, "+now.Title+" ") + picture.Width(" "+words+" "); w > 79 { // their blanks may lie on one another
		t.Errorf("title and score are %d columns wide", w)
	}
}
