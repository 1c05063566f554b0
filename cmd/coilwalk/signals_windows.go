package main

import (
	"os"
	"syscall"
)

// endings are the signals after which the terminal can still be put back.
var endings = []os.Signal{os.Interrupt, syscall.SIGTERM}
