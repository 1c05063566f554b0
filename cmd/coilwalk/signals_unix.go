//go:build unix

package main

import (
	"os"
	"os/signal"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/view"
)

// endings are the signals at which the terminal can still be put back.
var endings = []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT, syscall.SIGTSTP}

// quits are told while no screen is up: the one that is asked to quit ends with the
// status of that signal, without the traces that the runtime would print.
var quits = make(chan os.Signal, 1)

func quitsQuietly() {
	signal.Notify(quits, syscall.SIGQUIT)
	go func() {
		<-quits
		os.Exit(exitSignal + int(syscall.SIGQUIT))
	}()
}

// quitsInOrder leaves that to who listens by itself: a screen, which has to put the
// terminal back, and the line mode, which may hold a real motor.
func quitsInOrder() { signal.Stop(quits) }

// suspends says whether a signal asks to be suspended.
func suspends(s os.Signal) bool { return s == syscall.SIGTSTP }

// suspend puts the terminal back, stops, and takes it again when it goes on.
func suspend(p *tea.Program, out *view.Outlet) {
	_ = p.ReleaseTerminal()
	out.Settle(settleTime)
	stop()
	_ = p.RestoreTerminal()
}

// stop stops until somebody lets it go on.
func stop() {
	goesOn := make(chan os.Signal, 1)
	signal.Notify(goesOn, syscall.SIGCONT)
	defer signal.Stop(goesOn)
	_ = syscall.Kill(syscall.Getpid(), syscall.SIGSTOP)
	<-goesOn // this thread may run on for a moment before all of them stop
}
