package wiring

import (
	"fmt"
	"math/rand/v2"

	"coilwalk/model/motor"
)

// This simulator of a motor on a bench knows nothing of the inference: what a
// meter sees between two leads is written down anew, kind by kind, on leads
// numbered by their place in the motor.
//
//	4 leads: 0-1 and 2-3 are coils
//	5 leads: 0 to 3 are ends, 4 the common
//	6 leads: 0, 1 ends and 2 tap of one phase, 3, 4 ends and 5 tap of the other
//	8 leads: 0-1, 2-3, 4-5 and 6-7 are halves
type benchMotor struct {
	leads int
	ohm   float64
	broke int // this lead reads open to everything; −1 for none
}

// truth gives the ohms between two places, and whether it reads open.
func (m benchMotor) truth(a, b int) (ohm float64, open bool) {
	if a > b {
		a, b = b, a
	}
	if a == m.broke || b == m.broke {
		return 0, true
	}
	switch m.leads {
	case 4, 8:
		return m.ohm, a/2 != b/2
	case 5:
		if b == 4 {
			return m.ohm, false
		}
		return 2 * m.ohm, false
	}
	if a/3 != b/3 {
		return 0, true
	}
	if b%3 == 2 {
		return m.ohm, false
	}
	return 2 * m.ohm, false
}

// person takes readings: in random order, with an error of the meter, with its
// leads' resistance, some left out, under names of its own.
type person struct {
	*rand.Rand
	noise  float64 // ± of the reading, evenly spread
	leave  float64 // share of readings left out
	meter  float64 // ohm of the meter leads
	naming []int   // place in the motor → number of the name
}

func name(i int) motor.Lead { return motor.Lead(fmt.Sprintf("lead%c", 'a'+i)) }

func (p *person) read(m benchMotor) (readings []Reading, taken map[[2]int]bool) {
	taken = map[[2]int]bool{}
	for a := range m.leads {
		for b := a + 1; b < m.leads; b++ {
			if p.Float64() < p.leave {
				continue
			}
			taken[[2]int{a, b}] = true
			ohm, open := m.truth(a, b)
			r := Reading{A: name(p.naming[a]), B: name(p.naming[b]), Open: open}
			if !open {
				r.Ohm = (ohm + p.meter) * (1 + p.noise*(2*p.Float64()-1))
			}
			if p.IntN(2) == 0 {
				r.A, r.B = r.B, r.A
			}
			readings = append(readings, r)
		}
	}
	p.Shuffle(len(readings), func(i, k int) { readings[i], readings[k] = readings[k], readings[i] })
	return readings, taken
}

// sees gives what the pattern of a motor looks like to a meter without error:
// 0 open, 1 or 2 half-coils.
func (m benchMotor) sees(a, b int) int {
	ohm, open := m.truth(a, b)
	if open {
		return 0
	}
	return int(ohm/m.ohm + 0.5)
}
