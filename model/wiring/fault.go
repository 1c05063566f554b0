package wiring

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/driver"
	"coilwalk/model/files"
	"coilwalk/model/motor"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// Fault is one thing that can be wrong between a table in firmware and the
// coils of a motor.
type Fault struct {
	Kind  FaultKind
	I, K  int          // outputs from 0: the one, or the two that are exchanged
	End   sequence.End // of the lead or half
	Phase int          // of the coil or tap: 0 for A, 1 for B
}

// FaultKind is a kind of fault.
type FaultKind string

// The kinds of fault that the rotor model judges.
const (
	Swapped      FaultKind = "outputs-permuted"   // the leads on two outputs are exchanged
	CoilReversed FaultKind = "direction-reversed" // both ends of one coil are exchanged
	LeadOpen     FaultKind = "open-lead"          // a lead or half-coil is broken
	TapOff       FaultKind = "tap-off-supply"     // a tap or the common is not at the supply
	OutputDead   FaultKind = "stuck-low"          // an output never comes on
	OutputOn     FaultKind = "stuck-high"         // an output never goes off
	HalfReversed FaultKind = "half-reversed"      // of an 8-lead motor
	Deaf         FaultKind = "direction-unheard"  // the direction command never arrives
	SupplySags   FaultKind = "supply-sags"        // it gives what one phase takes, and no more
)

// Faults lists every single fault that a motor can have.
func Faults(m motor.Motor) (all []Fault) {
	opposite := func(i, k int) bool { return m.Wiring[i].Opposite() == m.Wiring[k] }
	for i := range 4 {
		for k := i + 1; k < 4; k++ {
			if !opposite(i, k) {
				all = append(all, Fault{Kind: Swapped, I: i, K: k})
			}
		}
	}
	for phase := range 2 {
		i := m.Wiring.Inverse()[phase]
		all = append(all, Fault{Kind: CoilReversed, I: i, K: m.Wiring.Inverse()[phase+2], Phase: phase})
	}
	for _, e := range sequence.Ends {
		all = append(all, Fault{Kind: LeadOpen, End: e})
	}
	for k := range 4 {
		all = append(all, Fault{Kind: OutputDead, I: k}, Fault{Kind: OutputOn, I: k})
	}
	if m.Drive == sequence.Unipolar {
		if m.Common != "" {
			all = append(all, Fault{Kind: TapOff, Phase: -1})
		} else if len(m.Leads()) > 4 {
			all = append(all, Fault{Kind: TapOff, Phase: 0}, Fault{Kind: TapOff, Phase: 1})
		}
	}
	if len(m.Leads()) == 8 {
		for _, e := range sequence.Ends {
			all = append(all, Fault{Kind: HalfReversed, End: e})
		}
	}
	return append(all, Fault{Kind: Deaf}, Fault{Kind: SupplySags})
}

// Exchanges says whether a fault is the leads on two outputs, I and K, exchanged.
func (f Fault) Exchanges() bool { return f.Kind == Swapped || f.Kind == CoilReversed }

// Coils gives what arrives at the coil ends when a row is sent to the outputs of
// a motor with faults. Wiring is the coil end that each output feeds without
// them.
func Coils(faults []Fault, out sequence.Row, wiring sequence.Permutation, drive sequence.Drive) sequence.Row {
	for _, f := range faults { // firmware and driver come before the plug
		switch f.Kind {
		case OutputDead:
			out[f.I] = 0
		case OutputOn:
			out[f.I] = 1
		}
	}
	for _, f := range faults {
		if f.Exchanges() {
			wiring = wiring.Swapped(f.I, f.K)
		}
	}
	at := out.Through(wiring)
	for _, f := range faults {
		switch f.Kind {
		case LeadOpen:
			at[f.End] = 0
			if drive == sequence.Bipolar { // the coil's current has no way back
				at[f.End.Opposite()] = 0
			}
		case TapOff:
			for _, e := range sequence.Ends {
				if f.Phase < 0 || int(e)%2 == f.Phase {
					at[e] = 0
				}
			}
		case HalfReversed:
			at = reversedHalf(at, f.End, drive)
		}
	}
	if sags(faults) {
		at = sagged(at, drive)
	}
	return at
}

// Broken says which coil ends have no way for a current at all, not even one that
// another coil induces: bipolar both of a phase.
func Broken(faults []Fault, drive sequence.Drive) (ends [4]bool) {
	for _, f := range faults {
		switch f.Kind {
		case LeadOpen:
			ends[f.End] = true
			if drive == sequence.Bipolar {
				ends[f.End.Opposite()] = true
			}
		case TapOff:
			for _, e := range sequence.Ends {
				ends[e] = ends[e] || f.Phase < 0 || int(e)%2 == f.Phase
			}
		}
	}
	return ends
}

// Feeds gives how the coils of a plant are fed under a row, with some ends broken.
func Feeds(p *rotor.Plant, row sequence.Row, broken [4]bool) [4]driver.Feed {
	feeds := p.Stage.Feeds(row, p.Drive, p.Current)
	for e, is := range broken {
		if is && (e < 2 || p.Drive == sequence.Unipolar) {
			feeds[e] = driver.Feed{Firm: true} // held at no current
		}
	}
	return feeds
}

