package bench

import "coilwalk/sequence"

// Release switches all outputs off until a row is energised, the present one first:
// the rotor is left to its detent, its load, and whoever turns it.
func (b *Bench) Release() {
	b.Stop()
	if b.now.off {
		return
	}
	b.remember()
	b.now.off = true
	b.energise()
}

// Released says whether all outputs are off.
func (b *Bench) Released() bool { return b.now.off }

// Copy gives a bench of its own, as this one stands: what is done to it may be
// looked at before it is taken.
func (b *Bench) Copy() *Bench {
	c := *b
	c.past = b.past[:len(b.past):len(b.past)]
	c.running, c.timed = false, nil
	return &c
}

// Ahead gives a cycle of rows as they follow one another the way Next goes, from
// the one that it energises: what is on the outputs, and what arrives at the coil
// ends.
func (b *Bench) Ahead() (outputs, coils []sequence.Row) {
	step := b.now.step
	for k := range b.now.order.Len() {
		if k > 0 || !b.now.off {
			step += int64(b.goes())
		}
		row := b.row(step)
		outputs = append(outputs, row)
		coils = append(coils, b.through(row))
	}
	return outputs, coils
}
