package live

import (
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"time"
)

// Board is a link to a board with Firmata on a serial port.
type Board struct {
	port  stream
	about About
	bit   [4]byte
	group byte // the Firmata port of the pins, eight pins each

	write sync.Mutex // held while a message goes out, so that none is parted

	mu      sync.Mutex
	waiting []asked // what has not been answered yet, oldest first
	number  uint64
	row     Row // as it was told to stand
	stands  Row // as the board said
	armed   bool
	closed  bool
	arming  chan [4]byte // states of the four pins, while Arm waits for them
	pins    [4]byte      // states that have come in
	seen    int          // bit k: that of output k+1 has come

	events  chan Event
	shaking atomic.Bool // the handshake takes all messages
	answers chan message
	done    chan struct{}
}

// asked is something that an answer is due to.
type asked struct {
	number uint64
	row    Row
	armed  bool
}

// mostWaiting bounds what may be on its way: a board that is so far behind does
// not keep up.
const mostWaiting = 64

// writeTime bounds how long a message may take to go out.
const writeTime = 500 * time.Millisecond

// send writes a message as a whole. A port that does not take it in time is
// closed: nothing that comes later may be half of one.
func (b *Board) send(bytes []byte) error {
	b.write.Lock()
	defer b.write.Unlock()
	timer := time.AfterFunc(writeTime, func() { b.port.Close() })
	defer timer.Stop()
	for len(bytes) > 0 {
		n, err := b.port.Write(bytes)
		if err != nil {
			return fmt.Errorf("the board can not be reached: %w", err)
		}
		bytes = bytes[n:]
	}
	return nil
}

// levels gives the two data bytes that a row is in a port write.
func (b *Board) levels(row Row) (low, high byte) {
	var level byte
	for k, bit := range b.bit {
		if (row>>k&1 == 1) != b.about.Low {
			level |= bit
		}
	}
	return level & 0x7F, level >> 7
}

// Set implements Link.
func (b *Board) Set(value, mask Row) (uint64, error) {
	b.mu.Lock()
	b.row = b.row&^mask | value&mask
	row := b.row
	b.mu.Unlock()
	low, high := b.levels(row)
	return b.ask([]byte{portWrite | b.group, low, high}, false)
}

// Ping implements Link.
func (b *Board) Ping() (uint64, error) { return b.ask(nil, true) }

// ask sends a message and, behind it, a question that the board answers once it
// has done what stands before: ours tells how the outputs really stand, any other
// firmware its version; that one is asked for the pins too where there is time.
func (b *Board) ask(before []byte, whole bool) (uint64, error) {
	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		return 0, ErrClosed
	}
	if len(b.waiting) >= mostWaiting {
		b.mu.Unlock()
		return 0, errors.New("the board does not keep up")
	}
	b.number++
	number := b.number
	b.waiting = append(b.waiting, asked{number, b.row, b.armed})
	b.mu.Unlock()
	bytes := before
	if b.about.Guard.Known {
		bytes = append(bytes, sysex(benchMessage, benchState)...)
	} else {
		if whole {
			for _, pin := range b.about.Pins {
				bytes = append(bytes, sysex(stateAsk, byte(pin))...)
			}
		}
		bytes = append(bytes, version)
	}
	return number, b.send(bytes)
}

// armTime is how long a board may take to say that its pins are outputs.
const armTime = time.Second

// Arm implements Link.
func (b *Board) Arm() error {
	wait := make(chan [4]byte, 1)
	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		return ErrClosed
	}
	b.row, b.seen, b.arming = 0, 0, wait
	b.mu.Unlock()
	defer func() {
		b.mu.Lock()
		b.arming = nil
		b.mu.Unlock()
	}()
	low, high := b.levels(0)
	off := []byte{portWrite | b.group, low, high}
	bytes := append([]byte(nil), off...)
	for _, pin := range b.about.Pins {
		bytes = append(bytes, pinMode, byte(pin), modeOutput)
	}
	bytes = append(bytes, off...)
	for _, pin := range b.about.Pins {
		bytes = append(bytes, sysex(stateAsk, byte(pin))...)
	}
	if err := b.send(bytes); err != nil {
		return err
	}
	select {
	case states := <-wait:
		for k, on := range states {
			if on != 0 {
				_ = b.Halt()
				return fmt.Errorf("output %d (pin %d) does not stand at its off level: %s", k+1, b.about.Pins[k], map[byte]string{1: "it is on", 2: "the board did not make it an output"}[on])
			}
		}
	case <-time.After(armTime):
		_ = b.Halt()
		return errors.New("the board did not say that its pins are outputs")
	case <-b.done:
		return ErrClosed
	}
	b.mu.Lock()
	b.armed = true
	b.mu.Unlock()
	_, err := b.Ping()
	return err
}

// Halt implements Link. The message that takes the arming back goes to a firmware
// of ours only: another would do who knows what.
func (b *Board) Halt() error {
	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		return ErrClosed
	}
	b.row, b.armed = 0, false
	b.mu.Unlock()
	low, high := b.levels(0)
	bytes := []byte{portWrite | b.group, low, high}
	if b.about.Guard.Known {
		for _, pin := range b.about.Pins {
			bytes = append(bytes, pinMode, byte(pin), 0) // an input that is: not armed any more
		}
	}
	return b.send(bytes)
}

// State implements Link.
func (b *Board) State() Row {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.stands
}

// Events implements Link.
func (b *Board) Events() <-chan Event { return b.events }

// About implements Link.
func (b *Board) About() About { return b.about }

// Close implements Link.
func (b *Board) Close() error {
	err := b.Halt()
	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		return nil
	}
	b.closed = true
	b.mu.Unlock()
	closing := b.port.Close()
	<-b.done
	if err == nil {
		err = closing
	}
	return err
}
