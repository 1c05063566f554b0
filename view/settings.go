// Package view is the explorer: screens on one bench, drawn for a terminal.
// The router is in explorer.go, each screen in a file of its own.
package view

import (
	"io"
	"time"

	"coilwalk/view/keys"
	"coilwalk/view/picture"
)

// Settings are how the explorer looks and moves.
type Settings struct {
	Theme  *picture.Theme
	Depth  picture.Depth
	ASCII  bool         // only ASCII marks
	Still  bool         // no movement between rests
	Keys   []keys.Group // what a person gave other keys; nil for none
	Tour   bool         // begin with the walk-through
	Seed   uint64       // of practice; 0 for one from the clock
	Notice string       // what was wrong with the settings; "" for nothing
	Now    func() time.Time

	Terminal io.Writer // what the pictures go to, as an *Outlet, for what is no picture too; may be nil
}

// What the explorer's look and timing rest on.
const (
	minWidth  = 80
	minHeight = 24

	frameRate = 30                     // pictures a second while something moves: a terminal shows no more
	easeTime  = 220 * time.Millisecond // a turn from rest to rest: long enough to see, short enough to wait for
	easeShare = 0.8                    // of the time between rows that a turn may take while running
	readTime  = 125 * time.Millisecond // between figures of a run: what changes faster can not be read
	readRate  = 15.0                   // rows a second as shown: a slower row is told of when it comes
	stillTime = 400 * time.Millisecond // between pictures of a run where nothing is to move: below three changes a second, as WCAG 2.1, 2.3.1, has it for flashes
	busyTime  = 100 * time.Millisecond // between pictures while something runs beside the screen
	farthest  = 720.0                  // electrical degrees: a turn by more is shown at once, as it would only blur
)
