//go:build unix

// Package quits ends the program with the status of the signal when it is asked to
// quit, without the traces that the runtime would print: from its first moment on, for
// libraries take some thirty milliseconds to get ready before main begins.
//
// Go initialises packages that are ready in the order of their import paths, and this
// one sorts before those libraries. A test holds that.
package quits

import (
	"os"
	"os/signal"
	"syscall"
)

// status is that of the signal, as a shell has it.
const status = 128 + int(syscall.SIGQUIT)

var asked = listen()

func listen() chan os.Signal {
	asked := make(chan os.Signal, 1)
	signal.Notify(asked, syscall.SIGQUIT)
	go func() {
		<-asked
		os.Exit(status)
	}()
	return asked
}

// InOrder leaves that to who listens by itself: a screen, which has to put the
// terminal back, and the line mode, which may hold a real motor.
func InOrder() { signal.Stop(asked) }
