package live

import (
	"bytes"
	"testing"
	"time"

	"coilwalk/testdata/bounds"
)

// Whole messages as the protocol spells them (firmata/protocol, protocol.md).
func TestReaderPartsMessages(t *testing.T) {
	for _, c := range []struct {
		name    string
		bytes   []byte
		want    []message
		garbage int
	}{
		{"version", []byte{0xF9, 2, 5}, []message{{command: 0xF9, data: []byte{2, 5}}}, 0},
		{"port", []byte{0x91, 9, 0}, []message{{command: 0x91, data: []byte{9, 0}}}, 0},
		{"report of a pin", []byte{0xD1, 1}, []message{{command: 0xD1, data: []byte{1}}}, 0},
		{"firmware", []byte{0xF0, 0x79, 2, 5, 0xF7}, []message{{command: 0x79, sysex: true, data: []byte{2, 5}}}, 0},
		{"a message in the midst of another", []byte{0x91, 9, 0xF9, 2, 5}, []message{{command: 0xF9, data: []byte{2, 5}}}, 2},
		{"a sysex that begins twice", []byte{0xF0, 0x79, 0xF0, 0x6C, 0x7F, 0xF7}, []message{{command: 0x6C, sysex: true, data: []byte{0x7F}}}, 2},
		{"an end without a beginning", []byte{0xF7, 0xF9, 2, 5}, []message{{command: 0xF9, data: []byte{2, 5}}}, 1},
		{"an empty sysex", []byte{0xF0, 0xF7}, nil, 2},
		{"stray data", []byte{1, 2, 3}, nil, 3},
		{"reset", []byte{0xFF}, []message{{command: 0xFF}}, 0},
	} {
		var r reader
		var got []message
		for _, b := range c.bytes {
			if m, ok := r.take(b); ok {
				got = append(got, m)
			}
		}
		if len(got) != len(c.want) || r.garbage != c.garbage {
			t.Errorf("%s: %v with %d bytes of garbage, want %v with %d", c.name, got, r.garbage, c.want, c.garbage)
			continue
		}
		for k := range got {
			if got[k].command != c.want[k].command || got[k].sysex != c.want[k].sysex || !bytes.Equal(got[k].data, c.want[k].data) {
				t.Errorf("%s: %v, want %v", c.name, got[k], c.want[k])
			}
		}
	}
}

// A sysex without an end does not fill the memory.
func TestLongSysexIsDropped(t *testing.T) {
	var r reader
	r.take(0xF0)
	for range 3 * longestSysex {
		r.take(0x11)
	}
	if len(r.part) > longestSysex || r.garbage < longestSysex {
		t.Errorf("%d bytes are kept, %d counted as garbage", len(r.part), r.garbage)
	}
	r.take(0xF9)
	r.take(2)
	if m, ok := r.take(5); !ok || m.command != version {
		t.Error("it is not in step again")
	}
}

// Whatever comes: no crash, no byte lost or counted twice, bounded memory, and a
// whole message behind it is read.
func FuzzReader(f *testing.F) {
	f.Add([]byte{0xF9, 2, 5, 0xF0, 0x79, 2, 5, 'B', 0, 0xF7})
	f.Add([]byte{0xF0, 0x6C, 0, 1, 1, 1, 0x7F, 0x7F, 0xF7})
	f.Add([]byte{0xF0, 0x0E, 2, 9, 1, 0xF7, 0x91, 9})
	f.Add([]byte{0x91, 9, 0x91, 9, 9}) // the first comes to no end
	f.Add(append([]byte{0xF0}, make([]byte, longestSysex+2)...))
	f.Fuzz(func(t *testing.T, bytes []byte) {
		late := time.AfterFunc(bounds.Longest, func() { panic("no answer") })
		defer late.Stop()
		var r reader
		whole := 0
		for _, b := range bytes {
			if m, ok := r.take(b); ok {
				whole += 1 + len(m.data)
				if m.sysex {
					whole += 2
				}
				for _, d := range m.data {
					if d&0x80 != 0 {
						t.Fatalf("data with the top bit: % x", m.data)
					}
				}
			}
			if len(r.part) > longestSysex {
				t.Fatal("too much is kept")
			}
		}
		open := len(r.part)
		if r.sysex {
			open++
		}
		if whole+r.garbage+open != len(bytes) {
			t.Fatalf("%d bytes in messages, %d garbage, %d open, of %d", whole, r.garbage, open, len(bytes))
		}
		r.take(0xFF)
		r.take(0xF0)
		r.take(0x0E)
		r.take(0x02)
		r.take(0x09)
		r.take(0x01)
		if m, ok := r.take(0xF7); !ok || m.command != benchMessage || m.data[1] != 9 {
			t.Fatal("a whole message behind it is not read")
		}
		abilities(bytes)
		spelled(bytes)
	})
}
