package picture

// EndNames are the coil ends in field order, as they are shown; their minus is a
// sign of its own where there is more than ASCII.
func EndNames(ascii bool) [4]string {
	if ascii {
		return [4]string{"A+", "B+", "A-", "B-"}
	}
	return [4]string{"A+", "B+", "A−", "B−"}
}

// PolesOf gives what each coil end turns to the rotor, in field order, of the
// currents of the two phases. A phase that carries current turns one pole to the
// rotor at the teeth of one end and the other pole at those of the other. The end
// that pulls the rotor's north pole is a south pole.
func PolesOf(a, b float64) (poles [4]Pole) {
	for phase, current := range [2]float64{a, b} {
		pole := NoPole
		if current > 0 {
			pole = SouthPole
		} else if current < 0 {
			pole = NorthPole
		}
		poles[phase], poles[phase+2] = pole, -pole
	}
	return poles
}
