// Package hold says who is at work on a file. A hold is an advisory lock of the
// system: it ends with the process that has it, however that ends, so that what
// is not held is nobody's any more.
package hold

import (
	"errors"
	"io/fs"
	"os"
	"time"
)

// ErrHeld is a file that another run holds.
var ErrHeld = errors.New("another run holds it")

// errBlind is a file system that has no locks.
var errBlind = errors.New("no locks here")

// Hold is a file that this run holds.
type Hold struct {
	path string
	file *os.File // open while it is held; nil where it cannot be
	// Sure is not set where the file system has no locks: nobody is kept out, and
	// whether anybody else is at work cannot be known.
	Sure bool
}

// tries is how often a file is opened anew that another run, on letting go of it,
// has taken away meanwhile. Each try takes another run that ends just then.
const tries = 100

// Take holds the file at path, which is made if need be and is for nothing else.
// Drop takes it away again.
func Take(path string) (*Hold, error) {
	return take(path, os.O_RDWR|os.O_CREATE)
}

// Existing holds the file at path, which is not made. Close leaves it there.
func Existing(path string) (*Hold, error) {
	return take(path, os.O_RDWR)
}

func take(path string, flag int) (*Hold, error) {
	var last error
	for range tries {
		f, err := os.OpenFile(path, flag, 0o644)
		if errors.Is(err, fs.ErrPermission) { // somebody else's, or one that is locked against writing
			if other, missing := os.Open(path); !errors.Is(missing, fs.ErrNotExist) {
				f, err = other, missing
			}
		}
		if err != nil {
			return nil, err
		}
		switch err := try(f); {
		case errors.Is(err, errBlind):
			return &Hold{path: path}, f.Close()
		case err != nil:
			return nil, errors.Join(err, f.Close())
		case stands(f, path):
			return &Hold{path, f, true}, nil
		}
		_ = f.Close()
		last = fs.ErrNotExist
	}
	return nil, last
}

// stands tells whether an open file is still the one of that name.
func stands(f *os.File, path string) bool {
	open, err := f.Stat()
	if err != nil {
		return false
	}
	named, err := os.Lstat(path)
	return err == nil && os.SameFile(open, named)
}

// Drop takes the file away and lets go of it, in this order, so that whoever
// takes it next makes one of its own.
func (h *Hold) Drop() {
	_ = os.Remove(h.path)
	h.Close()
}

// Close lets go of the file and leaves it.
func (h *Hold) Close() {
	if h.file != nil {
		_ = h.file.Close()
	}
}

// pause is how long is waited between tries. Whoever holds a file for one write
// has it for the time that the disk takes, some milliseconds.
const pause = time.Millisecond

// Wait holds an open file until Release or until it is closed. It waits no longer
// than limit, and then returns ErrHeld: who waits for a run that hangs, hangs.
func Wait(f *os.File, limit time.Duration) error {
	for waited := time.Duration(0); ; waited += pause {
		err := try(f)
		switch {
		case errors.Is(err, errBlind):
			return nil
		case !errors.Is(err, ErrHeld) || waited >= limit:
			return err
		}
		time.Sleep(pause)
	}
}
