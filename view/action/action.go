// Package action lists what a person can do on the bench, once, for both ways
// of asking: a key in the explorer and a word in the line mode.
package action

import (
	"fmt"
	"strconv"
	"strings"

	"coilwalk/model/bench"
	"coilwalk/model/files"
	"coilwalk/model/quantity"
	"coilwalk/model/wiring"
	"coilwalk/sequence"
)

// Action is one thing that can be done.
type Action struct {
	Word  string   // in the line mode
	Takes string   // what follows the word, for help; "" for nothing
	Keys  []string // in the explorer, by name, unless a person gave it others
	Says  string   // what it does
	OnKey bool     // only in the explorer: the line mode has no clock
	Ask   string   // in the explorer: the question whose answer follows the word; "" to act at once
	Do    func(b *bench.Bench, args []string) error
}

// All lists the actions in the order in which help shows them.
func All() []Action {
	return []Action{
		{Word: "next", Takes: "[N]", Keys: []string{"right", "l"}, Says: "energise the next row", Do: rows(1)},
		{Word: "back", Takes: "[N]", Keys: []string{"left", "h"}, Says: "energise the row before; the motor turns back", Do: rows(-1)},
		{Word: "rewind", Takes: "[N]", Keys: []string{"backspace", "u"}, Says: "undo the last thing done", Do: rewind},
		{Word: "run", Keys: []string{"enter"}, Says: "run, or stop running", Do: run},
		{Word: "stop", Keys: []string{"space"}, Says: "stop; always, and only that", Do: func(b *bench.Bench, _ []string) error { b.Stop(); return nil }},
		{Word: "faster", Keys: []string{"+", "="}, Says: "run faster, or slower", OnKey: true, Do: pace(1)},
		{Word: "slower", Keys: []string{"-", "_"}, Says: "run faster, or slower", OnKey: true, Do: pace(-1)},
		{Word: "rate", Takes: "N", Keys: []string{"p"}, Says: "set the pace, in rows a second", OnKey: true, Ask: "run at how many rows a second?", Do: rate},
		{Word: "mode", Takes: "[" + strings.Join(sequence.ModeNames(), "|") + " N|table]", Keys: []string{"m"}, Says: "change the step mode", Do: mode},
		{Word: "reverse", Keys: []string{"r"}, Says: "turn round the way that next goes", Do: func(b *bench.Bench, _ []string) error { b.Reverse(); return nil }},
		{Word: "drive", Keys: []string{"d"}, Says: "change between unipolar and bipolar drive", Do: drive},
		{Word: "swap", Takes: "I K", Keys: []string{"w"}, Says: "swap the leads on two outputs", Ask: "swap the leads on which two outputs? (as 2 3)", Do: swap},
		{Word: "fault", Takes: "FAULT", Keys: []string{"f"}, Says: "put a fault in, or take it out again", Ask: "fault: swap 2 3, open BN, dead 2, stuck 2, reversed A, half BN, tap, deaf, sag:", Do: fault},
		{Word: "rewire", Keys: []string{"x"}, Says: "put all leads back as the motor states them, no faults", Do: func(b *bench.Bench, _ []string) error { b.Rewire(); return nil }},
		{Word: "go", Takes: "N", Keys: []string{"g"}, Says: "go to a step by its number", Ask: "go to which step?", Do: jump},
		{Word: "restart", Keys: []string{"home", "0"}, Says: "start again at step 0, rotor at home", Do: func(b *bench.Bench, _ []string) error { b.Restart(); return nil }},
	}
}

// Words lists the words of the actions.
func Words(actions []Action) []string {
	words := make([]string, len(actions))
	for i, a := range actions {
		words[i] = a.Word
	}
	return words
}

// Named finds an action by its word; when there is none, the error names the
// nearest.
func Named(actions []Action, word string, others ...string) (Action, error) {
	for _, a := range actions {
		if a.Word == word {
			return a, nil
		}
	}
	message := fmt.Sprintf("there is no word %s", files.Quoted(word))
	if near := files.Nearest(word, append(Words(actions), others...)); near != "" {
		message += fmt.Sprintf("; did you mean %q?", near)
	} else {
		message += `; "help" lists them.`
	}
	return Action{}, fmt.Errorf("%s", message)
}

