package deadman

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"syscall"
	"time"

	"golang.org/x/sys/unix"
)

// Switch is the second process as the first sees it. A nil one does nothing.
type Switch struct {
	cmd    *exec.Cmd
	pipe   *os.File
	moving bool
	told   time.Time
}

// Line opens a port for a second process. That has to come before the port is
// opened for good: nobody else can then.
func Line(name string) (*os.File, error) {
	fd, err := unix.Open(name, unix.O_RDWR|unix.O_NOCTTY|unix.O_NONBLOCK|unix.O_CLOEXEC, 0)
	if err != nil {
		return nil, err
	}
	if _, err := unix.IoctlGetInt(fd, unix.TIOCOUTQ); err != nil { // it is no port
		return nil, errors.Join(err, unix.Close(fd))
	}
	// To a File that it knows as one that waits, the mode is left as it is.
	err = unix.SetNonblock(fd, false)
	f := os.NewFile(uintptr(fd), name)
	return f, errors.Join(err, unix.SetNonblock(fd, true))
}

// self is the program that runs, also where its file has been replaced.
const self = "/proc/self/exe"

// readyWithin is far more than a process takes to begin.
const readyWithin = 5 * time.Second

// Start begins the second process, which watches the first and speaks on line.
func Start(line *os.File, w Words) (*Switch, error) {
	theirs, ours, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	defer func() { _ = theirs.Close() }()
	cmd := exec.Command(self, w.arguments()...)
	cmd.Args[0] = name
	cmd.Stdin, cmd.ExtraFiles = theirs, []*os.File{line}
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true} // what befalls our terminal does not befall it
	says, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		return nil, errors.Join(err, ours.Close())
	}
	s := &Switch{cmd: cmd, pipe: ours}
	late := time.AfterFunc(readyWithin, func() { _ = cmd.Process.Kill() })
	defer late.Stop()
	if n, _ := says.Read(make([]byte, 1)); n == 0 {
		return nil, fmt.Errorf("it ended as it began: %v", s.Close())
	}
	return s, nil
}

// name is what the second process is called.
const name = "seamrail"

// Moves tells that something moves, or that nothing does. It comes before the
// bytes that make it move.
func (s *Switch) Moves(moving bool) error {
	if s == nil {
		return nil
	}
	s.moving = moving
	if moving {
		return s.tell(moves)
	}
	return s.tell(rests)
}

// Beat tells that this program is still there, if it is time to. The wait
// for what happens next must come back within the time that it returns.
func (s *Switch) Beat(now time.Time) (next time.Duration, err error) {
	if s == nil || !s.moving {
		return time.Hour, nil
	}
	if left := beatEvery - now.Sub(s.told); left > 0 {
		return left, nil
	}
	return beatEvery, s.tell(beats)
}

func (s *Switch) tell(b byte) error {
	s.told = time.Now()
	_, err := s.pipe.Write([]byte{b})
	return err
}

// Close lets the second process end, and waits until it has let go of the port.
// While something moves it is not let: it holds that then.
func (s *Switch) Close() error {
	if s == nil {
		return nil
	}
	if s.moving {
		return s.pipe.Close()
	}
	_ = s.tell(done)
	_ = s.pipe.Close()
	return s.cmd.Wait()
}
