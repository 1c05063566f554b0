package view

import (
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/model/bench"
	"coilwalk/model/live"
	"coilwalk/model/motor"
	"coilwalk/model/table"
	"coilwalk/model/wiring"
	"coilwalk/testdata/bounds"
	"coilwalk/view/opened"
	"coilwalk/view/picture"
)

// What a sitting of keys may cost: each key makes a picture, and a row in time runs
// the rotor.
const (
	keysBase    = 512 << 20
	keysPerByte = 8 << 20
	mostKeys    = 60 // of one sitting
)

// strange are runes that are typed besides letters: they take two cells or none,
// turn the writing round, steer a terminal, or are no runes. No stroke parts folders,
// so that what is saved stays in the test's own.
var strange = []rune{'ü', 'Ω', '漢', 'ﷺ', '\u0301', '\u200b', '\u202e', '\u2066', '\u009b', '\x1b', '\x00', '\x7f', utf8.RuneError, '\U0001f600', '\u00ad', '\u2028', '⚠', '\ufe0f'}

// furtherKeys are those that are no runes, by number from 0x80 on.
var furtherKeys = []tea.KeyType{tea.KeyRight, tea.KeyLeft, tea.KeyUp, tea.KeyDown, tea.KeyEnter, tea.KeyEsc, tea.KeyTab, tea.KeyShiftTab, tea.KeyBackspace, tea.KeyDelete, tea.KeyHome, tea.KeyEnd,
	tea.KeyPgUp, tea.KeyPgDown, tea.KeyCtrlA, tea.KeyCtrlK, tea.KeyCtrlV, tea.KeyCtrlZ, tea.KeyF1, tea.KeyInsert}

// keyOf gives the key that a byte of an input stands for.
func keyOf(b byte) tea.KeyMsg {
	switch {
	case b == ' ':
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	case b == '\n':
		return tea.KeyMsg{Type: tea.KeyEnter}
	case b > ' ' && b < 0x7f && b != '/' && b != '\\':
		return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{rune(b)}}
	case b >= 0x80 && int(b-0x80) < len(furtherKeys):
		return tea.KeyMsg{Type: furtherKeys[b-0x80]}
	case b >= 0xf8:
		return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("pasted\x1b[2J\n1000"), Paste: true}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{strange[int(b)%len(strange)]}}
}

// wrongPicture says what is wrong with a picture for a terminal of w by h cells: as
// many lines as it has, none wider, and no control character but the sequences that
// colour; "" when nothing is.
func wrongPicture(text string, w, h int) string {
	if !utf8.ValidString(text) {
		return "bytes that are no text"
	}
	lines := strings.Split(text, "\n")
	if len(lines) != h {
		return "too many lines, or too few"
	}
	for _, line := range lines {
		if picture.Width(line) > w {
			return "a line is too wide: " + line
		}
		for rest := line; rest != ""; {
			if after, ok := strings.CutPrefix(rest, "\x1b["); ok {
				colours := strings.TrimLeft(after, "0123456789;")
				if !strings.HasPrefix(colours, "m") {
					return "a sequence that colours nothing: " + line
				}
				rest = colours[1:]
				continue
			}
			r, size := utf8.DecodeRuneInString(rest)
			if unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) || unicode.In(r, unicode.Mn, unicode.Me) {
				return "a character that could steer the terminal: " + line
			}
			rest = rest[size:]
		}
	}
	return ""
}

// sitting opens an explorer on one of the motors, perhaps with a table, readings, a
// recording or a motor that is rehearsed.
func sitting(t *testing.T, which byte) (*Explorer, *clock) {
	c := newClock()
	s := Settings{Now: c.Now, ASCII: which&0x40 != 0, Still: which&0x20 != 0, Depth: picture.Colours256}
	if which&0x80 != 0 {
		s.Depth, s.Theme = picture.Colours16, picture.Light
	}
	m, _ := motor.BuiltIn(motor.Names()[int(which&7)%len(motor.Names())])
	var is Opened
	switch which >> 3 & 3 {
	case 1:
		source, err := table.Read("t.c", []byte("int t[] = {8, 4, 2, 5};"), table.Options{})
		if err != nil {
			t.Fatal(err)
		}
		question := table.Question{AnyDrive: true}
		is.Checked = &opened.Table{File: "t\x1b[2J\u202e.c", Verdicts: []table.Verdict{table.Judge(&source.Tables[0], question)}, Question: question}
	case 2:
		is.Readings, _ = wiring.ReadReadings("r", []byte("BN,VT,52\nWH,VT,51\nBN,WH,104\n"))
	case 3:
		if which&7 == 7 {
			e, c := recorded(t, "flap.vcd", "", s)
			return e, c
		}
		held := live.Hold(live.NewNull(), nil, nil)
		t.Cleanup(func() { held.Close() })
		is.Live = &Live{Motor: held}
	}
	return New(bench.New(m), s, is), c
}

// FuzzKeys presses anything on every screen, at every size: the explorer goes on,
// and its pictures fit.
func FuzzKeys(f *testing.F) {
	for k, keys := range []string{"\x80\x80\x80\x81", "m\x80w23\n\x80\n", "w99\n\x85", "??g123456789012\n", "L242\n240\n\x87n\x85a12", "F\x83\n\x82\x80", "S\x83\x83\x83\n42:1\n", "R\x83\n24V\n", "P\n\x83usb\n", "A\x83\x80\x80\x8ds\xffx\n", "T\x83n1", "C\x80\x80na+-0",
		"p600\n\n  ", "ao\nn \n", "z\x80", "f\x01\x02\x03\x04\x05\x06\x07\x08\x0b\x0c\x0e\x0f\x10\x11\x12\n", "\xf9\xf9", "aon\n\x80 "} {
		f.Add(byte(k*37), uint8(80+k), uint8(24+k), keys)
		f.Add(byte(k*8+k), uint8(200), uint8(60), keys)
		f.Add(byte(k*11), uint8(k), uint8(k), keys)
		f.Add(byte(0x18+k%8), uint8(80), uint8(24), keys)
	}
	f.Fuzz(func(t *testing.T, which, w, h uint8, keys string) {
		width, height := 1+int(w)%200, 1+int(h)%60
		keys = keys[:min(len(keys), mostKeys)]
		e, c := sitting(t, which)
		t.Chdir(t.TempDir()) // where what is saved goes
		bounds.Hold(t, len(keys), keysBase, keysPerByte, func() {
			look := func(after string) {
				if wrong := wrongPicture(e.View(), width, height); wrong != "" {
					t.Fatalf("%d by %d after %q: %s", width, height, after, wrong)
				}
			}
			sized(e, width, height)
			look("nothing")
			for k := range len(keys) {
				e.Update(keyOf(keys[k]))
				c.pass(40 * time.Millisecond)
				if e.wait {
					e.Update(frameMsg(e.frame))
				}
				if e.live != nil {
					e.Update(Stirred{})
				}
				look(keys[:k+1])
			}
		})
	})
}
