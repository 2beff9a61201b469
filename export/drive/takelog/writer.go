package takelog

import (
	"encoding/json"
	"fmt"
	"io"

	"seamrail/motion/base/plain"
)

// File is where a log is kept: what it is given stays once Sync returns.
type File interface {
	io.Writer
	Sync() error
}

// Writer appends records to a log.
type Writer struct {
	file File
	torn bool // the last line has no end
	err  error
}

// NewWriter returns a writer to file, which stands at the end of a log that
// held so far: the bytes of its last line are enough. A line that a kill has
// cut is closed first, so that no record is ever glued to half of another.
func NewWriter(file File, soFar []byte) *Writer {
	n := len(soFar)
	return &Writer{file: file, torn: n > 0 && soFar[n-1] != '\n'}
}

// Add writes one record, in one write, and syncs it. After an error nothing more
// is written: every later call returns the same error.
func (w *Writer) Add(r Record) error {
	if w.err == nil {
		w.err = w.add(r)
	}
	return w.err
}

func (w *Writer) add(r Record) error {
	line, err := json.Marshal(r)
	if err != nil {
		return fmt.Errorf("take log: %w", err)
	}
	line = plain.JSON(line)
	if w.torn {
		line = append([]byte{'\n'}, line...)
	}
	w.torn = false
	if _, err := w.file.Write(append(line, '\n')); err != nil {
		return fmt.Errorf("writing the take log: %w", err)
	}
	if err := w.file.Sync(); err != nil {
		return fmt.Errorf("syncing the take log: %w", err)
	}
	return nil
}
