package quantity

// value is what every quantity can do, whatever its dimension, so that a test
// can go over all of them.
type value interface {
	Base() float64
	Given() bool
	String() string
	Rounded(int) string
	Type() string
	MarshalText() ([]byte, error)
}

// probe is one dimension with its functions, for tests of all dimensions.
type probe struct {
	*kind
	parse     func(text string) (value, error)
	unmarshal func(text []byte) (value, error)
	make      func(v float64, u *unit) value
	inBase    func(v float64) value
}

func probeOf[D dimension](inBase func(float64) Quantity[D]) probe {
	return probe{
		kind:  kindOf[D](),
		parse: func(text string) (value, error) { return Parse[D](text) },
		unmarshal: func(text []byte) (value, error) {
			q := inBase(77) // what is read must replace what was there
			err := q.UnmarshalText(text)
			return q, err
		},
		make:   func(v float64, u *unit) value { return written[D](v, u) },
		inBase: func(v float64) value { return inBase(v) },
	}
}

var every = []probe{
	probeOf(Volts), probeOf(Amperes), probeOf(Ohms), probeOf(Henries), probeOf(Watts), probeOf(NewtonMetres),
	probeOf(KilogramSquareMetres), probeOf(Degrees), probeOf(PerSecond), probeOf(Seconds), probeOf(DegreesCelsius), probeOf(KelvinPerWatt),
}

func probeFor(name string) probe {
	for _, p := range every {
		if p.name == name {
			return p
		}
	}
	panic("no dimension " + name)
}
