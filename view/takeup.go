package view

import (
	"coilwalk/model/wiring"
	"coilwalk/view/trouble"
)

// asked is a screen that a question of a trouble can be put to.
type asked interface {
	takeUp(e *Explorer, a trouble.Ask) error
}

// takeUp takes what was told for what one's own motor does.
func (f *faultScreen) takeUp(e *Explorer, a trouble.Ask) error {
	var told []wiring.Symptom
	for _, text := range a.Told {
		symptom, err := wiring.ParseSymptom(text)
		if err != nil {
			return err
		}
		told = append(told, symptom)
	}
	if len(told) == 0 {
		return nil
	}
	f.symptoms, f.mine = told, true
	for i, t := range f.trials {
		if sameTrial(t, told[0].Trial) {
			f.trial = i
		}
	}
	f.judge(e)
	e.notice = advice("taken for what yours does: correct what differs. {anywhere.trouble} leads back.")
	return nil
}

// takeUp asks the meter or the shaft.
func (l *leadsScreen) takeUp(e *Explorer, a trouble.Ask) error {
	if l.asking != a.Shaft {
		l.turn(e)
	}
	if !a.Shaft {
		l.goNext()
	}
	return nil
}

// takeUp goes to the line of a sheet that the question is about.
func (f *form[S]) takeUp(e *Explorer, a trouble.Ask) error {
	for i, one := range f.fields {
		if one.Name == a.Line {
			f.at = i
		}
	}
	if a.Clear {
		return f.use(e, "")
	}
	return nil
}
