package stills

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/atomicfile"
)

// Readable tells whether a file is a still that is read, by its ending.
func Readable(name string) bool {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".png", ".jpg", ".jpeg", ".tif", ".tiff":
		return true
	}
	return false
}

// kinds is how they are called.
const kinds = "PNG, JPEG, TIFF"

// Folder are the stills in a folder, in order. Hidden files are none, and neither is what
// is no still. It returns an error where there is none at all.
func Folder(dir string) ([]Named, error) {
	files, err := names(dir, func(name string) (Named, bool) {
		return NewNamed(name), Readable(name)
	})
	if err == nil && len(files) == 0 {
		err = fmt.Errorf("%s has no stills (%s); name the folder that they are in, or a film file", dir, kinds)
	}
	return files, err
}

// Matching are the files that a pattern names, in order. The folder before it is no pattern.
func Matching(path string) ([]Named, error) {
	dir, base := filepath.Split(path)
	if strings.ContainsAny(dir, "*") {
		return nil, fmt.Errorf("pattern %s has a * in its folder; only the last part may have one", path)
	}
	p, err := ParsePattern(base)
	if err != nil {
		return nil, err
	}
	files, err := names(dir, func(name string) (Named, bool) {
		from, to, ok := p.Match(name)
		if ok && to == 0 {
			return NewNamed(name), Readable(name)
		}
		return Named{name, from, to}, ok && Readable(name)
	})
	if err == nil && len(files) == 0 {
		err = fmt.Errorf("no still (%s) is called as %s says", kinds, path)
	}
	return files, err
}

func names(dir string, take func(name string) (Named, bool)) (out []Named, err error) {
	if dir == "" {
		dir = "."
	}
	entries, err := os.ReadDir(dir)
	if cause, ok := atomicfile.Cause(err); ok {
		return nil, fmt.Errorf("cannot read the folder %s: %w", dir, cause)
	}
	for _, e := range entries {
		if n, ok := take(e.Name()); ok && !e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
			out = append(out, n)
		}
	}
	Sort(out)
	return out, err
}
