package live

import (
	"fmt"
	"io"
)

// listen reads what comes until the port ends, and tells it as events.
func (b *Board) listen() {
	defer close(b.done)
	defer close(b.events)
	defer func() {
		if r := recover(); r != nil {
			b.tell(Event{Kind: Lost, Why: fmt.Sprintf("a fault of coilwalk itself: %v", r)})
		}
	}()
	var r reader
	bytes := make([]byte, 256)
	for {
		n, err := b.port.Read(bytes)
		for _, one := range bytes[:n] {
			if m, ok := r.take(one); ok {
				b.hear(m)
			}
		}
		b.mu.Lock()
		closed := b.closed
		b.mu.Unlock()
		switch {
		case closed:
			return
		case err != nil && err != io.EOF || err == io.EOF && n == 0:
			b.tell(Event{Kind: Lost, Why: "the board is gone: the port has ended (a cable, or its supply)"})
			return
		}
	}
}

// tell hands an event on; when nobody takes them, the oldest give way.
func (b *Board) tell(e Event) {
	for {
		select {
		case b.events <- e:
			return
		default:
		}
		select {
		case <-b.events:
		default:
		}
	}
}

// hear makes an event of a message.
func (b *Board) hear(m message) {
	if b.shaking.Load() {
		select {
		case b.answers <- m:
		default: // a board that talks without end is told so by its answer not coming
		}
		return
	}
	switch {
	case !m.sysex && m.command == version:
		if b.about.Guard.Known { // unasked, at its start: its notice says why
			return
		}
		b.answered(func(a asked) (Row, bool) { return a.row, true })
	case m.sysex && m.command == firmwareName && !b.about.Guard.Known:
		b.begunAnew()
	case m.sysex && m.command == stateAnswer && len(m.data) >= 3:
		b.pinStands(int(m.data[0]), m.data[1], m.data[2:])
	case m.sysex && m.command == benchMessage && len(m.data) == 3 && m.data[0] == benchState:
		b.answered(func(a asked) (Row, bool) {
			row := Row(m.data[1]) & AllOutputs
			return row, row == a.row && (m.data[2] == 1 || !a.armed)
		})
	case m.sysex && m.command == benchMessage && len(m.data) == 2 && m.data[0] == benchNotice:
		b.mu.Lock()
		b.row, b.stands, b.armed = 0, 0, false
		if m.data[1] == 4 || m.data[1] == 6 { // what was asked before is not answered any more
			b.waiting = nil
		}
		b.mu.Unlock()
		why, known := notices[m.data[1]]
		if !known {
			why = fmt.Sprintf("for a reason that coilwalk does not know (%d)", m.data[1])
		}
		kind := Dropped
		if m.data[1] == 4 || m.data[1] == 6 {
			kind = Restarts
		}
		b.tell(Event{Kind: kind, Why: "the board switched the coils off: " + why})
	case m.sysex && m.command == textMessage: // words for a person; our own firmware's notice says the same
	}
}

// begunAnew is a board that tells its name or version unasked.
func (b *Board) begunAnew() {
	b.mu.Lock()
	b.row, b.stands, b.armed, b.waiting = 0, 0, false, nil
	b.mu.Unlock()
	b.tell(Event{Kind: Restarts, Why: "the board has begun anew: it was reset, or its supply failed"})
}

// answered takes the oldest question that waits. Right says how the outputs stand,
// and whether that is what was meant.
func (b *Board) answered(right func(asked) (Row, bool)) {
	b.mu.Lock()
	if len(b.waiting) == 0 {
		b.mu.Unlock()
		if !b.about.Guard.Known { // ours would have told why
			b.begunAnew()
		}
		return
	}
	a := b.waiting[0]
	b.waiting = b.waiting[1:]
	row, ok := right(a)
	b.stands = row
	if !b.armed { // nothing is claimed of it: it was asked before a halt, or before word of the board's own came
		ok = true
	}
	b.mu.Unlock()
	e := Event{Kind: Heard, Number: a.number, Row: row}
	if !ok {
		e.Kind, e.Why = Dropped, fmt.Sprintf("the board's outputs stand at %s where %s was sent", row, a.row)
	}
	b.tell(e)
}

// pinStands takes the state of a pin. Arming waits for all four; later they have
// to be what was sent.
func (b *Board) pinStands(pin int, mode byte, state []byte) {
	b.mu.Lock()
	k := -1
	for i, p := range b.about.Pins {
		if p == pin {
			k = i
		}
	}
	if k < 0 {
		b.mu.Unlock()
		return
	}
	high := false
	for _, part := range state {
		high = high || part != 0
	}
	switch {
	case mode != modeOutput:
		b.pins[k] = 2
	case high != b.about.Low:
		b.pins[k] = 1
	default:
		b.pins[k] = 0
	}
	b.seen |= 1 << k
	wait, pins := b.arming, b.pins
	whole := b.seen == 0b1111
	if whole {
		b.seen = 0
	}
	row, armed, waits := b.row, b.armed, len(b.waiting) > 1
	b.mu.Unlock()
	if !whole {
		return
	}
	if wait != nil {
		wait <- pins
		return
	}
	if !armed || waits { // something was sent after the question
		return
	}
	for i, stands := range pins {
		if stands != byte(row>>i&1) {
			b.tell(Event{Kind: Dropped, Why: fmt.Sprintf("output %d of the board does not stand as it was sent", i+1)})
			return
		}
	}
}
