package plain

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/wiring"
	"coilwalk/view/action"
	"coilwalk/view/report"
)

// faultWords are what is put in, and what a person's own motor does.
func faultWords() (all []word) {
	for _, a := range action.All() {
		if a.Word == "fault" {
			all = append(all, word{a.Word, a.Takes, a.Says + "; as swap 2 3, open BN, dead 2, stuck 2, reversed A, half BN, tap, deaf, sag, or its number in the list",
				func(m *Mode, args []string) { m.fault(a, args) }})
		}
	}
	return append(all,
		word{"trouble", "[WORDS]", "start from what goes wrong, in your own words, as: trouble it hums", (*Mode).trouble},
		word{"list", "", "list every fault that this motor can have, by number", (*Mode).listFaults},
		word{"trials", "", "say what the model does with the faults that are put in, in each trial", (*Mode).trials},
		word{"does", "MODE forward|reverse WHAT", "tell what your own motor does: cw, ccw, skips, buzz, still, weak, reverses or unsure, at 600 for a rate; again to change it", (*Mode).does},
		word{"forget", "MODE forward|reverse", "take back what you told of a trial", (*Mode).forget},
		word{"mine", "", "take what the model does for what your own motor does", (*Mode).mine},
		word{"faults", "", "say what explains what your motor does", func(m *Mode, _ []string) { m.judge() }})
}

// fault puts a fault in, or takes it out, by its words or its number in the list.
func (m *Mode) fault(a action.Action, args []string) {
	all := wiring.Faults(m.driven())
	if n, err := strconv.Atoi(strings.Join(args, " ")); err == nil && m.real == nil {
		if n < 1 || n > len(all) {
			m.say("The list has faults 1 to %d.", len(all))
			return
		}
		m.Bench.ToggleFault(all[n-1])
		m.tellAction(a)
		return
	}
	m.act(a, args)
}

// driven is the motor in the drive that the bench has.
func (m *Mode) driven() motor.Motor {
	mo := m.Bench.Motor()
	mo.Drive = m.Bench.Read().Drive
	return mo
}

func (m *Mode) listFaults([]string) {
	for i, f := range wiring.Faults(m.driven()) {
		words := fmt.Sprintf("%d: %s", i+1, f.Text(m.Bench.Motor()))
		if m.Bench.HasFault(f) {
			words += "; it is put in"
		}
		m.say("%s.", words)
	}
}

// behaviours runs the model through the trials.
func (m *Mode) behaviours() (all []wiring.Behaviour) {
	slowly, r := wiring.NewSlowly(m.driven()), m.Bench.Read()
	for _, t := range wiring.Trials() {
		all = append(all, slowly.Behave(r.Wiring, r.Faults, t))
	}
	return all
}

func (m *Mode) trials([]string) {
	for i, does := range m.behaviours() {
		m.say("%s: %s.", wiring.Trials()[i], does.Text())
	}
}

// does takes what the person's own motor does in a trial; another of the same
// trial replaces it.
func (m *Mode) does(args []string) {
	s, err := wiring.ParseSymptom(strings.Join(args, " "))
	if err != nil {
		m.fail(err)
		return
	}
	m.drop(s.Trial)
	m.symptoms = append(m.symptoms, s)
	m.judge()
}

// forget takes back what was told of a trial.
func (m *Mode) forget(args []string) {
	s, err := wiring.ParseSymptom(strings.Join(append(slices.Clone(args), "unsure"), " "))
	if err != nil || len(args) != 2 {
		m.say("A trial is wanted, as: forget half forward.")
		return
	}
	before := len(m.symptoms)
	if m.drop(s.Trial); len(m.symptoms) == before {
		m.say("Nothing was told of %s.", s.Trial)
		return
	}
	m.judge()
}

// drop takes away what was told of a trial at a rate, or slowly.
func (m *Mode) drop(t wiring.Trial) {
	m.symptoms = slices.DeleteFunc(m.symptoms, func(old wiring.Symptom) bool {
		return old.Mode.Name == t.Mode.Name && old.Way == t.Way && old.Rate == t.Rate
	})
}

// mine takes what the model does for what one's own motor does.
func (m *Mode) mine([]string) {
	m.symptoms = wiring.SymptomsOf(m.Bench.Motor(), m.behaviours())
	for _, s := range m.symptoms {
		m.say("%s: %s.", s.Trial, s.Seen)
	}
	m.judge()
}

// judge says what explains what was told.
func (m *Mode) judge() {
	if drive := m.driven().Drive; m.suspects == nil || drive != m.judged {
		m.suspects, m.judged = wiring.NewSuspects(m.driven()), drive
	}
	judged := m.suspects.Judge(m.symptoms)
	m.tell(report.NewFaults(m.Bench.Motor(), m.symptoms, judged))
	if n := judged.Next; n != nil && n.Shaft {
		m.say("Here reading takes what the meter shows, and ask asks the shaft.")
	}
}
