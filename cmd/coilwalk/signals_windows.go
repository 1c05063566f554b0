package main

import (
	"os"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"

	"coilwalk/view"
)

// endings are the signals after which the terminal can still be put back.
var endings = []os.Signal{os.Interrupt, syscall.SIGTERM}

// suspends says whether a signal asks to be suspended: none does here.
func suspends(os.Signal) bool { return false }

func suspend(*tea.Program, *view.Outlet) {}

// stop stops: nothing does here.
func stop() {}
