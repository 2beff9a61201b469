package cli

import (
	"fmt"
	"os"
	"os/signal"
	"syscall"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/whole"
)

// guard tidies up and exits when the program is told to stop. Call what it
// returns when there is nothing left to tidy.
func guard(s Streams) (release func()) {
	told := make(chan os.Signal, 1)
	signal.Notify(told, os.Interrupt, syscall.SIGTERM)
	done := make(chan struct{})
	deadman.Go(func() {
		select {
		case <-told:
			whole.Abandon()
			fmt.Fprintln(s.Err, "\nseamrail: stopped; what was half written is gone")
			os.Exit(ExitStopped)
		case <-done:
		}
	})
	return func() {
		signal.Stop(told)
		close(done)
	}
}
