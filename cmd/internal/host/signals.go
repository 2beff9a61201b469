package host

import (
	"os"
	"os/signal"
	"slices"
	"syscall"

	"seamrail/cmd/internal/deadman"
)

// Signals calls interrupt for each Ctrl-C, end for each signal that would end
// the program otherwise and gone when the terminal is, on a goroutine of its own.
// Ctrl-Z is an interrupt, too: a program that stands still stops nothing. Writes
// to a pipe that nobody reads fail from now on, and do not end the program. Call
// what it returns when signals mean what they usually do again.
func Signals(interrupt, end, gone func()) (release func()) {
	told := make(chan os.Signal, 4)
	signal.Notify(told, slices.Concat([]os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT}, endings, suspending)...)
	failing := make(chan os.Signal, 1) // nobody listens: the write says it
	signal.Notify(failing, failures...)
	done, over := make(chan struct{}), make(chan struct{})
	deadman.Go(func() {
		defer close(over)
		for {
			select {
			case s := <-told:
				switch {
				case s == os.Interrupt || slices.Contains(suspending, s):
					interrupt()
				case s == syscall.SIGHUP:
					gone()
				default:
					end()
				}
			case <-done:
				return
			}
		}
	})
	return func() {
		signal.Stop(told)
		close(done)
		<-over
	}
}