// number reads the one whole number that args may hold.
func number(args []string, whenNone int64) (int64, error) {
	switch len(args) {
	case 0:
		return whenNone, nil
	case 1:
		n, err := strconv.ParseInt(args[0], 10, 64)
		if err != nil {
			return 0, fmt.Errorf("%s is no whole number", files.Quoted(args[0]))
		}
		return n, nil
	}
	return 0, fmt.Errorf("one whole number is wanted, not %s", files.Quoted(strings.Join(args, " ")))
}

func rows(way int64) func(*bench.Bench, []string) error {
	return func(b *bench.Bench, args []string) error {
		n, err := number(args, 1)
		if err != nil {
			return err
		}
		if n < 1 {
			return fmt.Errorf("%d rows can not be walked; a number from 1 is wanted", n)
		}
		return b.Rows(way * min(n, 1<<52))
	}
}

func rewind(b *bench.Bench, args []string) error {
	n, err := number(args, 1)
	if err != nil {
		return err
	}
	b.Stop()
	for range n {
		if !b.Rewind() {
			return fmt.Errorf("there is nothing left to rewind")
		}
	}
	return nil
}

func run(b *bench.Bench, _ []string) error {
	if b.Running() {
		b.Stop()
	} else {
		b.Run()
	}
	return nil
}

// paces are the rates that faster and slower go through, in rows per second.
var paces = []float64{0.5, 1, 2, 3, 5, 8, 12, 20, 30, 50, 80, 120, 200, 300, 400, 500, 600, 700, 800, 1000, 1200, 1500, 2000, 3000, 5000}

func rate(b *bench.Bench, args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("one rate is wanted, in rows a second")
	}
	v, err := quantity.Rows(args[0])
	if err != nil {
		return err
	}
	b.SetRate(v)
	if got := b.Rate(); got != v {
		return fmt.Errorf("%g rows a second can not be shown here; it is %g now", v, got)
	}
	return nil
}

func pace(way int) func(*bench.Bench, []string) error {
	return func(b *bench.Bench, _ []string) error {
		at := 0
		for i, p := range paces {
			if p <= b.Rate() {
				at = i
			}
		}
		b.SetRate(paces[min(max(at+way, 0), len(paces)-1)])
		return nil
	}
}

func mode(b *bench.Bench, args []string) error {
	if len(args) == 0 {
		return next(b)
	}
	if len(args) == 1 && args[0] == "table" {
		if !b.HasTable() {
			return fmt.Errorf("no table was opened; name its file when you start")
		}
		b.BackToTable()
		return nil
	}
	m, err := sequence.ParseMode(strings.Join(args, " "))
	if err == nil {
		b.SetMode(m)
	}
	return err
}

// next goes through the modes.
func next(b *bench.Bench) error {
	micro, err := sequence.Micro(sequence.UsualDivide, 0)
	if err != nil {
		return err
	}
	all := append(append([]sequence.Mode(nil), sequence.Modes[:]...), micro)
	at := len(all) - 1
	if m, ok := b.Read().Order.Mode(); ok {
		for i := range all {
			if all[i].Name == m.Name {
				at = i
			}
		}
	}
	if at == len(all)-1 && b.HasTable() && !b.Read().Table {
		b.BackToTable()
		return nil
	}
	b.SetMode(all[(at+1)%len(all)])
	return nil
}

func drive(b *bench.Bench, _ []string) error {
	if b.Read().Drive == sequence.Unipolar {
		return b.SetDrive(sequence.Bipolar)
	}
	return b.SetDrive(sequence.Unipolar)
}

func swap(b *bench.Bench, args []string) error {
	if len(args) == 1 && len(args[0]) == 2 { // "23" is as clear as "2 3"
		args = []string{args[0][:1], args[0][1:]}
	}
	if len(args) != 2 {
		return fmt.Errorf("two outputs are wanted, as 2 3")
	}
	i, errI := number(args[:1], 0)
	k, errK := number(args[1:], 0)
	if errI != nil || errK != nil {
		return fmt.Errorf("two outputs are wanted, as 2 3")
	}
	return b.Swap(int(min(max(i, 0), 9)), int(min(max(k, 0), 9)))
}

func fault(b *bench.Bench, args []string) error {
	f, err := wiring.ParseFault(b.Motor(), strings.Join(args, " "))
	if err == nil {
		b.ToggleFault(f)
	}
	return err
}

func jump(b *bench.Bench, args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("the number of a step is wanted")
	}
	n, err := number(args, 0)
	if err != nil {
		return err
	}
	return b.Jump(n)
}
