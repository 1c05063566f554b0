package view

import (
	"bytes"
	"strings"
	"time"
)

// answers follows what a terminal tells of itself, its colours, its version: strings
// that begin with ESC and one of ] P _ ^ X, and end with BEL or ESC \ (ECMA-48, 5.6,
// Control strings; xterm ends them with BEL too). This program asks for none. One
// that comes late, to somebody else's question, would be taken for keys letter by
// letter; one without an end would keep every key back for seconds.
type answers struct {
	open bool
	esc  bool // its last byte was ESC: what comes now ends it or breaks it off
	last time.Time
}

const (
	answerBegins = "]P_^X"
	answerGap    = time.Second / 10 // after which one without an end is over when a key comes
)

// pass leaves of the first n bytes of p what is none of an answer, and says how much
// that is; p has room for one more. ESC and a letter by themselves are a key.
func (a *answers) pass(p []byte, n int, now time.Time) int {
	if a.open && now.Sub(a.last) > answerGap && n <= longKey {
		a.open, a.esc = false, false
	}
	a.last = now
	if !a.open && bytes.IndexByte(p[:n], '\x1b') < 0 {
		return n
	}
	kept := make([]byte, 0, n+1)
	for i, b := range p[:n] {
		begins := strings.IndexByte(answerBegins, b) >= 0
		switch {
		case a.esc:
			a.esc, a.open = false, begins
			if b != '\\' && !begins {
				kept = append(kept, '\x1b', b)
			}
		case a.open:
			a.esc, a.open = b == '\x1b', b != '\a'
		case begins && n > 2 && i > 0 && p[i-1] == '\x1b':
			kept, a.open = kept[:len(kept)-1], true
		default:
			kept = append(kept, b)
		}
	}
	return copy(p, kept)
}
