package atomicfile

import (
	"io"
	"io/fs"
	"os"
)

// disk is each operation of the system that can fail while something is put in
// place. Tests make any one of them fail.
type disk interface {
	create(name string) (file, error) // one that is not there, with the mode of any new file
	mkdir(name string, mode fs.FileMode) error
	chmod(name string, mode fs.FileMode) error
	link(old, name string) error // another name for the same file; a link of its own for a link
	rename(old, name string) error
	exchange(a, b string) error
	alike(name string, old fs.FileInfo) error // gives a new folder what else the old one has besides its mode
	remove(name string) error
	removeAll(name string) error
	list(dir string) ([]fs.DirEntry, error)
	sync(dir string) error
}

// file is what is written to.
type file interface {
	io.Writer
	Sync() error
	Close() error
}

// on is the disk that is written to.
var on disk = system{}

// system is the disk of the system.
type system struct{}

func (system) create(name string) (file, error) {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return nil, err
	}
	return f, nil
}

func (system) mkdir(name string, mode fs.FileMode) error { return os.Mkdir(name, mode) }
func (system) chmod(name string, mode fs.FileMode) error { return os.Chmod(name, mode) }
func (system) link(old, name string) error               { return os.Link(old, name) }
func (system) rename(old, name string) error             { return os.Rename(old, name) }
func (system) remove(name string) error                  { return os.Remove(name) }
func (system) removeAll(name string) error               { return os.RemoveAll(name) }
func (system) list(dir string) ([]fs.DirEntry, error)    { return os.ReadDir(dir) }

// sync makes the names in a folder last through a power cut where the system can
// do that; where it cannot, the files themselves are safe all the same.
func (system) sync(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return nil
	}
	_ = d.Sync()
	return d.Close()
}
