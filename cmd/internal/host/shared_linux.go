package host

import (
	"errors"
	"os"

	"go.bug.st/serial"
	"golang.org/x/sys/unix"
)

// sharedPort is a port that is open a second time: to be written to without
// waiting, and for a second process.
type sharedPort struct {
	serial.Port
	line *os.File
	fd   int
}

func shared(p serial.Port, line *os.File) Port {
	return &sharedPort{Port: p, line: line, fd: int(line.Fd())}
}

// Line is what a second process speaks on.
func (s *sharedPort) Line() *os.File { return s.line }

// Put hands over bytes without waiting.
func (s *sharedPort) Put(p []byte) (int, error) {
	n, err := unix.Write(s.fd, p)
	if err == unix.EAGAIN || err == unix.EINTR {
		err = nil
	}
	return max(n, 0), err
}

// Unsent is how many bytes the system holds back.
func (s *sharedPort) Unsent() int {
	n, err := unix.IoctlGetInt(s.fd, unix.TIOCOUTQ)
	if err != nil {
		return 0 // a write will say why
	}
	return n
}

// Close closes the port.
func (s *sharedPort) Close() error { return errors.Join(s.Port.Close(), s.line.Close()) }
