package view

import (
	"os"

	"golang.org/x/sys/unix"
)

// forget drops what the system has taken for a terminal, and not passed on yet.
func forget(terminal *os.File) {
	_ = unix.IoctlSetInt(int(terminal.Fd()), unix.TCFLSH, unix.TCOFLUSH)
}
