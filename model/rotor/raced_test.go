package rotor

import "os"

// raced says that this is the pass for the race detector, which takes ten times as
// long and looks only at what is done at once: where that is nothing, and every
// draw goes through the same code, a few draws do.
var raced = os.Getenv("COILWALK_RACE") != ""
