package handoff

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
)

// Bench names the kind that is flashed onto a board, not taken into a project.
const Bench = "firmware"

// UsualBaud is the speed at which Firmata is spoken when nobody says.
const UsualBaud = 57600

// What the serial line of a board can be set to.
const (
	leastBaud = 9600    // what the firmware says at its start has to be out within its watchdog's time
	mostBaud  = 250_000 // bytes that come faster than they can be taken out
	baudError = 0.025   // of the bits' length: with that of the other end it may be twice as much
	leastHz   = 1e6
	mostHz    = 32e6
)

// firmataPort is so many pins: those of one message, which change together.
const firmataPort = 8

// usualPins gives the pin number of bit 0 by the port's letter, as most boards
// number them.
var usualPins = map[byte]int{'B': 8, 'C': 14, 'D': 0}

var lettered = regexp.MustCompile(`^PORT[A-L]$`)

// Bench gives the board as the bench firmware has it: on PORTB where no port was
// given, with the usual pin numbers where none were. Its errors are boards that
// the firmware can not be for.
func (b Board) Bench() (Board, error) {
	if b.Port == "" {
		b.Port = "PORTB"
	}
	if !lettered.MatchString(b.Port) {
		return b, fmt.Errorf("%s is no port of an AVR chip; PORTA to PORTL are", b.Port)
	}
	for _, bit := range b.Bits {
		if bit > 7 {
			return b, fmt.Errorf("%s has no bit %d; it has bits 0 to 7", b.Port, bit)
		}
	}
	if !b.Numbered {
		first, ok := usualPins[b.Port[4]]
		if !ok {
			return b, fmt.Errorf("the pin numbers of %s differ from board to board; give those of outputs 1 to 4, as --pins 24,25,26,27", b.Port)
		}
		for k, bit := range b.Bits {
			b.Pins[k] = first + bit
		}
		b.Numbered = true
	}
	for k, pin := range b.Pins {
		switch {
		case pin < 2:
			return b, fmt.Errorf("output %d is on pin %d; pins 0 and 1 are the serial line", k+1, pin)
		case pin > 127:
			return b, fmt.Errorf("output %d is on pin %d; Firmata numbers pins 0 to 127", k+1, pin)
		case pin/firmataPort != b.Pins[0]/firmataPort:
			first := b.Pins[0] / firmataPort * firmataPort
			return b, fmt.Errorf("pins %d and %d do not change in one message; all four have to be among %d to %d, or among another eight that start with a multiple of 8", b.Pins[0], pin, first, first+firmataPort-1)
		}
	}
	return b, nil
}

// baud gives the speed of the serial line.
func (w *Walk) baud() int64 {
	if w.Baud == 0 {
		return UsualBaud
	}
	return w.Baud
}

// Cautions say what harms, and for the bench firmware what its board needs.
func (k Kind) Cautions(w *Walk) []string {
	if k.Name != Bench {
		return w.Cautions()
	}
	return append(w.usual(), w.Board.pull()) // its rates are told on its line
}

// pull says what the board needs beside its firmware.
func (b Board) pull() string {
	to, level := "ground", "high"
	if b.ActiveLow {
		to, level = "the logic supply", "low"
	}
	return fmt.Sprintf("in reset and in its boot loader a pin floats: put 10 kOhm from each output's pin to %s, so that none is taken for %s.", to, level)
}

// benchable says whether the bench firmware can be for a walk's board.
func (w *Walk) benchable() error {
	if _, err := w.Board.Bench(); err != nil {
		return err
	}
	hz, baud := w.Pace.ClockHz, w.baud()
	switch {
	case hz < leastHz || hz > mostHz:
		return fmt.Errorf("a clock of %d Hz is none of such a board; 1 MHz to 32 MHz is", hz)
	case baud < leastBaud || baud > mostBaud:
		return fmt.Errorf("%d baud is too slow or too fast here; %d to %d are wanted", baud, leastBaud, mostBaud)
	}
	if off := baudOff(hz, baud); math.Abs(off) > baudError {
		return fmt.Errorf("a chip at %d Hz gets no nearer to %d baud than %+.1f %%; take another speed, as 38400 or 57600", hz, baud, 100*off)
	}
	return nil
}

