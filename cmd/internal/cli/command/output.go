package command

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"seamrail/cmd/internal/whole"
	"seamrail/export/report"
)

// Stdout is the file name that means standard output.
const Stdout = "-"

// Deliver fills a file, whole or not at all, or standard output.
func Deliver(s Streams, name string, fill func(io.Writer) error) error {
	if name != Stdout {
		return whole.Write(name, func(w io.Writer) error {
			c := newCounter(s, name, w)
			defer c.finish()
			return fill(c)
		})
	}
	if err := whole.RefusedOutput(s.Out); err != nil {
		return err
	}
	b := bufio.NewWriter(s.Out)
	err := fill(b)
	if err == nil {
		err = b.Flush()
	}
	var system *fs.PathError
	if errors.As(err, &system) {
		return fmt.Errorf("cannot write to standard output: %w", system.Err)
	}
	return err
}

// Tell writes what there is to tell to standard output: as JSON, or as a report in
// colours where they show.
func Tell(s Streams, json bool, c report.Content) error {
	return Deliver(s, Stdout, func(w io.Writer) error {
		if json {
			return report.JSON(w, c.Facts())
		}
		return report.Text(w, c.Report(), s.Colour)
	})
}
