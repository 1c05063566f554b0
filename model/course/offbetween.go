package course

// withoutOff takes the rows out that are off between every two others: firmware
// that drops its coils after each row.
func (v *Verdict) withoutOff(c *Course, t *turns) *Course {
	idle := 0
	if v.Active == Low {
		idle = 15
	}
	offs := 0
	for from := range t.count {
		offs += t.count[from][idle]
	}
	if t.all < 8 || float64(offs) < 0.4*float64(t.all) {
		return c
	}
	out := &Course{Tick: c.Tick, First: c.First, Until: c.Until}
	for i := range c.n {
		if r := c.Row(i); r.Levels != uint8(idle) || r.Flags != 0 || i == 0 || i+1 == c.n {
			if out.n == 0 || out.Row(out.n-1).Levels != r.Levels {
				out.add(r)
			}
		}
	}
	*t = turnsOf(out)
	v.Course = out
	v.Notes = append(v.Notes, "After each row all outputs are off for a while, and nothing holds the rotor then; the rows between are judged.")
	return out
}
