package page

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

// folder is the only place where the page reads and writes: links that lead out
// of it are refused by the system.
type folder struct{ root *os.Root }

func openFolder(dir string) (folder, error) {
	root, err := os.OpenRoot(dir)
	return folder{root}, err
}

// inside is a name below the folder, or an error.
func inside(name string) (string, error) {
	local, err := filepath.Localize(filepath.ToSlash(name))
	if err != nil {
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
	half := filepath.Join(filepath.Dir(local), fmt.Sprintf(".%s.%016x.part", filepath.Base(local), rand.Uint64()))
	err = f.fill(half, data, mode)
	if err == nil {
		err = f.root.Rename(half, local)
	}
	if err != nil {
		_ = f.root.Remove(half)
		return unable("write", name, err)
	}
	return nil
}

func (f folder) fill(name string, data []byte, mode fs.FileMode) error {
	file, err := f.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	if err == nil {
		err = file.Sync()
	}
	return errors.Join(err, file.Close())
}

// unable words an error of the system plainly.
func unable(do, name string, err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		err = path.Err
	case errors.As(err, &link):
		err = link.Err
	}
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
