package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"github.com/charmbracelet/x/term"
)

// wonders is how long a person waits before wondering whether anything happens.
const wonders = time.Second

// reckons begins something that may take long, and says so after a while to a person
// at a terminal; done is called before the answer is written. Where a program reads,
// there is nothing on standard error but what is wrong.
func (p *program) reckons() (done func()) {
	errs, isFile := p.errs.(*os.File)
	out, outFile := p.out.Writer.(*os.File)
	if p.json || !isFile || !outFile || !term.IsTerminal(errs.Fd()) || !term.IsTerminal(out.Fd()) {
		return func() {}
	}
	return saysAfter(wonders, errs)
}

// saysAfter writes the line unless it is done before. It is a line of its own, that
// stays: one that is taken back would need a terminal that can, and be left half by
// ctrl+c.
func saysAfter(wait time.Duration, to io.Writer) (done func()) {
	var lock sync.Mutex
	over := false
	late := time.AfterFunc(wait, func() {
		lock.Lock()
		defer lock.Unlock()
		if !over {
			fmt.Fprintln(to, "coilwalk is still reckoning; ctrl+c ends it")
		}
	})
	return func() {
		late.Stop()
		lock.Lock()
		defer lock.Unlock()
		over = true
	}
}
