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
