package sequence

// Half is half step: one phase and two phases on in turn, so that the holding
// torque goes 1 : √2 : 1 from row to row.
var Half = Mode{Name: "half", Title: "half step", PerStep: 2,
	phases: func(_ Mode, k int) Field { return turned(Field{A: 1, B: float64(k % 2)}, k/2) }}
