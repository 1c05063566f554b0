package sequence

// Full is full step with two phases on, which lies between the wave rows and
// holds √2 times as strongly.
var Full = Mode{Name: "full", Title: "full step", PerStep: 1, FirstAt: 45,
	phases: func(_ Mode, k int) Field { return turned(Field{A: 1, B: 1}, k) }}
