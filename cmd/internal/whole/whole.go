// Package whole writes a file whole or not at all: a reader finds what was
// there before or everything new, never half of it.
package whole

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

// bufferSize is how much is written at a time; large enough that tables of
// millions of steps are not held up by the system call.
const bufferSize = 1 << 18

// nameTries is how many names for the temporary file are tried before the
// folder is held to be at fault. Two of them alike is a chance of 2^-64.
const nameTries = 8

// Write calls fill with a writer and puts what it wrote at path. When fill or
// the disk fails, path is as it was and the error names it. A device or pipe
// is written to directly, since replacing it would be a surprise; a symbolic
// link keeps pointing where it did and its target is replaced.
func Write(path string, fill func(io.Writer) error) error {
	if path == "" {
		return errors.New("the file to write has no name")
	}
	target := path
	if real, err := filepath.EvalSymlinks(path); err == nil {
		target = real
	}
	info, err := os.Stat(target)
	switch {
	case err == nil && info.IsDir():
		return fmt.Errorf("%s is a folder; name a file in it, such as %s", path, filepath.Join(path, "loop.out"))
	case err == nil && !info.Mode().IsRegular():
		return direct(path, fill)
	case err == nil:
		return replace(path, target, info.Mode().Perm(), fill)
	case errors.Is(err, fs.ErrNotExist):
		return replace(path, target, 0, fill)
	}
	return plain(path, err)
}

// direct writes to something that is not a regular file.
func direct(path string, fill func(io.Writer) error) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return plain(path, err)
	}
	err = buffered(f, fill)
	return plain(path, errors.Join(err, f.Close()))
}

// replace writes beside target and renames over it. A mode of 0 means that of
// a new file.
func replace(path, target string, mode fs.FileMode, fill func(io.Writer) error) error {
	f, err := beside(target)
	if err != nil {
		return plain(path, err)
	}
	begun(f.Name())
	defer ended(f.Name())
	err = buffered(f, fill)
	if err == nil && mode != 0 {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = os.Rename(f.Name(), target)
	}
	if err != nil {
		_ = os.Remove(f.Name())
		return plain(path, err)
	}
	syncFolder(filepath.Dir(target))
	return nil
}

// beside opens a new file in target's folder, with the mode of any new file.
func beside(target string) (*os.File, error) {
	var err error
	for range nameTries {
		name := fmt.Sprintf(".%s.%016x.part", filepath.Base(target), rand.Uint64())
		var f *os.File
		f, err = os.OpenFile(filepath.Join(filepath.Dir(target), name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err == nil || !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, err
}

func buffered(f *os.File, fill func(io.Writer) error) error {
	b := bufio.NewWriterSize(f, bufferSize)
	if err := fill(b); err != nil {
		return err
	}
	return b.Flush()
}

// syncFolder makes the new name last through a power cut where the system can
// do that; where it cannot, the file itself is safe all the same.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}

// plain words an error of the system for someone who has not read its manual.
// Errors that are not the system's pass as they are.
func plain(path string, err error) error {
	var system *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &system):
		return fmt.Errorf("cannot write %s: %w; nothing was changed", path, system.Err)
	case errors.As(err, &link):
		return fmt.Errorf("cannot write %s: %w; nothing was changed", path, link.Err)
	}
	return err
}