// reversedHalf gives the row whose field is that of a half wound the other way
// round. Unipolar it pulls where its partner would; in series with it, bipolar,
// the two cancel.
func reversedHalf(at sequence.Row, e sequence.End, drive sequence.Drive) sequence.Row {
	if drive == sequence.Bipolar {
		at[e], at[e.Opposite()] = 0, 0
		return at
	}
	at[e.Opposite()] += at[e]
	at[e] = 0
	return at
}

// Obeys says whether the direction command arrives.
func Obeys(faults []Fault) bool {
	return !slices.ContainsFunc(faults, func(f Fault) bool { return f.Kind == Deaf })
}

// Text puts a fault into words, with the leads of a motor.
func (f Fault) Text(m motor.Motor) string {
	lead := func(k int) motor.Lead { return m.Output(m.Wiring, k) }
	switch f.Kind {
	case Swapped:
		return fmt.Sprintf("%s and %s swapped (outputs %d, %d)", lead(f.I), lead(f.K), f.I+1, f.K+1)
	case CoilReversed:
		return fmt.Sprintf("coil %s reversed (%s and %s exchanged)", phaseName(f.Phase), lead(f.I), lead(f.K))
	case LeadOpen:
		return fmt.Sprintf("%s open (lead, plug or coil)", m.Ends[f.End])
	case TapOff:
		switch {
		case f.Phase < 0:
			return fmt.Sprintf("the common %s not at the supply", m.Common)
		case m.Taps[0] != "":
			return fmt.Sprintf("the tap %s not at the supply", m.Taps[f.Phase])
		}
		return fmt.Sprintf("the inner ends of phase %s not at the supply", phaseName(f.Phase))
	case OutputDead:
		return fmt.Sprintf("output %d (%s) never comes on", f.I+1, lead(f.I))
	case OutputOn:
		return fmt.Sprintf("output %d (%s) never goes off", f.I+1, lead(f.I))
	case HalfReversed:
		return fmt.Sprintf("the half of %s the wrong way round", m.Ends[f.End])
	}
	if f.Kind == SupplySags {
		return "the supply sags with two phases on"
	}
	return "the direction command never arrives"
}

func phaseName(phase int) string { return string("AB"[phase]) }

// ParseFault reads a fault: "swap 2 3", "open BN", "dead 2", "stuck 2",
// "reversed A", "half BN", "tap", "tap A", "deaf" or "sag".
func ParseFault(m motor.Motor, text string) (Fault, error) {
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' })
	wanted := fmt.Errorf("%s is no fault; swap 2 3, open %s, dead 2, stuck 2, reversed A, half %s, tap, deaf or sag is wanted", files.Quoted(text), m.Ends[0], m.Ends[0])
	if len(words) == 0 || len(words) > 3 {
		return Fault{}, wanted
	}
	var is func(Fault) bool
	arg := func(i int) string {
		if i < len(words) {
			return words[i]
		}
		return ""
	}
	output := func(i int) int {
		n, err := strconv.Atoi(arg(i))
		if err != nil {
			return -1
		}
		return n - 1
	}
	lead := func() sequence.End {
		l, err := motor.Find(m.Ends[:], arg(1))
		if err != nil {
			return -1
		}
		return sequence.End(slices.Index(m.Ends[:], l))
	}
	switch strings.ToLower(words[0]) {
	case "swap":
		i, k := min(output(1), output(2)), max(output(1), output(2))
		is = func(f Fault) bool {
			return f.Exchanges() && min(f.I, f.K) == i && max(f.I, f.K) == k
		}
	case "open":
		is = func(f Fault) bool { return f.Kind == LeadOpen && f.End == lead() }
	case "dead":
		is = func(f Fault) bool { return f.Kind == OutputDead && f.I == output(1) }
	case "stuck":
		is = func(f Fault) bool { return f.Kind == OutputOn && f.I == output(1) }
	case "reversed":
		is = func(f Fault) bool { return f.Kind == CoilReversed && strings.EqualFold(phaseName(f.Phase), arg(1)) }
	case "half":
		is = func(f Fault) bool { return f.Kind == HalfReversed && f.End == lead() }
	case "tap":
		is = func(f Fault) bool {
			return f.Kind == TapOff && (f.Phase < 0 || strings.EqualFold(phaseName(f.Phase), arg(1)) || strings.EqualFold(string(m.Taps[f.Phase]), arg(1)))
		}
	case "deaf":
		is = func(f Fault) bool { return f.Kind == Deaf }
	case "sag":
		is = func(f Fault) bool { return f.Kind == SupplySags }
	default:
		return Fault{}, wanted
	}
	for _, f := range Faults(m) {
		if is(f) {
			return f, nil
		}
	}
	return Fault{}, fmt.Errorf("%s can not have the fault %s", m.Title, files.Quoted(text))
}
