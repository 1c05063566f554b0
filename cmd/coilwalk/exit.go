package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"syscall"

	"coilwalk/model/files"
	"coilwalk/model/handoff"
	"coilwalk/model/quantity"
)

// Exit statuses.
const (
	exitDone    = 0   // done, or clean
	exitFinding = 1   // a finding: the table is not sound
	exitInput   = 2   // bad input or usage
	exitOurs    = 3   // our own fault
	exitLink    = 4   // the link to a real motor failed
	exitSignal  = 128 // plus the number of the signal
)

// errFinding is the outcome of a command that did its work and found something;
// it has been told already.
var errFinding = errors.New("a finding")

// signalled is the outcome of an explorer that a signal ended.
type signalled struct{ signal syscall.Signal }

func (s signalled) Error() string { return "ended by signal " + s.signal.String() }

// program is one call of coilwalk: where it reads and writes, and its flags
// that all commands share.
type program struct {
	in   io.Reader
	out  *output
	errs io.Writer

	motorName string
	load      quantity.Torque
	json      bool
}

// output is standard output. It keeps the first failure, for the help that the
// command library prints without looking.
type output struct {
	io.Writer
	failed error
}

// Write implements io.Writer.
func (o *output) Write(p []byte) (int, error) {
	n, err := o.Writer.Write(p)
	if err != nil && o.failed == nil {
		o.failed = fmt.Errorf("standard output could not be written: %w", files.Bare(err))
	}
	if err != nil {
		err = o.failed
	}
	return n, err
}

// status says an error on standard error, in one line, and gives the exit
// status.
func (p *program) status(err error) int {
	var s signalled
	var c crashed
	if err == nil && p.out != nil {
		err = p.out.failed
	}
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errFinding):
		return exitFinding
	case errors.As(err, &s):
		return exitSignal + int(s.signal)
	case errors.As(err, &c):
		fmt.Fprintln(p.errs, "coilwalk: "+c.Error())
		return exitOurs
	case errors.As(err, new(lost)), errors.As(err, new(unreached)):
		fmt.Fprintln(p.errs, "coilwalk: "+oneLine(err.Error()))
		return exitLink
	case errors.Is(err, context.Canceled): // by ctrl+c, while something long ran
		return exitSignal + int(syscall.SIGINT)
	case errors.Is(err, handoff.ErrUnproven):
		fmt.Fprintln(p.errs, "coilwalk: "+oneLine(err.Error())+"; this is a fault of coilwalk's own")
		return exitOurs
	case errors.Is(err, syscall.EPIPE): // the reader has seen enough
		return exitSignal + int(syscall.SIGPIPE)
	}
	fmt.Fprintln(p.errs, "coilwalk: "+oneLine(err.Error()))
	return exitInput
}

// oneLine makes one plain line of an error's text. A complaint has several parts,
// each of them cut already; the advice comes last and may not be lost.
func oneLine(text string) string {
	return files.ShownUpTo(longestMessage, strings.Join(strings.Fields(text), " "))
}

// longestMessage bounds what is said of a mistake, in characters.
const longestMessage = 1000
