package quantity

// The dimensions are types without content: they keep a torque out of the place
// of an inertia when the program is compiled.
type (
	voltage     struct{}
	current     struct{}
	resistance  struct{}
	inductance  struct{}
	power       struct{}
	torque      struct{}
	inertia     struct{}
	angle       struct{}
	rate        struct{}
	duration    struct{}
	temperature struct{}
	thermal     struct{}
)

// dimension is any of them; the set is closed, so every one has its kind.
type dimension interface {
	voltage | current | resistance | inductance | power | torque | inertia | angle | rate | duration | temperature | thermal
}

// kind is all there is to know of one dimension.
type kind struct {
	of    any    // the dimension
	name  string // "torque"
	floor string // what the least of each unit is called; "" where there is no least
	units []unit // the first is an everyday one: it serves for examples and for 0
}

// unit is one unit of a dimension, with its way to the base unit:
// base = (value × times - shift) / over.
//
// Two factors, not one: v / 1000 is rounded once, v × 0.001 twice, and 34 mN.m
// shall be 0.034 N.m to the last bit.
type unit struct {
	name        string // canonical; a "." may be written in other ways, or left out
	role        role
	times, over float64
	shift       float64
	least       float64  // in this unit, where the kind has a floor
	also        []string // other spellings
}

// role says what a unit is used for besides reading.
type role uint8

const (
	base role = 1 << iota // the unit of Base
	told                  // named in messages; too long a list helps nobody
	rung                  // one that Rounded may pick
)

func (u *unit) toBase(v float64) float64   { return (v*u.times - u.shift) / u.over }
func (u *unit) fromBase(v float64) float64 { return (v*u.over + u.shift) / u.times }

// kindOf gives the kind of a dimension.
func kindOf[D dimension]() *kind {
	var d D
	for i := range kinds {
		if kinds[i].of == any(d) {
			return &kinds[i]
		}
	}
	panic("quantity: a dimension without a kind") // a fault of the table, not of any input
}

// base gives the base unit.
func (k *kind) base() *unit {
	for i := range k.units {
		if k.units[i].role&base != 0 {
			return &k.units[i]
		}
	}
	panic("quantity: a kind without a base unit") // a fault of the table, not of any input
}
