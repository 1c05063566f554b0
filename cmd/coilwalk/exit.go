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

// crashed is the outcome of a panic that was caught.
type crashed struct{ what string }

func (c crashed) Error() string { return c.what }

// program is one call of coilwalk: where it reads and writes, and its flags
// that all commands share.
type program struct {
	in        io.Reader
	out, errs io.Writer

	motorName string
	load      quantity.Torque
	json      bool
}

// status says an error on standard error, in one line, and gives the exit
// status.
func (p *program) status(err error) int {
	var s signalled
	var c crashed
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

func oneLine(text string) string {
	return files.Shown(strings.Join(strings.Fields(text), " "))
}
