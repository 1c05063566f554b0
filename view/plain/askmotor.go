package plain

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/wiring"
	"coilwalk/sequence"
)

// asker asks one question a line and keeps asking until the answer can be used.
type asker struct {
	lines *bufio.Scanner
	out   io.Writer
	named []motor.Lead // so far
	offer Offer
	err   error
}

// errEnded is an input that ended before the last answer.
var errEnded = errors.New("the answers ended before the last question; nothing was written")

// errLeft is a person who does not go on.
var errLeft = errors.New("left before the last question; nothing was written")

// Offer is what is known of a motor before the first question: what readings
// told. Nothing in it needs to be.
type Offer struct {
	Winding    motor.Winding
	Known      bool // the winding is
	Ordered    bool // the order of its ends as well: the shaft told it
	Resistance quantity.Resistance
}

// Offered is what readings tell of a motor, and what its shaft answered; either
// may be missing.
func Offered(readings []wiring.Reading, shaft *wiring.Sitting) Offer {
	if len(readings) == 0 {
		return Offer{}
	}
	m, ordered, known := wiring.Identify(readings).Motor(shaft)
	if !known {
		return Offer{}
	}
	return Offer{Winding: m.Winding, Known: true, Ordered: ordered, Resistance: m.Figures.Resistance}
}

// AskMotor asks a person for a motor, plain questions first, and gives it when
// all answers can be used. file is where it will be kept: its base name is the
// name that is offered.
func AskMotor(in io.Reader, out io.Writer, file string, offer Offer) (motor.Motor, error) {
	a := &asker{lines: bufio.NewScanner(in), out: out, offer: offer}
	a.lines.Buffer(make([]byte, 0, longestLine), longestLine)
	var m motor.Motor
	fmt.Fprintln(out, "A new motor file. Empty answers take what stands in [ ]; unknown figures may stay empty; quit leaves.")
	fmt.Fprintln(out, "Take the motor off its driver before you measure anything on it.")
	offered := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	if !motor.IsName(offered) {
		offered = ""
	}
	a.words("a word for it", offered, motor.IsName, motor.NameWanted, &m.Name)
	a.words("a few words for the screen", m.Name, motor.IsTitle, motor.TitleWanted, &m.Title)
	a.words("where its figures come from", "measured at the bench", motor.IsOrigin, motor.OriginWanted, &m.Origin)
	a.winding(&m)
	a.rotorAndTrain(&m)
	a.wiring(&m)
	a.figures(&m)
	if a.err != nil {
		return m, a.err
	}
	return motor.Parse(file, m.Text()) // the same rules as for a file written by hand
}

// words asks for words by the rule that a motor file has for them: what it refuses
// is told at once, and not when all else was answered.
func (a *asker) words(question, offered string, good func(string) bool, wanted string, to *string) {
	a.ask(question, offered, func(s string) error {
		if !good(s) {
			return errors.New(wanted)
		}
		*to = s
		return nil
	})
}

func (a *asker) winding(m *motor.Motor) {
	var count int
	known := a.offer.Winding
	offered := ""
	switch {
	case a.offer.Ordered:
		offered = strconv.Itoa(len(known.Leads()))
		fmt.Fprintln(a.out, "The readings tell the leads, and the shaft which goes where.")
	case a.offer.Known:
		offered = strconv.Itoa(len(known.Leads()))
		fmt.Fprintln(a.out, "The readings tell the leads; what they can not tell (which end comes first, and with 5 or 8 leads what is one phase) stands in the order of the names. The shaft tells: coilwalk leads --answers.")
	}
	a.ask("how many leads: 4, 5, 6 or 8", offered, func(s string) error {
		n, err := strconv.Atoi(s)
		if err != nil || n != 4 && n != 5 && n != 6 && n != 8 {
			return errors.New("4, 5, 6 or 8 is wanted; motors with other counts are not two-phase motors of these kinds")
		}
		count = n
		return nil
	})
	a.leads("the four outer coil ends, in the order A+ B+ A- B- (colours as BN or brown)", m.Ends[:], known.Ends[:])
	switch count {
	case 5:
		common := make([]motor.Lead, 1)
		a.leads("the common", common, []motor.Lead{known.Common})
		m.Common = common[0]
	case 6:
		a.leads("the two centre taps, of phase A and of phase B", m.Taps[:], known.Taps[:])
	case 8:
		a.leads("the inner ends of the four halves, in the same order", m.Inner[:], known.Inner[:])
	}
	m.OrderGuessed = a.offer.Known && !a.offer.Ordered && m.Ends == known.Ends && m.Inner == known.Inner
}

// twice gives the first lead that stands twice among those named so far.
func (a *asker) twice(now []motor.Lead) (motor.Lead, bool) {
	seen := map[string]bool{}
	for _, l := range append(append([]motor.Lead(nil), a.named...), now...) {
		key := strings.ToLower(string(l))
		if seen[key] {
			return l, true
		}
		seen[key] = true
	}
	return "", false
}

