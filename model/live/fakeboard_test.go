package live

import (
	"io"
	"sync"
	"time"
)

// fakeBoard is a board at the other end of a stream, written from the protocol's
// text alone (firmata/protocol, protocol.md, version 2.5): what it takes as
// messages it reads by itself.
type fakeBoard struct {
	mu      sync.Mutex
	out     []byte // to the host, not read yet
	got     []byte // from the host, all
	part    []byte
	sysex   bool
	modes   [20]byte
	levels  [20]bool
	armed   bool
	guarded bool
	low     bool
	deaf    bool // takes bytes and does nothing
	wrong   byte // levels that it gets wrong
	gone    bool
	unable  int       // a pin that can not be an output
	rows    [][4]bool // of the port writes that were heeded: pins 8 to 11
}

func (f *fakeBoard) Read(into []byte) (int, error) {
	for range 20 {
		f.mu.Lock()
		n := copy(into, f.out)
		f.out = f.out[n:]
		gone := f.gone
		f.mu.Unlock()
		if gone {
			return 0, io.ErrClosedPipe
		}
		if n > 0 {
			return n, nil
		}
		time.Sleep(time.Millisecond)
	}
	return 0, nil
}

func (f *fakeBoard) Close() error {
	f.mu.Lock()
	f.gone = true
	f.mu.Unlock()
	return nil
}

func (f *fakeBoard) Write(bytes []byte) (int, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.gone {
		return 0, io.ErrClosedPipe
	}
	f.got = append(f.got, bytes...)
	if f.deaf {
		return len(bytes), nil
	}
	for _, b := range bytes {
		f.take(b)
	}
	return len(bytes), nil
}

func (f *fakeBoard) take(b byte) {
	switch {
	case b == 0xF0:
		f.sysex, f.part = true, nil
	case b == 0xF7 && f.sysex:
		f.sysex = false
		f.asked(f.part)
	case f.sysex:
		f.part = append(f.part, b)
	case b == 0xF9:
		f.say(0xF9, 2, 5)
	case b >= 0x80:
		f.part = []byte{b}
	default:
		f.part = append(f.part, b)
		if len(f.part) == 3 {
			f.does(f.part)
			f.part = nil
		}
	}
}

func (f *fakeBoard) does(m []byte) {
	switch m[0] {
	case 0xF4:
		f.modes[m[1]] = m[2]
		all := true
		for pin := 8; pin < 12; pin++ {
			all = all && f.modes[pin] == 1
		}
		f.armed = all
		if !all || !f.guarded {
			f.levels[m[1]] = f.low && f.guarded
		}
	case 0x91:
		if f.guarded && !f.armed {
			return
		}
		bits := m[1] | m[2]<<7 ^ f.wrong
		var row [4]bool
		for k := range 4 {
			f.levels[8+k] = bits>>k&1 == 1
			row[k] = f.levels[8+k]
		}
		f.rows = append(f.rows, row)
	}
}

func (f *fakeBoard) asked(m []byte) {
	switch {
	case m[0] == 0x79:
		f.say(0xF0, 0x79, 2, 5, 'B', 0, 'e', 0, 'd', 0, 0xF7)
	case m[0] == 0x6B:
		answer := []byte{0xF0, 0x6C}
		for pin := range 20 {
			answer = append(answer, 0, 1)
			if pin != f.unable {
				answer = append(answer, 1, 1)
			}
			answer = append(answer, 0x7F)
		}
		f.say(append(answer, 0xF7)...)
	case m[0] == 0x6D:
		state := byte(0)
		if f.levels[m[1]] {
			state = 1
		}
		f.say(0xF0, 0x6E, m[1], f.modes[m[1]], state, 0xF7)
	case m[0] == 0x0E && f.guarded && m[1] == 0:
		high := byte(1)
		if f.low {
			high = 0
		}
		f.say(0xF0, 0x0E, 0, 1, 2000&0x7F, 2000>>7, high, 8, 9, 10, 11, 0xF7)
	case m[0] == 0x0E && f.guarded && m[1] == 2:
		row, armed := byte(0), byte(0)
		for k := range 4 {
			if f.levels[8+k] != f.low {
				row |= 1 << k
			}
		}
		if f.armed {
			armed = 1
		} else {
			row = 0
		}
		f.say(0xF0, 0x0E, 2, row, armed, 0xF7)
	}
}

func (f *fakeBoard) say(bytes ...byte) { f.out = append(f.out, bytes...) }

// says puts bytes on the line unasked.
func (f *fakeBoard) says(bytes ...byte) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.say(bytes...)
}

func (f *fakeBoard) set(how func()) {
	f.mu.Lock()
	defer f.mu.Unlock()
	how()
}

func (f *fakeBoard) sent() []byte {
	f.mu.Lock()
	defer f.mu.Unlock()
	return append([]byte(nil), f.got...)
}

// switched says whether anything came that could switch a pin.
func (f *fakeBoard) switched() bool {
	for _, b := range f.sent() {
		if b&0xF0 == 0x90 || b == 0xF4 || b == 0xF5 {
			return true
		}
	}
	return false
}
