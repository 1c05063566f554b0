package sequence

import "strings"

// End is one end of a coil: in a unipolar winding the end of the half-coil
// that a driver output sinks, in a bipolar one a terminal of the coil.
type End int

// The four ends in field order.
const (
	APlus End = iota
	BPlus
	AMinus
	BMinus
)

// Ends lists the four ends in field order.
var Ends = [4]End{APlus, BPlus, AMinus, BMinus}

var endNames = [4]string{"A+", "B+", "A-", "B-"}

// String gives the name in ASCII, as JSON and files have it: "A-".
func (e End) String() string { return endNames[e] }

// Axis gives the field angle, in electrical degrees, of this end alone.
func (e End) Axis() int { return 90 * int(e) }

// Opposite gives the other end of the same phase.
func (e End) Opposite() End { return (e + 2) % 4 }

// Phase gives 0 for phase A and 1 for phase B.
func (e End) Phase() int { return int(e) % 2 }

// ParseEnd reads "A+", "b-" or "B−" (with a minus sign); ok is false otherwise.
func ParseEnd(text string) (e End, ok bool) {
	text = strings.ToUpper(strings.ReplaceAll(strings.TrimSpace(text), "−", "-"))
	for i, name := range endNames {
		if text == name {
			return End(i), true
		}
	}
	return 0, false
}
