package live

import (
	"errors"
	"fmt"
	"time"
)

// Wanted is what a board is opened with.
type Wanted struct {
	Baud int    // of the serial port
	Pins [4]int // of outputs 1 to 4; zeros for those of the firmware, else 8 to 11
	Low  bool   // outputs are switched on by the low level
	// Given says whether Low was said; else the firmware's own word counts.
	Given bool

	patience time.Duration // with a board that starts; 0 for startTime
}

// Unfit is the error of a board that answers, but not for what was asked of it.
type Unfit struct{ what string }

func (u Unfit) Error() string { return u.what }

func unfit(format string, args ...any) error { return Unfit{fmt.Sprintf(format, args...)} }

// usualPins are taken when neither person nor firmware names any.
var usualPins = [4]int{8, 9, 10, 11}

// How long a board may take: many are reset when their port is opened, and their
// boot loaders wait.
const (
	startTime  = 6 * time.Second
	askEvery   = 500 * time.Millisecond
	answerTime = 1500 * time.Millisecond
	guardTime  = 500 * time.Millisecond
)

// Open opens a board on a serial port, asks what it is, and refuses one that can
// not do it. Nothing is switched on by it, and no pin is made an output.
func Open(name string, w Wanted) (*Board, error) {
	port, err := openPort(name, w.Baud)
	if err != nil {
		return nil, err
	}
	b, err := shake(port, name, w)
	if err != nil {
		port.Close()
	}
	return b, err
}

// shake asks what is on a stream.
func shake(port stream, name string, w Wanted) (*Board, error) {
	b := &Board{port: port, events: make(chan Event, 256), answers: make(chan message, 64), done: make(chan struct{})}
	b.about.Place = name
	b.shaking.Store(true)
	go b.listen()
	if err := b.known(w); err != nil {
		b.mu.Lock()
		b.closed = true
		b.mu.Unlock()
		port.Close()
		<-b.done
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	// Answers come in order: none to an earlier question can be on its way now.
	b.shaking.Store(false)
	return b, nil
}

// known asks for version, name, abilities and guard.
func (b *Board) known(w Wanted) error {
	patience := w.patience
	if patience == 0 {
		patience = startTime
	}
	named, err := b.until([]byte{version}, askEvery, patience, func(m message) bool { return !m.sysex && m.command == version })
	if err != nil {
		return fmt.Errorf("%w; is there firmware with Firmata on it, at %d baud? coilwalk write firmware writes one", err, w.Baud)
	}
	if len(named.data) != 2 || named.data[0] != 2 {
		return fmt.Errorf("the board talks Firmata %d; version 2 is wanted", named.data[0])
	}
	if m, err := b.until(sysex(firmwareName), answerTime, answerTime, isSysex(firmwareName)); err == nil && len(m.data) > 2 {
		b.about.Firmware = spelled(m.data[2:])
	}
	b.about.Pins, b.about.Low = usualPins, w.Low
	if m, err := b.until(sysex(benchMessage, benchGuard), guardTime, guardTime, func(m message) bool {
		return isSysex(benchMessage)(m) && len(m.data) == 9 && m.data[0] == benchGuard
	}); err == nil {
		b.about.Guard = Guard{Known: true, Silence: float64(int(m.data[2])|int(m.data[3])<<7) / 1000}
		low := m.data[4] == 0
		if w.Given && low != w.Low {
			return unfit("the firmware on it was written for outputs that are switched on by the %s level", level(low))
		}
		b.about.Low = low
		for k := range b.about.Pins {
			b.about.Pins[k] = int(m.data[5+k])
		}
		if w.Pins != ([4]int{}) && w.Pins != b.about.Pins {
			return unfit("the firmware on it was written for pins %s", pinWords(b.about.Pins))
		}
	} else if errors.Is(err, ErrClosed) {
		return err
	} else if w.Pins != ([4]int{}) {
		b.about.Pins = w.Pins
	}
	if b.about.Low && !b.about.Guard.Known {
		return unfit("%s", "this firmware switches its pins low when they are made outputs, which turns every coil on where the low level does that; load what coilwalk write firmware --active low writes")
	}
	m, err := b.until(sysex(capabilityAsk), answerTime, answerTime, isSysex(capabilityAnswer))
	if err != nil {
		return fmt.Errorf("the board does not say what its pins can do: %w", err)
	}
	return b.place(abilities(m.data))
}

// place works out where the four pins are.
func (b *Board) place(outputs []bool) error {
	taken := map[int]bool{}
	for k, pin := range b.about.Pins {
		switch {
		case pin < 0 || pin >= len(outputs) || pin > 127:
			return unfit("there is no pin %d on the board; it has 0 to %d", pin, len(outputs)-1)
		case !outputs[pin]:
			return unfit("pin %d can not be an output", pin)
		case taken[pin]:
			return unfit("pin %d is named twice; outputs 1 to 4 are on four pins", pin)
		case pin/8 != b.about.Pins[0]/8:
			return unfit("pins %s are in two groups of eight, so that a row could not change all at once; take four of 0 to 7, of 8 to 15, and so on", pinWords(b.about.Pins))
		}
		taken[pin] = true
		b.bit[k] = 1 << (pin % 8)
	}
	b.group = byte(b.about.Pins[0] / 8)
	return nil
}

func pinWords(pins [4]int) string {
	return fmt.Sprintf("%d, %d, %d and %d", pins[0], pins[1], pins[2], pins[3])
}

func level(low bool) string {
	if low {
		return "low"
	}
	return "high"
}

func isSysex(command byte) func(message) bool {
	return func(m message) bool { return m.sysex && m.command == command }
}

// until sends a question, again and again, and waits for its answer; what else
// comes is let by.
func (b *Board) until(question []byte, again, most time.Duration, is func(message) bool) (message, error) {
	end := time.After(most)
	for {
		if err := b.send(question); err != nil {
			return message{}, err
		}
		next := time.After(again)
	listening:
		for {
			select {
			case m := <-b.answers:
				if is(m) {
					return m, nil
				}
			case <-next:
				break listening
			case <-end:
				return message{}, errors.New("the board does not answer")
			case <-b.done:
				return message{}, ErrClosed
			}
		}
	}
}
