package host

import (
	"fmt"
	"os"
	"sync"

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
