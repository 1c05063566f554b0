package quantity

// Set reads a quantity from a command line; with String and Type it makes a
// *Quantity a flag value. On an error the quantity stays as it was.
func (q *Quantity[D]) Set(text string) error {
	read, err := Parse[D](text)
	if err != nil {
		return err
	}
	*q = read
	return nil
}

// Type gives the name of the dimension, as "torque".
func (q Quantity[D]) Type() string { return kindOf[D]().name }

// MarshalText gives the text that UnmarshalText reads back without loss, unit
// included; it is empty for a quantity that is not given. A computed value that
// Parse would refuse (not a number, beyond 1e15, below absolute zero) is an
// error, so that no file is written that can not be read.
func (q Quantity[D]) MarshalText() ([]byte, error) {
	if q.unit == nil {
		return []byte{}, nil
	}
	text := q.String()
	if err := kindOf[D]().check(q.value, q.unit, text); err != nil {
		return nil, err
	}
	return []byte(text), nil
}

// UnmarshalText reads a quantity as Parse does, and an empty text as one that
// is not given. On an error the quantity stays as it was.
func (q *Quantity[D]) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*q = Quantity[D]{}
		return nil
	}
	return q.Set(string(text))
}
