// Package cli is the command line of seamrail: a file or a folder a command. A command
// reads its flags, calls one function and prints.
package cli

import (
	"fmt"
	"os"
	"os/signal"
	"syscall"
	"time"

	"codeberg.org/go-pdf/fpdf"

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

// undated makes the same PDF from the same plan, to the byte: a PDF wants dates and
// takes the hour else, and the library goes through its own tables as they come.
// What is told is the beginning of Unix time, as by the convention of reproducible
// builds; when a file was made its folder knows.
func undated() {
	fpdf.SetDefaultCreationDate(time.Unix(0, 0).UTC())
	fpdf.SetDefaultModificationDate(time.Unix(0, 0).UTC())
	fpdf.SetDefaultCatalogSort(true)
}
