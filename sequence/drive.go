package sequence

// Drive is how the winding is fed, which decides what an output that is on
// does to its coil end.
type Drive int

const (
	// Unipolar: four half-coils share a common at the supply, and an output
	// that is on sinks its half-coil. Both halves of a phase on leave no field
	// from that phase and cost twice its heat.
	Unipolar Drive = iota
	// Bipolar: two coils between bridge outputs, and an output that is on puts
	// its terminal to the supply, one that is off to ground. Both terminals
	// alike leave the coil without current, and braked.
	Bipolar
)

// Drives lists the drives.
var Drives = [2]Drive{Unipolar, Bipolar}

// String gives "unipolar" or "bipolar".
func (d Drive) String() string {
	if d == Bipolar {
		return "bipolar"
	}
	return "unipolar"
}
