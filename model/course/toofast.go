package course

import (
	"fmt"

	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// restRows is how many rows long a pause is, at the rate of what follows, that a run
// after it starts from rest.
const restRows = 4

// startStops keeps a motor's start–stop rates by step mode, once they were wanted.
type startStops map[string]float64

func (s startStops) of(trials *rotor.Trials, mode string) (float64, error) {
	if _, known := s[mode]; !known {
		found, _ := trials.Follow(rotor.Sweep{}, nil)
		s[mode] = found.StartStop
	}
	return s[mode], trials.Err()
}

// startedTooFast looks whether runs that begin with a fault would not be followed
// without it either, because they start at too high a rate: who mends the fault alone
// would be left with a motor that jitters.
func (v *Verdict) startedTooFast(runs map[*Run]bool, m *Motor) error {
	rates := startStops{}
	for i := range v.Runs {
		run := &v.Runs[i]
		mode, err := sequence.ModeNamed(run.Mode, 2, 0)
		if !runs[run] || err != nil || v.turned(run) {
			continue
		}
		trials, rate := rotor.NewTrials(m.Plant, mode), v.rateAbout(run.first+1)
		if i > 0 && v.Course.Seconds(run.From-v.Runs[i-1].To)*rate < restRows || trials.Start(rate) {
			continue
		}
		most, err := rates.of(trials, run.Mode)
		if err != nil {
			return err
		}
		f := Fault{Kind: "fast-start", At: run.From, raw: run.first, Times: 1, Long: rate, caution: m.Caution, Cause: startCause, Cure: startCure}
		f.Text = fmt.Sprintf("The run starts from rest at %.0f rows a second as well, which %s would not follow with every row right either: it starts and stops at %.0f at most.%s",
			rate, m.Name, most, m.estimates())
		v.addSlip(f)
	}
	return nil
}

// turnedTooFast looks for runs that turn round at a rate at which the motor could
// not start.
func (v *Verdict) turnedTooFast(m *Motor) error {
	rates := startStops{}
	starts := map[string]float64{} // the highest rates at which it was seen to start
	for i := 1; i < len(v.Runs); i++ {
		a, b := &v.Runs[i-1], &v.Runs[i]
		if a.Mode != b.Mode || a.Direction != -b.Direction || a.Direction == sequence.Standing || b.first-a.last > 1 {
			continue
		}
		mode, err := sequence.ModeNamed(a.Mode, 2, 0)
		if err != nil {
			continue
		}
		rate := 1 / v.Course.Seconds(max(1, v.Course.Row(b.first).At-v.Course.Row(b.first-1).At))
		if v.told("reversal", b.first) || rate <= starts[a.Mode] {
			continue
		}
		trials := rotor.NewTrials(m.Plant, mode)
		if trials.Start(rate) {
			starts[a.Mode] = rate
			continue
		}
		most, err := rates.of(trials, a.Mode)
		if err != nil {
			return err
		}
		f := Fault{Kind: "reversal", At: b.From, raw: b.first, Times: 1, caution: m.Caution}
		f.Row = v.Numbers.Of(f.raw)
		f.Text = fmt.Sprintf("It turns round at %.0f rows a second; %s starts and stops at %.0f at most.%s", rate, m.Name, most, m.estimates())
		f.Cause, f.Cure = turnCause, turnCure
		v.Faults = append(v.Faults, f)
	}
	return nil
}
