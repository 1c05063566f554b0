package sequence

// Direction is the way the field goes round.
type Direction int

const (
	Standing Direction = 0  // it does not go round
	Forward  Direction = 1  // its angle rises
	Reverse  Direction = -1 // its angle falls
)

// String gives "forward", "reverse" or "none", the words of commands and JSON.
func (d Direction) String() string {
	switch d {
	case Forward:
		return "forward"
	case Reverse:
		return "reverse"
	}
	return "none"
}
