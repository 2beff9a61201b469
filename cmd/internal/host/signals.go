package host

import (
	"os"
	"os/signal"
	"syscall"
)

// Signals calls interrupt for each Ctrl-C and end for each request to terminate
// and when the terminal is gone, on a goroutine of its own. Call what it
// returns when they mean what they usually do again.
func Signals(interrupt, end func()) (release func()) {
	told := make(chan os.Signal, 4)
	signal.Notify(told, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	done, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		for {
			select {
			case s := <-told:
				if s == os.Interrupt {
					interrupt()
				} else {
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
		<-gone
	}
}