func (a *asker) rotorAndTrain(m *motor.Motor) {
	a.ask("full steps to one turn of the rotor (most hybrids: 200), or what was counted: rings x teeth of one as 4x8, a hybrid's rotor teeth as 50 teeth, the printed step angle as 7.5deg", "", func(s string) error {
		pairs, counted, told, err := motor.ParseSteps(s)
		if err != nil {
			return err
		}
		fmt.Fprintln(a.out, "  "+told)
		m.PolePairs, m.Counted = pairs, counted
		return nil
	})
	a.ask("gear train, empty for none: counted teeth as 9:32,11:22 from the rotor on, or the printed ratio as: ratio 64:1", "", func(s string) (err error) {
		switch ratio, printed := strings.CutPrefix(s, "ratio"); {
		case s == "":
			m.Train = motor.Train{}
		case printed:
			m.Train, err = motor.ParseRatio(ratio)
		default:
			m.Train, err = motor.ParseTrain(s)
		}
		return err
	})
	if m.Train.Geared() {
		a.ask("its play, empty if not measured: at the output shaft as 8deg, or of each mesh as 1deg,2deg", "", func(s string) (err error) {
			var b motor.Backlash
			if s != "" {
				if b, err = motor.ParseBacklash(s); err != nil {
					return err
				}
			}
			m.Train, err = m.Train.WithBacklash(b)
			return err
		})
	}
}

func (a *asker) wiring(m *motor.Motor) {
	m.Drive = m.Drives()[0]
	if len(m.Drives()) > 1 {
		a.ask("drive: unipolar or bipolar", m.Drive.String(), func(s string) error {
			for _, d := range sequence.Drives {
				if d.String() == s {
					m.Drive = d
					return nil
				}
			}
			return errors.New("unipolar or bipolar is wanted")
		})
	}
	ends := make([]string, 4)
	for i, l := range m.Ends {
		ends[i] = string(l)
	}
	a.ask("the leads on driver outputs 1 to 4", strings.Join(ends, " "), func(s string) error {
		words := strings.FieldsFunc(s, apart)
		if len(words) != 4 {
			return fmt.Errorf("four leads are wanted, not %d", len(words))
		}
		for k, w := range words {
			lead, err := motor.Find(m.Ends[:], w)
			if err != nil {
				return err
			}
			for e, end := range m.Ends {
				if end == lead {
					m.Wiring[k] = sequence.End(e)
				}
			}
		}
		if !m.Wiring.Valid() {
			return errors.New("one lead stands on two outputs")
		}
		return nil
	})
}

func (a *asker) figures(m *motor.Motor) {
	f := &m.Figures
	fmt.Fprintln(a.out, "Four figures now; an empty answer leaves one out.")
	ask := func(question, offered string, set func(string) error, clear func()) {
		a.ask(question, offered, func(s string) error {
			if s == "" {
				clear()
				fmt.Fprintln(a.out, "  left out")
				return nil
			}
			err := set(s)
			if err == nil { // who types one line too many sees which question took it
				fmt.Fprintln(a.out, "  taken: "+s)
			}
			return err
		})
	}
	ask("1 of 4, voltage: rated, of one coil, as 12 V", "", f.Voltage.Set, func() { f.Voltage = quantity.Voltage{} })
	ask("2 of 4, current: rated, of one coil, as 0.4 A (or voltage and resistance)", "", f.Current.Set, func() { f.Current = quantity.Current{} })
	ask("3 of 4, resistance: of one coil, or of one half where there is a tap, as 52 ohm", a.offer.Resistance.String(), f.Resistance.Set, func() { f.Resistance = quantity.Resistance{} })
	ask("4 of 4, holding torque: with two phases on, at the output shaft, as 45 mN.m (rates and faults at a rate need it)", "", f.HoldingTorque.Set, func() { f.HoldingTorque = quantity.Torque{} })
}

// leads asks for as many leads as there is room for.
func (a *asker) leads(question string, into, known []motor.Lead) {
	offered := ""
	if known[0] != "" {
		names := make([]string, len(known))
		for i, l := range known {
			names[i] = string(l)
		}
		offered = strings.Join(names, " ")
	}
	a.ask(question, offered, func(s string) error {
		words := strings.FieldsFunc(s, apart)
		if len(words) == 0 {
			return fmt.Errorf("%d wanted. If you do not know which is which, end here (ctrl+c): coilwalk leads asks your meter and the shaft, and its files answer this: motors new --readings FILE --answers FILE", len(into))
		}
		if len(words) != len(into) {
			return fmt.Errorf("%d wanted, parted by blanks or commas; here are %d", len(into), len(words))
		}
		for i, w := range words {
			lead, err := motor.ParseLead(w)
			if err != nil {
				return err
			}
			into[i] = lead
		}
		if l, again := a.twice(into); again {
			return fmt.Errorf("%s stands twice; each lead is one end, so tell like colours apart by names, as BK1 and BK2", l)
		}
		a.named = append(a.named, into...)
		return nil
	})
}

func apart(r rune) bool { return r == ' ' || r == ',' || r == '\t' }

// ask asks until use takes the answer.
func (a *asker) ask(question, whenEmpty string, use func(string) error) {
	for a.err == nil {
		if whenEmpty != "" {
			question += " [" + whenEmpty + "]"
		}
		if _, a.err = fmt.Fprint(a.out, question+": "); a.err != nil {
			return
		}
		if !a.lines.Scan() {
			if a.err = a.lines.Err(); a.err == nil {
				a.err = errEnded
			}
			fmt.Fprintln(a.out)
			return
		}
		answer := strings.TrimSpace(a.lines.Text())
		if answer == "quit" {
			a.err = errLeft
			return
		}
		if answer == "" {
			answer = whenEmpty
		}
		err := use(answer)
		if err == nil {
			return
		}
		question = fmt.Sprintf("  %s.\n  again", err)
	}
}
