package power

import (
	"math"
	"testing"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/sequence"
)

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }

// asks puts a question about a built-in motor.
func asks(t testing.TB, name, stage, supply string, change func(q *Question)) Question {
	t.Helper()
	m, ok := motor.BuiltIn(name)
	if !ok {
		t.Fatalf("no motor %s", name)
	}
	s, err := driver.Named(stage)
	if err != nil {
		t.Fatal(err)
	}
	var v driver.Supply
	if supply != "" {
		if v, err = driver.ParseSupply(supply); err != nil {
			t.Fatal(err)
		}
	}
	q, err := Ask(m, s, v)
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(&q)
	}
	return q
}

func judged(t testing.TB, q Question) *Answer {
	t.Helper()
	a, err := Judge(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func inMode(m sequence.Mode) func(q *Question) { return func(q *Question) { q.Mode = m } }
