package command

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"seamrail/cmd/internal/whole"
	"seamrail/export/header"
	"seamrail/motion/plain"
)

// Stdout is the file name that means standard output.
const Stdout = "-"

// Deliver fills a file, whole or not at all, or standard output.
func Deliver(s Streams, name string, fill func(io.Writer) error) error {
	if name != Stdout {
		return whole.Write(name, func(w io.Writer) error {
			c := newCounter(s, name, w)
			defer c.Finish()
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
	if cause, ok := whole.Cause(err); ok {
		return fmt.Errorf("cannot write to standard output: %w", cause)
	}
	return err
}

// Written fills a file and says so: with of, what there is to say behind its name, and
// below, what stands under that.
func Written(s Streams, name, of, below string, fill func(io.Writer) error) error {
	if err := Deliver(s, name, fill); err != nil {
		return err
	}
	_, err := fmt.Fprintf(s.Out, "Wrote %s%s.\n%s", plain.Text(name), of, below)
	return err
}

// Report prints a report, for programs or for people.
func Report(s Streams, programs bool, asJSON, asText func(io.Writer) error) error {
	if programs {
		return Deliver(s, Stdout, asJSON)
	}
	return Deliver(s, Stdout, asText)
}

// Complain prints an error, every line of it marked as ours and free of what a
// terminal would obey.
func Complain(w io.Writer, err error) {
	for _, line := range strings.Split(strings.TrimRight(err.Error(), "\n"), "\n") {
		fmt.Fprintf(w, "seamrail: %s\n", header.Clean(line))
	}
}
