// Package textfile reads and changes the files that a person writes: shots, rigs and
// sequences.
package textfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/motion/base/source"
)

// Largest is how many bytes of a shot or rig file are read, plus one so
// that the reader can tell that there was more: a file that long was not
// written by hand.
const Largest = 1<<20 + 1

// Read reads at most Largest bytes and words what goes wrong.
func Read(name string) ([]byte, error) {
	file, err := atomicfile.Open(name)
	if err != nil {
		return nil, Unread(name, err)
	}
	defer func() { _ = file.Close() }()
	data, err := io.ReadAll(io.LimitReader(file, Largest))
	if err != nil {
		return nil, Unread(name, err)
	}
	return data, nil
}

// Unread words why a file could not be read.
func Unread(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no file %s; \"seamrail new\" writes one to start from", name)
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return fmt.Errorf("cannot read %s: %w", name, path.Err)
	}
	return err // it is no plain file, and says so
}

// Rewrite changes one value of a file, if what comes out is sound.
func Rewrite(file, path, text string, sound func([]byte) error) error {
	data, err := Read(file)
	if err != nil {
		return err
	}
	out, err := source.Set(file, data, path, text)
	if err != nil {
		return err
	}
	if err := sound(out); err != nil {
		return fmt.Errorf("not written: %w", err)
	}
	return atomicfile.WriteBack(file, func(w io.Writer) error {
		_, err := io.Copy(w, bytes.NewReader(out))
		return err
	})
}
