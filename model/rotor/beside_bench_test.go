package rotor

import (
	"math"
	"os"
	"os/exec"
	"slices"
	"testing"
	"time"
)

// Ours beside solvers that are not ours: turn and turn about, each at its own
// time, ours at the loosest tolerance with which it errs no more than theirs.
// Errors are the largest of any sample, in the measures of columns. Ours runs as
// rates calls it: events are looked for, friction and dense output compiled in.

// BenchmarkBesideCVODE and BenchmarkBesideLSODA run a second of full steps of
// the bipolar machine at a relative tolerance of 1e-8. The absolute one is as
// tight as 1e-12 A, 1e-9 rad/s and 1e-12 rad, or even, so that it counts as much:
// then theirs has less to do. The truth is SciPy's DOP853 at 1e-12.
func BenchmarkBesideCVODE(b *testing.B) {
	needs(b, "gcc", "-fsyntax-only", "-include", "cvode/cvode.h", "-x", "c", os.DevNull)
	truth := twoPhasesTruth(b, 2.1e-3)
	for _, r := range []struct {
		name, corrector string
		absolute        float64
	}{
		{"fixed-point/tight", "fixed", 1e-10},
		{"fixed-point/even", "fixed", 1e-8},
		{"Newton/tight", "newton", 1e-10},
		{"Newton/even", "newton", 1e-8},
	} {
		b.Run(r.name, func(b *testing.B) {
			c, o := twoPhases(b)
			o.input = "ode/two-phases.c"
			c.Method, c.Tolerance, c.Absolute = r.corrector, 1e-8, r.absolute
			o.figures = c
			beside(b, c, &o, truth, truth, 10)
		})
	}
}

func BenchmarkBesideLSODA(b *testing.B) {
	for _, r := range []struct {
		name            string
		absolute, every float64
	}{{"tight", 1e-10, 2.1e-3}, {"even", 1e-8, 2.1e-3}, {"tight-10001-samples", 1e-10, 0.1e-3}} {
		b.Run(r.name, func(b *testing.B) {
			truth := twoPhasesTruth(b, r.every)
			c, o := twoPhases(b)
			c.Method, c.Tolerance, c.Absolute, c.Every = "LSODA", 1e-8, r.absolute, r.every
			o.figures = c
			beside(b, c, &o, truth, truth, 3) // a process each, and far from its bound
		})
	}
}

// BenchmarkBesideNgspice runs the unipolar machine with clamps and dry friction.
// The circuit is not quite our machine (unipolarCircuit), so each is held
// against its own truth: the circuit against itself at a hundredth of the
// tolerance and a fifth of the step, ours against itself at 1e-13.
func BenchmarkBesideNgspice(b *testing.B) {
	needs(b, "ngspice", "--version")
	c, o := unipolarCircuit(b)
	closer := c
	closer.Tolerance, closer.LongestStep = c.Tolerance/100, c.LongestStep/5
	tight := o
	tight.figures = closer
	beside(b, c, &o, tight.run(b, tight.filled(b)).samples, c.ours(b, 1e-13, fullRows), 3)
}

func twoPhasesTruth(b *testing.B, every float64) [][]float64 {
	b.Helper()
	needs(b, "/usr/bin/python3", "-c", "import scipy")
	c, o := twoPhases(b)
	c.Tolerance, c.Absolute, c.Every = 1e-12, 1e-12, every
	o.figures = c
	return o.run(b, o.filled(b)).samples
}

// needs skips where a tool is missing, unless it has to be there: what tells is
// a command that it has to survive.
func needs(b *testing.B, words ...string) {
	b.Helper()
	if err := exec.Command(words[0], words[1:]...).Run(); err != nil && os.Getenv("COILWALK_TOOLS") != "required" {
		b.Skipf("%s: %v", words[0], err)
	}
}

func beside(b *testing.B, c course, o *outside, theirTruth, ourTruth [][]float64, rounds int) {
	b.Helper()
	input := o.filled(b)
	first := o.run(b, input)
	theirError := o.apart(b, first.samples, theirTruth)
	m := NewMotion(&c.Plant)
	ourError := math.Inf(1)
	for m.Tolerance = 1e-3; ourError > theirError; {
		if m.Tolerance /= 1.25; m.Tolerance < 1e-13 {
			b.Fatalf("ours errs by %.2g at the least, theirs by %.2g", ourError, theirError)
		}
		ourError = o.apart(b, c.ours(b, m.Tolerance, fullRows), ourTruth)
	}
	var theirs, ours []float64
	seen := 0
	for range rounds {
		theirs = append(theirs, o.run(b, input).seconds)
		const runs = 10
		began := time.Now()
		for range runs {
			c.run(b, m, fullRows, func(State) { seen++ })
		}
		ours = append(ours, time.Since(began).Seconds()/runs)
	}
	if seen != rounds*10*len(ourTruth) {
		b.Fatalf("%d samples seen", seen)
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(median(theirs)*1e3, "their-ms")
	b.ReportMetric(median(ours)*1e3, "our-ms")
	b.ReportMetric(median(theirs)/median(ours), "times")
	b.ReportMetric(theirError*1e9, "their-error-1e-9")
	b.ReportMetric(ourError*1e9, "our-error-1e-9")
	if first.evaluations > 0 {
		b.ReportMetric(float64(first.evaluations), "their-evaluations")
	}
	b.ReportMetric(float64(m.Work().Evaluations), "our-evaluations")
}

func median(values []float64) float64 {
	v := slices.Sorted(slices.Values(values))
	return (v[(len(v)-1)/2] + v[len(v)/2]) / 2
}
