package page

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/hold"
)

// folder is the only place where the page reads and writes: links that lead out
// of it are refused by the system.
type folder struct {
	root *os.Root
	stay *os.File // says to other runs that a page works in the folder
	// writing is held from reading a file to writing it. Shots share rigs and set-ups, and
	// one file has several names where a system does not tell large letters from small ones.
	writing *sync.Mutex
}

func openFolder(dir string) (folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return folder{}, err
	}
	stay, err := root.Open(".")
	if err != nil {
		return folder{}, errors.Join(err, root.Close())
	}
	hold.Stay(stay)
	return folder{root, stay, &sync.Mutex{}}, nil
}

func (f folder) close() error { return errors.Join(f.stay.Close(), f.root.Close()) }

// inside is a name below the folder, or an error.
func inside(name string) (string, error) {
	local, err := filepath.Localize(filepath.ToSlash(name))
	if err != nil || strings.ContainsFunc(name, unseen) || strings.TrimSpace(name) == "" {
		return "", fmt.Errorf("%q is not a name inside the folder of the shot, and nothing else is read or written", name)
	}
	return local, nil
}

// largestFile is more than anyone writes by hand.
const largestFile = 1 << 20

// read returns a file of the folder.
func (f folder) read(name string) ([]byte, error) {
	local, err := inside(name)
	if err != nil {
		return nil, err
	}
	info, err := f.root.Stat(local) // before it is opened: a pipe would keep us waiting
	switch {
	case err != nil:
		return nil, unable("read", name, err)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is no plain file", name)
	case info.Size() > largestFile:
		return nil, fmt.Errorf("%s has more than %d bytes; no shot and no rig is that long", name, largestFile)
	}
	file, err := f.root.Open(local)
	if err != nil {
		return nil, unable("read", name, err)
	}
	defer func() { _ = file.Close() }()
	atomicfile.Read(f.path(local))
	data, err := io.ReadAll(io.LimitReader(file, largestFile))
	if err != nil {
		return nil, unable("read", name, err)
	}
	return data, nil
}

// newMode is that of a file that was not there.
const newMode = 0o644

// write puts data at a name, whole or not at all.
func (f folder) write(name string, data []byte) error {
	local, err := inside(name)
	if err != nil {
		return err
	}
	mode := fs.FileMode(newMode)
	if info, err := f.root.Stat(local); err == nil {
		mode = info.Mode().Perm()
	}
	if mode&0o222 == 0 {
		return fmt.Errorf("cannot write %s: it is locked against writing; nothing was changed", name)
	}
	atomicfile.Sweep(f.path(local))
	half := filepath.Join(filepath.Dir(local), atomicfile.PartName(filepath.Base(local)))
	file, err := f.root.OpenFile(half, os.O_RDWR|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return unable("write", name, err)
	}
	held, err := hold.Existing(f.path(half)) // or another run would take it for left over
	if err == nil {
		defer held.Close()
		err = filled(file, data)
	}
	if err = errors.Join(err, file.Close()); err == nil {
		err = f.root.Rename(half, local)
	}
	if err != nil {
		_ = f.root.Remove(half)
		return unable("write", name, err)
	}
	return nil
}

func filled(file *os.File, data []byte) error {
	_, err := file.Write(data)
	if err == nil {
		err = file.Sync()
	}
	return err
}

// path is how the system calls a file of the folder.
func (f folder) path(local string) string { return filepath.Join(f.root.Name(), local) }

// unable words an error of the system plainly.
func unable(do, name string, err error) error {
	err, _ = atomicfile.Cause(err)
	if do == "write" {
		return fmt.Errorf("cannot write %s: %w; nothing was changed", name, err)
	}
	return fmt.Errorf("cannot read %s: %w", name, err)
}

// revision tells one text from another.
func revision(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:16])
}
