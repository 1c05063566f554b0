package recording

import (
	"bytes"
	"encoding/binary"
	"math/bits"
	"runtime"
	"sync"
)

// Nearly all of a recording is lines of two kinds: a time, and a 0 or 1 of a line
// of one bit with a short identifier. The window is parted into pieces that begin
// with a time, and each is gone through beside the others for these two alone. A
// piece that holds anything else is left to scan, which knows everything; what
// both give is the same, and held so by a test.

// piece is a part of the window, and what stands in it.
type piece struct {
	text    []byte // with slack behind it that may be read, and means nothing
	size    int
	samples []Sample // in each, Unknown are the bits that this piece has not told yet
	until   int64    // its last time
	plain   bool     // it holds nothing but the two kinds of lines, and at least one sample
}

const (
	pieceSize = 1 << 17 // bytes
	slack     = 32      // bytes that may be read behind a piece
)

// fast reads the whole window into the queue.
func (v *vcd) fast() error {
	whole := v.buf[:len(v.buf)] // the window keeps slack behind it
	from, end := v.at, v.at+bytes.LastIndexByte(v.buf[v.at:v.end], '\n')+1
	v.pieces = v.pieces[:0]
	for from < end {
		to := end
		if from+pieceSize < end {
			if k := bytes.Index(v.buf[from+pieceSize:end], []byte("\n#")); k >= 0 {
				to = from + pieceSize + k + 1
			}
		}
		n := len(v.pieces)
		if n < cap(v.pieces) {
			v.pieces = v.pieces[:n+1]
		} else {
			v.pieces = append(v.pieces, piece{})
		}
		p := &v.pieces[n]
		p.text, p.size = whole[from:min(to+slack, len(whole))], to-from
		p.plain = !v.comment && !v.vector && len(p.text) == p.size+slack
		from = to
	}
	v.readAhead()
	v.together()
	for i := range v.pieces {
		p := &v.pieces[i]
		if p.plain && !v.comment && !v.vector && (!v.hasTime || p.samples[0].At >= v.sample.At) {
			v.join(p)
			v.at += p.size
			continue
		}
		if err := v.slow(v.at + p.size); err != nil {
			return err
		}
	}
	return v.slow(v.end)
}

// slow reads up to a place of the window into the queue, by scan.
func (v *vcd) slow(to int) error {
	end := v.end
	v.end = to
	defer func() { v.end = end }()
	var room [256]Sample
	for v.at < to {
		n, err := v.scan(room[:], 0)
		v.queue = append(v.queue, room[:n]...)
		if err != nil {
			return err
		}
	}
	return nil
}

// together goes through the pieces on all processors.
func (v *vcd) together() {
	next := make(chan *piece, len(v.pieces))
	for i := range v.pieces {
		next <- &v.pieces[i]
	}
	close(next)
	var wait sync.WaitGroup
	fault := make(chan any, 1)
	for range min(len(v.pieces), runtime.GOMAXPROCS(0)) {
		wait.Add(1)
		go func() {
			defer wait.Done()
			defer func() { // a fault of ours is the caller's to see
				if r := recover(); r != nil {
					select {
					case fault <- r:
					default:
					}
				}
			}()
			for p := range next {
				if p.plain {
					p.read(&v.one, &v.two)
				}
			}
		}()
	}
	wait.Wait()
	select {
	case r := <-fault:
		panic(r)
	default:
	}
}

// join puts what a piece tells behind what is known.
func (v *vcd) join(p *piece) {
	for i := range p.samples {
		s := &p.samples[i]
		v.time(s.At)
		v.sample.High = s.High | v.sample.High&s.Unknown
		v.sample.Unknown &= s.Unknown
	}
	v.time(p.until)
}

// time goes on to a time: what the levels were before it is complete.
func (v *vcd) time(at int64) {
	if v.hasTime && at > v.sample.At && (v.changed() || !v.known) {
		v.queue = append(v.queue, v.take())
	}
	v.hasTime, v.sample.At = true, at
}

// read goes through the piece; plain becomes false where it can not. Which line
// comes next no processor can foresee, so as little as can be hangs on that: a
// line that nobody watches has a bit of its own, and is set like the others.
func (p *piece) read(one *[256]uint8, two *[1 << 16]uint8) {
	text, end := p.text, p.size
	samples := p.samples[:0]
	var at int64 = -1
	var high, toldHigh uint64
	silent, toldSilent := uint64(watched), uint64(watched) // bits not told yet
	p.plain = false
	if end == 0 || text[0] != '#' {
		return
	}
	for i := 0; i < end; {
		c := text[i]
		if c == '#' {
			value, n := eight(binary.LittleEndian.Uint64(text[i+1:]))
			i += n + 1
			if n == 8 {
				for ; text[i]-'0' <= 9 && n <= mostDigits; n++ {
					value = value*10 + uint64(text[i]-'0')
					i++
				}
			}
			if n == 0 || n > mostDigits || text[i] != '\n' || int64(value) < at {
				return
			}
			if (high^toldHigh)&watched != 0 || silent != toldSilent || len(samples) == 0 && at >= 0 {
				samples = append(samples, Sample{at, uint32(high), uint32(silent)})
				toldHigh, toldSilent = high, silent
			}
			at = int64(value)
			i++
			continue
		}
		slot := notOne
		if text[i+2] == '\n' {
			slot = one[text[i+1]]
			i += 3
		} else if text[i+3] == '\n' {
			slot = two[uint16(text[i+1])<<8|uint16(text[i+2])]
			i += 4
		}
		if c&^1 != '0' || slot == notOne {
			return
		}
		bit := uint64(1) << (slot & 63)
		high = high&^bit | uint64(c&1)<<(slot&63)
		silent &^= bit
	}
	if (high^toldHigh)&watched != 0 || silent != toldSilent || len(samples) == 0 {
		samples = append(samples, Sample{at, uint32(high), uint32(silent)})
	}
	p.samples, p.until, p.plain = samples, at, true
}

// watched are the bits of channels that are watched; bit unwatched is for the
// rest.
const watched = 1<<MostChannels - 1

// eight reads the digits that eight bytes begin with, the first the lowest: all
// at once, by adding neighbours as tens and ones, then pairs, then fours.
func eight(bytes uint64) (value uint64, n int) {
	x := bytes ^ 0x3030303030303030 // a digit leaves 0 to 9
	n = bits.TrailingZeros64((x|(x+0x7676767676767676))&0x8080808080808080) >> 3
	if n == 0 {
		return 0, 0
	}
	x <<= 8 * (8 - n) // zeros go before
	x = x*10 + x>>8
	return (x&0x000000ff000000ff*0x000f424000000064 + x>>16&0x000000ff000000ff*0x0000271000000001) >> 32, n
}
