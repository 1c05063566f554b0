package live

import "sync"

// Null is a link to no board: everything is acknowledged and nothing is
// energised, so that the keys can be tried.
type Null struct {
	mu     sync.Mutex
	number uint64
	row    Row
	armed  bool
	closed bool
	events chan Event
}

// NewNull makes one.
func NewNull() *Null { return &Null{events: make(chan Event, 64)} }

// Arm implements Link.
func (n *Null) Arm() error {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.closed {
		return ErrClosed
	}
	n.armed, n.row = true, 0
	return nil
}

// Set implements Link.
func (n *Null) Set(value, mask Row) (uint64, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.armed {
		n.row = n.row&^mask | value&mask
	}
	return n.heard()
}

// Ping implements Link.
func (n *Null) Ping() (uint64, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.heard()
}

func (n *Null) heard() (uint64, error) {
	if n.closed {
		return 0, ErrClosed
	}
	n.number++
	select {
	case n.events <- Event{Kind: Heard, Number: n.number, Row: n.row}:
	default: // nobody listens: a real one would not wait either
	}
	return n.number, nil
}

// Halt implements Link.
func (n *Null) Halt() error {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.armed, n.row = false, 0
	return nil
}

// State implements Link.
func (n *Null) State() Row {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.row
}

// Events implements Link.
func (n *Null) Events() <-chan Event { return n.events }

// About implements Link.
func (n *Null) About() About {
	return About{Place: "rehearsal", Firmware: "no board", Guard: Guard{Known: true, Silence: 2}, Pins: [4]int{8, 9, 10, 11}, Null: true}
}

// Close implements Link.
func (n *Null) Close() error {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.armed, n.row = false, 0
	if !n.closed {
		n.closed = true
		close(n.events)
	}
	return nil
}
