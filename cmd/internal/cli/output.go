package cli

import (
	"bufio"
	"fmt"
	"io"

	"seamrail/cmd/internal/whole"
)

// stdout is the file name that means standard output.
const stdout = "-"

// deliver fills a file, whole or not at all, or standard output.
func deliver(s Streams, name string, fill func(io.Writer) error) error {
	if name != stdout {
		return whole.Write(name, fill)
	}
	b := bufio.NewWriter(s.Out)
	if err := fill(b); err != nil {
		return fmt.Errorf("standard output: %w", err)
	}
	if err := b.Flush(); err != nil {
		return fmt.Errorf("standard output: %w", err)
	}
	return nil
}
