package cli

import (
	"fmt"
	"os"
	"os/signal"
	"syscall"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/exit"
)

// guard tidies up and exits when the program is told to stop, or when its terminal
// goes away, unless it was begun so as not to mind that. Call what it returns when
// there is nothing left to tidy.
func guard(s command.Streams) (release func()) {
	told := make(chan os.Signal, 1)
	signal.Notify(told, os.Interrupt, syscall.SIGTERM)
	if !signal.Ignored(syscall.SIGHUP) {
		signal.Notify(told, syscall.SIGHUP)
	}
	done := make(chan struct{})
	deadman.Go(func() {
		select {
		case <-told:
			atomicfile.Abandon()
			fmt.Fprintln(s.Err, "\nseamrail: stopped; what was half written is gone")
			os.Exit(exit.Stopped)
		case <-done:
		}
	})
	return func() {
		signal.Stop(told)
		close(done)
	}
}