// baudOff gives how far from a speed a chip comes that divides its clock by a
// whole number of 16 or 8 cycles: the nearer, as a share.
func baudOff(hz, baud int64) float64 {
	best := math.Inf(1)
	for _, cycles := range []int64{16, 8} {
		divisor := max(1, (hz+cycles*baud/2)/(cycles*baud))
		if off := float64(hz)/float64(cycles*divisor*baud) - 1; math.Abs(off) < math.Abs(best) {
			best = off
		}
	}
	return best
}

// firmwareOf is what the template needs.
type firmwareOf struct {
	Head, Port, Direction string
	Bits, Pins            [4]int
	On                    int
	Baud, ClockHz         int64
}

func writeFirmware(w *Walk) []byte {
	b, err := w.Board.Bench()
	if err != nil {
		panic(err) // Allows has refused it
	}
	f := firmwareOf{Head: block(w.benchHead(b)), Port: b.Port, Direction: "DDR" + b.Port[4:], Bits: b.Bits, Pins: b.Pins, On: 1, Baud: w.baud(), ClockHz: w.Pace.ClockHz}
	if b.ActiveLow {
		f.On = 0
	}
	var text bytes.Buffer
	if err := templates.ExecuteTemplate(&text, "bench.tmpl", f); err != nil {
		panic(err) // a template of ours that does not fit its data
	}
	return text.Bytes()
}

// readFirmware reads back what the compiler will be told.
func readFirmware(_ *Walk, text []byte) (c contents, err error) {
	b := Board{Numbered: true}
	c.board = &b
	numbers := map[string]int64{}
	for _, line := range defines.FindAllSubmatch(text, -1) {
		name, value := string(line[1]), string(line[2])
		switch name {
		case "COIL_PORT":
			b.Port = value
			continue
		case "COIL_DIRECTION":
			c.direction = value
			continue
		}
		n, err := strconv.ParseInt(value, 10, 64)
		if err != nil {
			return c, err
		}
		if _, twice := numbers[name]; twice {
			return c, fmt.Errorf("%s is said twice", name)
		}
		numbers[name] = n
	}
	take := func(name string) (n int64) {
		n, ok := numbers[name]
		if !ok && err == nil {
			err = fmt.Errorf("%s is missing", name)
		}
		return n
	}
	for k := range b.Bits {
		b.Bits[k], b.Pins[k] = int(take(fmt.Sprintf("COIL_BIT_%d", k+1))), int(take(fmt.Sprintf("COIL_PIN_%d", k+1)))
	}
	b.ActiveLow = take("COIL_ON") == 0
	c.baud, c.clockHz = take("BAUD"), take("F_CPU")
	return c, err
}

// defines are the lines of the firmware that say what board it is for.
var defines = regexp.MustCompile(`(?m)^#define (COIL_[A-Z]+(?:_[1-4])?|BAUD|F_CPU) (\w+?)(?:UL)?(?: /\*.*)?$`)

// proveBoard holds what was read against the board that is meant.
func (w *Walk) proveBoard(c contents) error {
	want, err := w.Board.Bench()
	if err != nil {
		return err
	}
	switch {
	case c.board == nil:
		return errors.New("no board is read")
	case *c.board != want:
		return fmt.Errorf("the board is read as %+v, %+v is meant", *c.board, want)
	case c.direction != "DDR"+want.Port[4:]:
		return fmt.Errorf("%s is read as what makes outputs of %s", c.direction, want.Port)
	case c.baud != w.baud() || c.clockHz != w.Pace.ClockHz:
		return fmt.Errorf("%d baud at %d Hz are read, %d at %d are meant", c.baud, c.clockHz, w.baud(), w.Pace.ClockHz)
	}
	return nil
}
