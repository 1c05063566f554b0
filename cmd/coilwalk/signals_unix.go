//go:build unix

package main

import (
	"os"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
)

// endings are the signals at which the terminal can still be put back.
var endings = []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT, syscall.SIGTSTP}

// suspends says whether a signal asks to be suspended.
func suspends(s os.Signal) bool { return s == syscall.SIGTSTP }

// suspend puts the terminal back, stops, and takes it again when it goes on.
func suspend(p *tea.Program) {
	_ = p.ReleaseTerminal()
	_ = syscall.Kill(syscall.Getpid(), syscall.SIGSTOP)
	_ = p.RestoreTerminal()
}
