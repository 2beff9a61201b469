package host

import (
	"os"
	"os/signal"
	"syscall"
)

// Signals calls interrupt for each Ctrl-C, end for each request to terminate and
// gone when the terminal is, on a goroutine of its own. Call what it returns
// when they mean what they usually do again.
func Signals(interrupt, end, gone func()) (release func()) {
	told := make(chan os.Signal, 4)
	signal.Notify(told, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	done, over := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(over)
		for {
			select {
			case s := <-told:
				switch s {
				case os.Interrupt:
					interrupt()
				case syscall.SIGHUP:
					gone()
				default:
					end()
				}
			case <-done:
				return
			}
		}
	}()
	return func() {
		signal.Stop(told)
		close(done)
		<-over
	}
}
