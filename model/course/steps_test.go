package course

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

// module writes a VCD of a driver module's lines in nanoseconds.
type module struct {
	b  strings.Builder
	at int64
}

func newModule() *module {
	m := &module{at: 1000}
	m.b.WriteString("$timescale 1ns $end\n$var wire 1 s STEP $end\n$var wire 1 d DIR $end\n$var wire 1 e ENABLE $end\n$enddefinitions $end\n#0\n0s\n0d\n1e\n")
	return m
}

func (m *module) set(line byte, level, wait int64) {
	fmt.Fprintf(&m.b, "#%d\n%d%c\n", m.at, level, line)
	m.at += wait
}

func (m *module) steps(n int, high, period int64) {
	for range n {
		m.set('s', 1, high)
		m.set('s', 0, period-high)
	}
}

func (m *module) read(t *testing.T, q StepLines) *StepTrain {
	t.Helper()
	text := m.b.String() + fmt.Sprintf("#%d\n", m.at)
	r, err := recording.Open("-", strings.NewReader(text), recording.Options{})
	if err != nil {
		t.Fatal(err)
	}
	train, err := ReadSteps(context.Background(), r, nil, q)
	if err != nil {
		t.Fatal(err)
	}
	return train
}

func about(got, want float64) bool { return math.Abs(got-want) < 1e-9*math.Abs(want)+1e-15 }

func TestStepsAndDirection(t *testing.T) {
	m := newModule()
	m.set('e', 0, 10_000)
	m.set('d', 1, 5_000) // 5 µs before the first step
	m.steps(200, 2_000, 250_000)
	m.set('d', 0, 700) // 248 µs after the last step began its rest, 0.7 µs before the next
	m.steps(50, 2_000, 500_000)
	m.set('e', 1, 100_000)
	m.steps(3, 2_000, 100_000)
	free := m.read(t, StepLines{Divide: 16})
	if len(free.Faults) != 0 || free.Forward != 200 || free.Backward != 53 || free.Disabled != 0 {
		t.Errorf("nothing stated: %+v", free)
	}
	judged := m.read(t, StepLines{Divide: 16, Enable: Low, Setup: 1e-6, Pulse: 1e-6})
	if judged.Forward != 200 || judged.Backward != 50 || judged.Disabled != 3 || !about(judged.Position(16), 150.0/16) {
		t.Errorf("%d forward, %d back, %d disabled, position %v", judged.Forward, judged.Backward, judged.Disabled, judged.Position(16))
	}
	if !about(judged.Setup, 700e-9) || !about(judged.Hold, 250e-6) || !about(judged.Pulse, 2e-6) {
		t.Errorf("setup %v, hold %v, pulse %v", judged.Setup, judged.Hold, judged.Pulse)
	}
	var kinds []string
	for _, f := range judged.Faults {
		kinds = append(kinds, f.Kind)
	}
	if got := strings.Join(kinds, " "); got != "short-setup disabled" || judged.Faults[0].Row != 201 {
		t.Errorf("faults %q at step %d", got, judged.Faults[0].Row)
	}
	if r := judged.Runs; len(r) != 2 || r[0].Rows != 200 || !about(r[0].Median, 4000) || r[1].Rows != 50 || !about(r[1].Median, 2000) || r[1].Direction != -1 {
		t.Errorf("runs %+v", r)
	}
}

// The edge that counts may be the falling one: a short high pulse is then the
// rest between steps.
func TestFallingEdges(t *testing.T) {
	m := newModule()
	m.set('s', 1, 50_000) // at rest high
	for range 10 {
		m.set('s', 0, 3_000)
		m.set('s', 1, 97_000)
	}
	m.set('s', 0, 200)
	m.set('s', 1, 99_800)
	train := m.read(t, StepLines{Falling: true})
	if train.Backward != 11 || train.Runts != 1 || !about(train.Pulse, 200e-9) || !about(train.Rest, 97e-6) {
		t.Errorf("%+v", train)
	}
}
