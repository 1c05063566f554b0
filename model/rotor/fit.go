package rotor

import (
	"fmt"
	"math"

	"coilwalk/model/files"
	"coilwalk/model/quantity"
	"coilwalk/sequence"
)

// fits replaces the estimates of figures that were fitted.
func fits(estimates []Estimate, fitted ...Estimate) []Estimate {
	var list []Estimate
	for _, e := range estimates {
		replaced := false
		for _, f := range fitted {
			replaced = replaced || f.Figure == e.Figure
		}
		if !replaced {
			list = append(list, e)
		}
	}
	return append(list, fitted...)
}

// FitRing sets the inertia of the rotor so that it rings at a measured frequency
// with one phase on: J = p·(T1 + 4·Td)/(2πf)², less that of the load (Jones,
// "Stepping Motor Physics", Resonance, solved for the inertia; with a detent at
// the one-phase positions its stiffness counts four times).
func (p *Plant) FitRing(hz float64, estimates []Estimate) ([]Estimate, error) {
	omega := 2 * math.Pi * hz
	stiffness := 1 + 4*math.Cos(p.DetentShift*math.Pi/180)*p.Detent/p.OnePhase()
	inertia := float64(p.PolePairs)*p.OnePhase()*stiffness/(omega*omega) - p.Load.Inertia/(p.Ratio*p.Ratio)
	if !(inertia > 0) || math.IsInf(inertia, 0) {
		return nil, &files.Complaint{What: fmt.Sprintf("a ring of %g Hz fits no inertia above none", hz), Right: "measure it with one phase on, without what hangs on the shaft"}
	}
	p.Inertia = inertia
	return fits(estimates, Estimate{"inertia", inertia, quantity.KilogramSquareMetres(inertia).Rounded(3), fmt.Sprintf("fitted to a ring of %g Hz with one phase on", hz)}), nil
}

// FitStart sets the inertia of the rotor so that the start–stop rate under the
// plant's load is a measured one, in rows a second, to a hundredth.
func (p *Plant) FitStart(rate float64, mode sequence.Mode, estimates []Estimate) ([]Estimate, error) {
	was := p.Inertia
	starts := func(inertia float64) float64 {
		q := *p
		q.Inertia = inertia
		t := NewTrials(q, mode)
		t.Load(q.Load.Torque)
		return t.startStop(0)
	}
	light, heavy := was, was
	fast := starts(was)
	slow := fast
	for range 12 { // a lighter rotor starts faster
		if fast >= rate {
			break
		}
		light /= 2
		fast = starts(light)
	}
	for range 12 {
		if slow <= rate {
			break
		}
		heavy *= 2
		slow = starts(heavy)
	}
	if fast < rate || slow > rate {
		return nil, &files.Complaint{What: fmt.Sprintf("no inertia makes the motor start at up to %g rows/s and no further", rate), Right: "is this rate in rows a second of the step mode, and the supply the one it was measured with?"}
	}
	for heavy/light > 1.01 {
		mid := math.Sqrt(light * heavy)
		if starts(mid) >= rate {
			light = mid
		} else {
			heavy = mid
		}
	}
	p.Inertia = math.Sqrt(light * heavy)
	return fits(estimates, Estimate{"inertia", p.Inertia, quantity.KilogramSquareMetres(p.Inertia).Rounded(3), fmt.Sprintf("fitted to a start–stop rate of %g rows/s", rate)}), nil
}
