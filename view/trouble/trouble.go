// Package trouble leads from what a motor does wrong to what to look at first,
// and to the questions that find the reason, each where the engine answers it:
// a screen with the question already asked, and the command to type instead.
package trouble

import (
	"fmt"
	"strings"

	"coilwalk/sequence"
)

// Trouble is something that people come with.
type Trouble struct {
	Word  string   // a short name for it, which the command takes
	Says  string   // as one would say it
	Words []string // what else people call it: beginnings of words
	First string   // what to look at first, a sentence or two
	Care  string   // before hands go near it
	Asks  []Ask    // the questions, in order
}

// Ask is a question, and where it is answered.
type Ask struct {
	Text    string
	Screen  string   // of the explorer; "" where only the command answers
	Told    []string // on Faults: what the motor does, as coilwalk faults reads it
	Line    string   // of the screen's sheet, where the cursor goes
	Clear   bool     // empty that line first
	Shaft   bool     // on Leads: ask the shaft, not the meter
	Command string   // to type, with Motor for the motor's file and Stage for a driver; "" for what Told says
	Engine  Engine   // what the model of a motor can say to it at once
}

// Engine is the part of the engine that answers a question for a motor at once.
type Engine int

const (
	NoEngine Engine = iota // it takes a file, or hands at the bench
	Faults                 // ranked by what was told
	Rates                  // start–stop and pull-out
	Power                  // held at rest, what it costs
	Shaft                  // rows to a turn, and what a rounded ratio comes to
)

// Motor stands in a command for the name of the motor's file, Stage for the driver
// stage that people mostly have for its drive.
const (
	Motor = "my-motor.toml"
	Stage = "STAGE"
)

var mostlyOn = map[sequence.Drive]string{sequence.Unipolar: "darlington", sequence.Bipolar: "small-bridge"}

// Types gives the command that answers the question, for a motor by its name and
// its drive.
func (a Ask) Types(motor string, drive sequence.Drive) string {
	command := a.Command
	if command == "" {
		command = fmt.Sprintf("printf '%s\\n' | coilwalk faults - --motor %s", strings.Join(a.Told, `\n`), Motor)
	}
	command = strings.ReplaceAll(command, Stage, mostlyOn[drive])
	return strings.ReplaceAll(command, Motor, quoted(motor))
}

// quoted writes a name as a shell takes it.
func quoted(name string) string {
	if strings.Trim(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_./-") == "" {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}
