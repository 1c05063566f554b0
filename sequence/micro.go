package sequence

import (
	"fmt"
	"math"
)

const microName = "micro"

// The divisors that microstepping modules offer lie within these.
const (
	MinDivide = 2
	MaxDivide = 256
)

// Micro is microstepping: a full step divided into as many rows as divide
// says, the currents following cosine and sine so that the strength stays 1.
// With levels > 0 each current is rounded to that many equal parts, as the
// converter of a real module does; the field then errs in angle and strength.
func Micro(divide, levels int) (Mode, error) {
	if divide < MinDivide || divide > MaxDivide {
		return Mode{}, fmt.Errorf("a full step can not be divided into %d; a divisor from %d to %d is wanted", divide, MinDivide, MaxDivide)
	}
	if levels < 0 || levels > 1<<16 {
		return Mode{}, fmt.Errorf("a current can not have %d levels; 0 for none, or 1 to 65536", levels)
	}
	return Mode{Name: microName, Title: fmt.Sprintf("microstep 1/%d", divide), PerStep: divide, Levels: levels, Shares: true, phases: sineRow}, nil
}

func sineRow(m Mode, k int) Field {
	within := k % m.PerStep
	f := Field{A: quarterCosine(within, m.PerStep), B: quarterCosine(m.PerStep-within, m.PerStep)}
	if m.Levels > 0 {
		n := float64(m.Levels)
		f = Field{A: math.Round(f.A*n) / n, B: math.Round(f.B*n) / n}
	}
	return turned(f, k/m.PerStep)
}

// quarterCosine gives cos(90°·k/n), exact at 0° and 90° and the same number
// for cos and sin at 45°, so that rows shared with the other modes agree.
func quarterCosine(k, n int) float64 {
	switch {
	case k == n:
		return 0
	case 2*k == n:
		return math.Sqrt2 / 2
	}
	return math.Cos(math.Pi / 2 * float64(k) / float64(n))
}
