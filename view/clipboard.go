package view

import (
	"encoding/base64"
	"fmt"
	"io"

	"coilwalk/view/report"
)

// mostCopied bounds what is handed to a clipboard: many terminals drop a sequence
// of more than 100 000 letters, and four carry three bytes.
const mostCopied = 74_000

// setClipboard is the control sequence by which a terminal is asked to put a text
// into the clipboard: OSC 52, of xterm's control sequences.
func setClipboard(text []byte) string {
	return "\x1b]52;c;" + base64.StdEncoding.EncodeToString(text) + "\x1b\\"
}

// copied is what came of handing a text over.
type copied struct {
	words string
	err   error
}

// copy hands the file to the terminal's clipboard. The sequence goes out in one
// write, beside the pictures: it moves nothing on the screen.
func (t *takeScreen) copy(e *Explorer) {
	switch {
	case t.err != nil:
		e.notice = alarm("there is no file to copy: " + t.err.Error())
		return
	case e.Terminal == nil:
		e.notice = alarm("there is no terminal to hand it to; {take-along.save} saves it")
		return
	case len(t.text) > mostCopied:
		e.notice = alarm(fmt.Sprintf("%s bytes are more than terminals take (%s); {take-along.save} saves it", report.Count(int64(len(t.text))), report.Count(mostCopied)))
		return
	}
	out, sequence := e.Terminal, setClipboard(t.text)
	words := fmt.Sprintf("%s bytes sent to the clipboard; the terminal may refuse: paste to see", report.Count(int64(len(t.text))))
	if report.Drawn(t.sheet.Kind) {
		words = "sent to the clipboard as svg; the terminal may refuse: paste to see"
	}
	e.later(func() late {
		_, err := io.WriteString(out, sequence)
		return copied{words, err}
	})
}

func (c copied) arrive(e *Explorer) {
	e.notice = advice(c.words)
	if c.err != nil {
		e.notice = alarm(c.err.Error())
	}
}
