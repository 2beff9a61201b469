package host

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"syscall"

	"go.bug.st/serial"

	"seamrail/cmd/internal/deadman"
	"seamrail/motion/base/plain"
)

// Open opens a serial port at a speed in bits a second, eight bits without
// parity and one stop bit, as boards of the trade talk. The error says in plain
// words why it cannot.
func Open(name string, baud int) (Port, error) {
	line, without := deadman.Line(name)
	p, err := serial.Open(name, &serial.Mode{BaudRate: baud})
	switch {
	case err != nil && without == nil:
		_ = line.Close()
		fallthrough
	case err != nil:
		return nil, plainOpen(name, baud, err)
	case without != nil:
		return p, nil
	}
	return shared(p, line), nil
}

// Trouble is a reason for which a port does not open.
type Trouble int

// The reasons that are known.
const (
	Unknown  Trouble = iota
	NotThere         // there is no such port
	Busy             // another program has it
	Denied           // this user may not use it
	BadSpeed         // it cannot do that speed
	NoPort           // it is something else than a serial port
)

// OpenError says why a port does not open.
type OpenError struct {
	Trouble Trouble
	words   string
}

// Error says it in plain words.
func (e *OpenError) Error() string { return e.words }

// plainOpen words what the library and the system say.
func plainOpen(name string, baud int, err error) error {
	why := func(t Trouble, format string, args ...any) error { return &OpenError{t, fmt.Sprintf(format, args...)} }
	switch {
	case is(err, serial.PortNotFound) || errors.Is(err, fs.ErrNotExist):
		return why(NotThere, "port %s is not there; \"seamrail ports\" lists those that are", name)
	case is(err, serial.PortBusy) || errors.Is(err, syscall.EBUSY):
		return why(Busy, "port %s is in use by another program; close that first", name)
	case is(err, serial.PermissionDenied) || errors.Is(err, fs.ErrPermission):
		return why(Denied, "port %s is there, but you may not use it; on many systems one has to join the group that owns it", name)
	case is(err, serial.InvalidSpeed):
		return why(BadSpeed, "port %s cannot do %d baud", name, baud)
	case is(err, serial.InvalidSerialPort) || errors.Is(err, syscall.ENOTTY):
		return why(NoPort, "%s is not a serial port", name)
	}
	return fmt.Errorf("port %s: %w", name, err)
}

// is tells whether the library gave a code.
func is(err error, code serial.PortErrorCode) bool {
	var port *serial.PortError
	return errors.As(err, &port) && port.Code() == code
}

// PortFacts is what the system knows of a serial port.
type PortFacts struct {
	Name            string
	USB             bool
	Vendor, Product string // USB numbers, hexadecimal
	Serial          string // number of what is plugged in
	Maker, Title    string // what it says it is
}

// Numbers are the vendor's and the product's number, as "1234:00ab", or a dash.
func (p PortFacts) Numbers() string {
	if !p.USB {
		return "-"
	}
	return plain.Line(strings.ToLower(p.Vendor + ":" + p.Product))
}

// Number is the serial number of what is plugged in, or a dash.
func (p PortFacts) Number() string { return known(p.Serial) }

// About is what it says that it is, or a dash.
func (p PortFacts) About() string { return known(strings.TrimSpace(p.Maker + " " + p.Title)) }

// known is a text from a device, made safe to print, or a dash.
func known(s string) string {
	if s = strings.TrimSpace(plain.Line(s)); s == "" {
		return "-"
	}
	return s
}
