package atomicfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
)

// inputs are the files that this run has read, by their absolute names. What they
// are is looked up when something is about to be written: a file that was saved
// anew meanwhile is another, and the number of one that is gone may be given to a
// stranger.
var inputs = struct {
	sync.Mutex
	names map[string]string // as the user has it
}{names: map[string]string{}}

// Read notes that a file is one that this run reads, and so is not to be written
// over by it.
func Read(name string) {
	inputs.Lock()
	defer inputs.Unlock()
	inputs.names[absolute(name)] = name
}

// absolute is a name from the root. It is not cleaned: behind a link, ".." is not
// where the name says.
func absolute(name string) string {
	at, err := os.Getwd()
	if err != nil || filepath.IsAbs(name) {
		return name
	}
	return at + string(filepath.Separator) + name
}

// Real is the real path of a name whose last part need not be there.
func Real(name string) (string, error) {
	if real, err := filepath.EvalSymlinks(name); err == nil {
		return filepath.Abs(real)
	}
	dir, base := filepath.Split(strings.TrimRight(name, string(filepath.Separator)))
	if dir == "" {
		dir = "."
	}
	real, err := filepath.EvalSymlinks(dir)
	if err != nil {
		return "", err
	}
	return filepath.Abs(filepath.Join(real, base))
}

// Open opens a file to be read, and notes it. Only a plain file is one: a pipe may
// never give its first byte nor its last.
func Open(name string) (*os.File, error) {
	info, err := os.Stat(name) // before it is opened: a pipe would keep us waiting
	if err != nil {
		return nil, err
	}
	if err := Plain(name, info); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0) // it may have changed since
	if err != nil {
		return nil, err
	}
	if info, err = f.Stat(); err == nil {
		err = Plain(name, info)
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	Read(name)
	return f, nil
}

// Plain is an error that says what a file is if it is not a plain one.
func Plain(name string, info fs.FileInfo) error {
	switch mode := info.Mode(); {
	case mode.IsRegular():
		return nil
	case mode.IsDir():
		return fmt.Errorf("%s is a folder; name a file in it", name)
	case mode&fs.ModeNamedPipe != 0:
		return fmt.Errorf("%s is a pipe; save what comes out of it to a file first, and name that", name)
	case mode&fs.ModeSocket != 0:
		return fmt.Errorf("%s is a socket; save what comes out of it to a file first, and name that", name)
	}
	return fmt.Errorf("%s is a device; name a plain file", name)
}

// Changeable is an error where a file that is read in order to be changed is one that
// must not be: another that this run has read, or a link that leads nowhere.
func Changeable(path string) error {
	real, err := Real(path)
	if err != nil {
		return plain(path, err)
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return dangling(path)
	}
	return refused(path, real)
}

// Refused is an error where writing to path would write over something that this
// run has read, under whatever name.
func Refused(path string) error { return refused(path, "") }

// refused lets the input at one real path be written, for what changes it on purpose.
func refused(path, but string) error {
	info, err := os.Stat(path)
	if err != nil {
		return nil // there is nothing to lose
	}
	return refusedFile(path, info, but)
}

func refusedFile(path string, info fs.FileInfo, but string) error {
	inputs.Lock()
	defer inputs.Unlock()
	for abs, name := range inputs.names {
		if real, err := Real(abs); err == nil && real == but {
			continue
		}
		if read, err := os.Stat(abs); err == nil && os.SameFile(info, read) {
			return same(path, name)
		}
	}
	return nil
}

func same(path, name string) error {
	if filepath.Clean(path) == filepath.Clean(name) {
		return fmt.Errorf("%s is read by this very run and is not written over; name another place to write to", path)
	}
	return fmt.Errorf("%s is the same file as %s, which is read by this very run and is not written over; name another place to write to", path, name)
}

// RefusedOutput is Refused for an open file, such as one that a shell has opened
// for this program to print to.
func RefusedOutput(w io.Writer) error {
	f, ok := w.(*os.File)
	if !ok {
		return nil
	}
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return nil
	}
	return refusedFile("standard output", info, "")
}
