package whole

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// File is one file of a folder.
type File struct {
	Name string
	Fill func(io.Writer) error
}

// Folder writes every file to a folder that it makes if need be. Either all of
// them are put in place or, when one fails, none is. Other files already in
// the folder stay. each, unless nil, is called before a file is filled.
func Folder(dir string, files []File, each func(name string)) error {
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return fmt.Errorf("%s is a file; name a folder", dir)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return plain(dir, err)
	}
	staging, err := os.MkdirTemp(dir, ".part-")
	if err != nil {
		return plain(dir, err)
	}
	begun(staging)
	defer ended(staging)
	defer func() { _ = os.RemoveAll(staging) }()
	for _, f := range files {
		if each != nil {
			each(f.Name)
		}
		if err := Write(filepath.Join(staging, f.Name), f.Fill); err != nil {
			return fmt.Errorf("%s: %w", f.Name, err)
		}
	}
	for _, f := range files {
		if info, err := os.Stat(filepath.Join(dir, f.Name)); err == nil && info.IsDir() {
			return fmt.Errorf("%s is a folder; move it away first", filepath.Join(dir, f.Name))
		}
	}
	for _, f := range files {
		if err := os.Rename(filepath.Join(staging, f.Name), filepath.Join(dir, f.Name)); err != nil {
			return plain(filepath.Join(dir, f.Name), err)
		}
	}
	syncFolder(dir)
	return nil
}
