package host

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"sync"
	"time"

	"go.bug.st/serial"
	"golang.org/x/sys/unix"

	"seamrail/cmd/internal/deadman"
)

// Listeners calls gone once nobody can read any more what is printed to one of
// the files: the other end of a pipe was closed, or a terminal was. Nothing has
// to be printed for that to be seen. Call what it returns when it does not matter
// any more.
func Listeners(files []*os.File, gone func(error)) (release func()) {
	ends, wake, err := os.Pipe()
	if err != nil {
		return func() {} // a write will tell
	}
	fds := []unix.PollFd{{Fd: int32(ends.Fd()), Events: unix.POLLIN}}
	for _, f := range files {
		fds = append(fds, unix.PollFd{Fd: int32(f.Fd())}) // only that it is closed
	}
	over := make(chan struct{})
	deadman.Go(func() {
		defer close(over)
		for {
			_, err := unix.Poll(fds, -1)
			if err == unix.EINTR {
				continue
			}
			if err != nil || fds[0].Revents != 0 {
				return
			}
			for i, fd := range fds[1:] {
				if fd.Revents != 0 {
					gone(fmt.Errorf("nobody reads %s any more", files[i].Name()))
					return
				}
			}
		}
	})
	return sync.OnceFunc(func() {
		_ = wake.Close()
		<-over
		_ = ends.Close()
	})
}

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

// asleep is how long the computer has been suspended since it was started: the
// clock that counts suspension less the one that does not (clock_gettime(2)).
// Setting the time of day changes neither.
func asleep() time.Duration {
	var all, awake unix.Timespec
	if unix.ClockGettime(unix.CLOCK_BOOTTIME, &all) != nil || unix.ClockGettime(unix.CLOCK_MONOTONIC, &awake) != nil {
		return 0
	}
	return time.Duration(all.Nano() - awake.Nano())
}

// How each urgency is asked for. One that is brief asks for slices of the least length
// there is, in ns (sched_setattr(2), since Linux 6.12). A program that is first is so at the lowest of the
// levels that there are: nothing of the system's own has to wait for it. One that is
// ahead is half way to what a system keeps to itself.
var urgencies = [...]unix.SchedAttr{
	Ordinary: {Policy: unix.SCHED_NORMAL},
	brief:    {Policy: unix.SCHED_NORMAL, Runtime: 100_000},
	Ahead:    {Policy: unix.SCHED_NORMAL, Nice: -10},
	First:    {Policy: unix.SCHED_FIFO, Priority: 1},
}

// become sets the urgency of every thread, and with it of those that they begin: on
// its way from a signal to the wire a stop passes through several.
func (u Urgency) become() error {
	tasks, err := os.ReadDir("/proc/self/task")
	if err != nil {
		return err
	}
	how := urgencies[u]
	how.Size = unix.SizeofSchedAttr
	for _, task := range tasks {
		id, err := strconv.Atoi(task.Name())
		if err == nil {
			err = unix.SchedSetAttr(id, &how, 0)
		}
		if err != nil && err != unix.ESRCH { // one that has ended meanwhile
			return err
		}
	}
	return nil
}
