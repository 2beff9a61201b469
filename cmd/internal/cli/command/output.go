package command

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"seamrail/cmd/internal/atomicfile"
)

// Stdout is the file name that means standard output.
const Stdout = "-"

// Deliver fills a file, whole or not at all, or standard output.
func Deliver(s Streams, name string, fill func(io.Writer) error) error {
	if name != Stdout {
		return atomicfile.Write(name, func(w io.Writer) error {
			c := newCounter(s, name, w)
			defer c.finish()
			return fill(c)
		})
	}
	if err := atomicfile.RefusedOutput(s.Out); err != nil {
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
