package live

import (
	"errors"
	"fmt"
	"io/fs"
	"syscall"
	"time"

	"go.bug.st/serial"
)

// Ports lists the serial ports that the system tells of. A port that is not in
// it can still be opened by its name.
func Ports() ([]string, error) { return serial.GetPortsList() }

// stream is a serial port, or what stands for one.
type stream interface {
	Read([]byte) (int, error) // 0 and no error when nothing came in readTime
	Write([]byte) (int, error)
	Close() error
}

// readTime is how long a read of a port waits.
const readTime = 100 * time.Millisecond

// openPort opens a serial port with 8 bits, no parity. Many boards are reset by
// that.
func openPort(name string, baud int) (stream, error) {
	port, err := serial.Open(name, &serial.Mode{BaudRate: baud})
	if err != nil {
		return nil, fmt.Errorf("%s can not be opened: %s", name, whyNot(err))
	}
	if err := port.SetReadTimeout(readTime); err != nil {
		port.Close()
		return nil, fmt.Errorf("%s can not be used: %w", name, err)
	}
	_ = port.ResetInputBuffer() // what is stale is left out by the reader anyway
	return port, nil
}

// whyNot says what can be done about a port that does not open.
func whyNot(err error) string {
	var p *serial.PortError
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.As(err, &p) && p.Code() == serial.PortNotFound:
		return "there is no such port; coilwalk live lists those that there are"
	case errors.Is(err, fs.ErrPermission), errors.As(err, &p) && p.Code() == serial.PermissionDenied:
		return "it is not yours to open; on Linux, join the group that owns it (ls -l tells)"
	case errors.As(err, &p) && p.Code() == serial.PortBusy:
		return "another program has it open"
	case errors.As(err, &p) && p.Code() == serial.InvalidSerialPort, errors.Is(err, syscall.ENOTTY):
		return "it is no serial port"
	}
	return err.Error()
}
