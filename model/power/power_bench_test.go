package power

import "testing"

// What a letter that is typed costs: at most a picture's time, 33 ms.
func BenchmarkBudgetSketch(b *testing.B) {
	q := asks(b, "geared-can", "darlington", "usb", nil)
	for b.Loop() {
		if _, err := Sketch(q); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(33e6, "allowed-ns")
}

// And what goes on beside the screen.

func BenchmarkTurning(b *testing.B) {
	q := asks(b, "geared-can", "darlington", "usb", func(q *Question) { q.Rate = 600 })
	for b.Loop() {
		if a, err := Judge(q); err != nil || !a.Followed {
			b.Fatal(err)
		}
	}
}

func BenchmarkAlternatives(b *testing.B) {
	q := asks(b, "hybrid-8", "chopper", "24V", nil)
	a := judged(b, q)
	for b.Loop() {
		if len(Cures(a)) == 0 || len(OnEach(q)) == 0 || len(InEach(q)) == 0 {
			b.Fatal("nothing else could be done")
		}
	}
}
