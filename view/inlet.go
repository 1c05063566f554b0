package view

import (
	"bytes"
	"io"
	"os"
	"time"
)

// Inlet is the way from the terminal. It tells when the terminal is gone, which a
// signal does not always do: only the first of a session gets one. It sees to it
// that a paste ends: the terminal library keeps everything back until the mark of
// its end has come, the space bar too. And it leaves out what a terminal says of
// itself.
type Inlet struct {
	*os.File
	Gone func() // called when nothing will ever come any more

	paste   paste
	answers answers
}

// Read implements io.Reader. Nothing but the end of the terminal ends it.
func (i *Inlet) Read(p []byte) (int, error) {
	for {
		held := copy(p, pasteBegins[:i.paste.held])
		n, err := i.File.Read(p[held:max(held+1, len(p)-1)])
		if err != nil {
			i.Gone()
			return 0, io.EOF
		}
		now := time.Now()
		if n = i.answers.pass(p[held:], n, now); n == 0 {
			continue
		}
		if n = i.paste.pass(p, held, n, now); n > 0 {
			return n, nil
		}
	}
}

// The marks about a paste (xterm control sequences, bracketed paste mode), and what
// is bounded of it.
const (
	pasteBegins = "\x1b[200~"
	pasteEnds   = "\x1b[201~"
	longPaste   = 16 << 10         // bytes; what is longer is cut
	pasteIdle   = 2 * time.Second  // after which a paste is over when a key comes
	pasteGap    = time.Second / 10 // after which it is over when space or ctrl+c comes alone: who hits them in need does not wait
	longKey     = 8                // bytes of a key
)

// paste follows the pastes in what comes.
type paste struct {
	open  bool
	taken int // bytes of this one
	last  time.Time
	seen  int // bytes of a mark that may be coming
	held  int // of these, kept back until one knows: in parts it would be taken for keys
}

// pass leaves of what stands in p, the bytes that were held and n new ones, what is
// to be passed on now, and says how much it is: all, but for what a paste has too
// much, and for a mark that may go on. Of a paste that is too long the marks stay.
func (s *paste) pass(p []byte, held, n int, now time.Time) int {
	gap := now.Sub(s.last)
	over := gap > pasteIdle && n <= longKey || gap > pasteGap && n == 1 && (p[0] == ' ' || p[0] == '\x03')
	s.last, s.held = now, 0
	if s.open && over && n+len(pasteEnds) <= len(p) && !bytes.HasPrefix(p[:n], []byte(pasteEnds[:4])) { // its end has been lost
		s.open, s.seen = false, 0
		copy(p[len(pasteEnds):], p[:n])
		return copy(p, pasteEnds) + n
	}
	out := held
	for _, b := range p[held : held+n] {
		mark := pasteBegins
		if s.open {
			mark = pasteEnds
		}
		switch b {
		case mark[s.seen]:
			s.seen++
		case mark[0]:
			s.seen = 1
		default:
			s.seen = 0
		}
		if s.open {
			s.taken++
		}
		if !s.open || s.taken <= longPaste || s.seen > 0 {
			p[out] = b
			out++
		}
		if s.seen == len(mark) {
			s.open, s.taken, s.seen = !s.open, 0, 0
		}
	}
	// Of a mark whose ESC came by itself before, that was passed on as a key.
	whole := s.seen <= out
	if !s.open && whole && (s.seen > 1 || s.seen == 1 && n > longKey) { // an ESC by itself is a key
		s.held = s.seen
	}
	return out - s.held
}
