package deadman

import (
	"os/signal"
	"syscall"
	"time"

	"golang.org/x/sys/unix"
)

// The descriptors of the second process.
const (
	pipe   = 0
	answer = 1
	line   = 3
)

// watcher is the second process.
type watcher struct {
	words  Words
	moving bool
	stuck  bool // it has been held because the first process was
}

// watch is all that the second process does. Only the first ends it.
func watch(w Words) int {
	signal.Ignore(syscall.SIGHUP, syscall.SIGINT, syscall.SIGQUIT, syscall.SIGTERM, syscall.SIGTSTP, syscall.SIGPIPE,
		syscall.SIGUSR1, syscall.SIGUSR2, syscall.SIGALRM)
	if _, err := unix.IoctlGetInt(line, unix.TIOCOUTQ); err != nil {
		return misuse
	}
	_ = unix.SetNonblock(line, true)
	if n, err := unix.Write(answer, []byte{ready}); n != 1 || err != nil {
		return misuse
	}
	x := watcher{words: w}
	for x.hear() {
	}
	return 0
}

// hear waits for what the first process says, or for its end.
func (x *watcher) hear() (more bool) {
	limit := -1
	if x.moving && !x.stuck {
		limit = int(stuckAfter.Milliseconds())
	}
	n, err := unix.Poll([]unix.PollFd{{Fd: pipe, Events: unix.POLLIN}}, limit)
	switch {
	case err == unix.EINTR:
		return true
	case err == nil && n == 0:
		x.stuck = true
		x.hold()
		return true
	}
	var buf [64]byte
	n, err = unix.Read(pipe, buf[:])
	if err == unix.EINTR {
		return true
	}
	if n <= 0 {
		x.gone()
		return false
	}
	x.stuck = false
	for _, b := range buf[:n] {
		switch b {
		case moves, rests:
			x.moving = b == moves
		case done:
			return false
		}
	}
	return true
}

// gone holds what moves now that the first process is not there any more, and
// makes the controller forget the rest: nobody is there to watch it go on.
func (x *watcher) gone() {
	if !x.moving {
		return
	}
	x.hold()
	if len(x.words.Forget) > 0 {
		time.Sleep(x.words.Rest)
		x.say(x.words.Forget)
	}
	_ = unix.IoctlSetInt(line, unix.TCSBRK, 1) // waits until all has left (tcdrain)
}

// sayWithin is how long a port may take no byte.
const sayWithin = 2 * time.Second

// hold puts the hold on the wire, in place of all that waits for it.
func (x *watcher) hold() {
	_ = unix.IoctlSetInt(line, unix.TCFLSH, unix.TCOFLUSH)
	x.say(x.words.Hold)
}

// say puts bytes on the wire.
func (x *watcher) say(b []byte) {
	for end := time.Now().Add(sayWithin); len(b) > 0 && time.Now().Before(end); {
		n, err := unix.Write(line, b)
		switch {
		case n > 0:
			b = b[n:]
		case err == unix.EINTR:
		case err == unix.EAGAIN:
			_, _ = unix.Poll([]unix.PollFd{{Fd: line, Events: unix.POLLOUT}}, 1)
		default:
			return
		}
	}
}
