package driver

import (
	"fmt"
	"strings"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

// Stage is a kind of driver stage with typical figures. Each is one value in
// Stages.
type Stage struct {
	Name   string // the word for it in commands and files
	Title  string // as the trade says it in full
	Switch Drop   // what is on, all of it together: one straight line for all currents
	Diode  Drop   // the way back round it, all diodes together
	Clamp  Drop   // from a sink that is off to the tap supply
	Source string // where the figures come from

	Typical    Curve   // what is on, all of it together, as published
	Guaranteed Curve   // the most that a part may lose
	Warm       float64 // 1/K, that a drop grows by as the junction warms
	Limits     Limits
	Input      Input
	Reference  Reference
	ClampsTo   string // where a coil's current goes when its output opens, in words

	channel bool // what is on conducts either way, as a MOSFET does
	sink    func(s Stage, level, limit float64) Feed
	bridge  func(s Stage, level, limit float64) Feed
	idle    func(s Stage) Feed // both ends of a bridged coil alike
}

// Named finds a stage by its word.
func Named(name string) (Stage, error) {
	var known []string
	for _, s := range Stages {
		if s.Name == name {
			return s, nil
		}
		known = append(known, s.Name)
	}
	c := &files.Complaint{What: fmt.Sprintf("no driver stage is called %s", files.Quoted(name)), Right: "there are " + strings.Join(known, ", ")}
	if near := files.Nearest(name, known); near != "" {
		c.Right = "did you mean " + near + "?"
	}
	return Stage{}, c
}

// Names lists the words of all stages.
func Names() string {
	var names []string
	for _, s := range Stages {
		names = append(names, s.Name)
	}
	return strings.Join(names, ", ")
}

// Usual gives the stage that is taken where none is named: a sink array for a
// unipolar drive; for a bipolar one a chopper where its supply is known, else a
// current that is held.
func Usual(drive sequence.Drive, supplyKnown bool) Stage {
	name := "current"
	switch {
	case drive == sequence.Unipolar:
		name = "darlington"
	case supplyKnown:
		name = "chopper"
	}
	s, err := Named(name)
	if err != nil {
		panic(err) // a fault of the table, not of any input
	}
	return s
}

// Allows says whether the stage can feed a drive, and if not, what would.
func (s Stage) Allows(drive sequence.Drive) error {
	if s.can(drive) {
		return nil
	}
	var fit []string
	for _, other := range Stages {
		if other.can(drive) {
			fit = append(fit, other.Name)
		}
	}
	return &files.Complaint{What: fmt.Sprintf("a stage of the kind %s can not feed a %s drive", s.Title, drive), Right: "one of " + strings.Join(fit, ", ") + " is wanted; or the motor's other drive, where its leads allow it (drive in its file)"}
}

func (s Stage) can(drive sequence.Drive) bool {
	return drive == sequence.Unipolar && s.sink != nil || drive == sequence.Bipolar && s.bridge != nil
}

// Regulates says whether the stage sets the current, to a limit, and not the
// voltage.
func (s Stage) Regulates() bool {
	return s.bridge != nil && s.bridge(s, 1, 1).Hold != 0
}

// Instant says whether it does so without any time of rise.
func (s Stage) Instant() bool { return s.bridge != nil && s.bridge(s, 1, 1).Firm }

// Feeds gives how each coil is fed under a row: unipolar the four half-coils in
// field order, with positive currents from the tap to the end; bipolar phases A
// and B, with positive currents from the plus end. A level between 0 and 1 is
// the part of the limit, in ampere, where the stage regulates; elsewhere the
// part of the time, taken as its mean voltage.
func (s Stage) Feeds(row sequence.Row, drive sequence.Drive, limit float64) (feeds [4]Feed) {
	for j := range feeds {
		feeds[j] = s.feed(j, row, drive, limit)
	}
	return feeds
}

// feed is that of one coil.
func (s *Stage) feed(j int, row sequence.Row, drive sequence.Drive, limit float64) Feed {
	if drive == sequence.Unipolar {
		return s.sink(*s, row[j], limit)
	}
	if j > 1 {
		return Feed{}
	}
	field := row.Field()
	level := field.A
	if j == 1 {
		level = field.B
	}
	if level == 0 {
		return s.idle(*s)
	}
	return s.bridge(*s, level, limit)
}

// sinks is a switch from the coil end to ground, and a clamp diode from there
// to the tap supply. Below ground the diode round the switch conducts.
func sinks(s Stage, level, _ float64) Feed {
	f := Feed{
		Above: Path{Rail: level, Switch: s.Switch.part(level), Diode: s.Clamp.part(1 - level)},
		Below: Path{Rail: 1, Diode: s.Diode},
	}
	if level == 1 && s.channel {
		f.Below = f.Above
	}
	return f
}

// bridges drives the coil one way or the other. A current that still flows
// against the drive goes back to the supply through the diodes.
func bridges(s Stage, level, _ float64) Feed {
	driven, back := Path{Rail: level, Switch: s.Switch}, Path{Rail: level, Diode: s.Diode}
	switch {
	case s.channel:
		return Feed{Above: driven, Below: driven}
	case level > 0:
		return Feed{Above: driven, Below: back}
	}
	return Feed{Above: back, Below: driven}
}

// brakes is slow decay: the current goes round through one switch and one
// diode, or through two channels.
func brakes(s Stage) Feed {
	round := Path{Switch: s.Switch.part(0.5), Diode: s.Diode.part(0.5)}
	if s.channel {
		round = Path{Switch: s.Switch}
	}
	return Feed{Above: round, Below: round}
}

// returns is fast decay: all switches are off, and the current goes back to the
// supply through two diodes until there is none.
func returns(s Stage) Feed {
	return Feed{Above: Path{Rail: -1, Diode: s.Diode}, Below: Path{Rail: 1, Diode: s.Diode}}
}

// chops puts the whole supply across the coil, one way or the other, until the
// current is right, and then just what keeps it so: a chopper of no ripple.
func chops(s Stage, level, limit float64) Feed {
	return Feed{Hold: level * limit, Above: Path{Rail: -1, Switch: s.Switch}, Below: Path{Rail: 1, Switch: s.Switch}}
}

// imposes is a current source.
func imposes(_ Stage, level, limit float64) Feed { return Feed{Hold: level * limit, Firm: true} }

func imposesNone(s Stage) Feed { return imposes(s, 0, 0) }

func chopsToNone(s Stage) Feed { return chops(s, 0, 0) }
