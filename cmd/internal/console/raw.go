package console

import (
	"bytes"
	"io"
)

// Raw writes to a terminal that does not turn a line feed into a new line.
type Raw struct{ W io.Writer }

// Busy tells whether the terminal has something still to print.
func (r Raw) Busy() bool {
	q, ok := r.W.(interface{ Busy() bool })
	return ok && q.Busy()
}

// Write writes p with a carriage return before each line feed.
func (r Raw) Write(p []byte) (int, error) {
	if _, err := r.W.Write(bytes.ReplaceAll(p, []byte("\n"), []byte("\r\n"))); err != nil {
		return 0, err
	}
	return len(p), nil
}
