package rotor

import "coilwalk/sequence"

// Sensitive is what a rate would be if an estimated figure were half or twice
// what it was taken for.
type Sensitive struct {
	Estimate
	Half, Twice CurvePoint
}

// Sensitivity runs a plant again with each estimated figure halved and doubled,
// under the load that it has. Figures that can not be changed so are left out.
func Sensitivity(p Plant, estimates []Estimate, mode sequence.Mode) (list []Sensitive) {
	for _, e := range estimates {
		s := Sensitive{Estimate: e}
		changed := false
		for k, factor := range []float64{0.5, 2} {
			q := p
			switch e.Figure {
			case "inertia":
				q.Inertia *= factor
			case "damping":
				q.Damping *= factor
			case "detent_torque":
				q.Detent *= factor
			case "inductance":
				q.Inductance *= factor
			default:
				continue
			}
			changed = true
			points, _ := Curve(q, mode, []float64{p.Load.Torque}, nil)
			if k == 0 {
				s.Half = points[0]
			} else {
				s.Twice = points[0]
			}
		}
		if changed {
			list = append(list, s)
		}
	}
	return list
}
