package sequence

// Wave is wave drive: one phase on at a time.
var Wave = Mode{Name: "wave", Title: "wave drive", PerStep: 1,
	phases: func(_ Mode, k int) Field { return turned(Field{A: 1}, k) }}
