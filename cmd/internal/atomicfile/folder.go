package atomicfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// File is one file of a folder.
type File struct {
	Name string
	Fill func(io.Writer) error
}

// Folder writes every file to a folder that it makes if need be. Either all of
// them are put in place or none is. Other files already in the folder stay, and
// files that are replaced keep their mode. each, unless nil, is called before a
// file is filled.
func Folder(dir string, files []File, each func(name string)) error {
	if each == nil {
		each = func(string) {}
	}
	Settle(dir)
	slow := false
	for {
		t, err := targetOf(dir, slow)
		if err != nil {
			return err
		}
		var other *otherWay
		if err = t.put(files, each); !errors.As(err, &other) {
			return err
		}
		slow = t.way == exchanged
	}
}

// way is how a folder is put in place.
type way int

const (
	fresh     way = iota // it is not there: one rename
	exchanged            // it is there: one exchange
	oneByOne             // it is there, and only its files can be replaced
)

// otherWay is why a way cannot be gone. Nothing was changed.
type otherWay struct{ error }

// target is a folder to be written to.
type target struct {
	named string      // as the user has it
	dir   string      // its real path
	way   way         //
	info  fs.FileInfo // of a folder that is there
	// The topmost folder that is made or exchanged: the folder itself, or what is
	// missing above it.
	top string
}

// targetOf looks at what is there.
func targetOf(named string, slow bool) (target, error) {
	t := target{named: named}
	if named == "" {
		return t, errors.New("the folder to write has no name")
	}
	var err error
	if t.info, err = os.Stat(named); err != nil {
		return t.missing(err)
	}
	if !t.info.IsDir() {
		return t, fmt.Errorf("%s is a file; name a folder", named)
	}
	if t.dir, err = Real(named); err != nil {
		return t, plain(named, err)
	}
	t.top, t.way = t.dir, oneByOne
	// In a folder that hands its group down, files have to be made.
	if !slow && t.info.Mode()&fs.ModeSetgid == 0 && exchangeable(t.dir) {
		t.way = exchanged
	}
	return t, nil
}

// missing is a target that is not there. What leads to it may be missing as well.
func (t target) missing(err error) (target, error) {
	if !errors.Is(err, fs.ErrNotExist) {
		return t, plain(t.named, err)
	}
	if err := dangling(t.named); err != nil {
		return t, err
	}
	if t.dir, err = Real(t.named); err == nil {
		t.top = t.dir
		return t, nil
	}
	path, err := filepath.Abs(t.named)
	for below := ""; err == nil; path = filepath.Dir(path) {
		if err := dangling(path); err != nil {
			return t, err
		}
		below = filepath.Join(filepath.Base(path), below)
		real, none := filepath.EvalSymlinks(filepath.Dir(path))
		if none == nil {
			t.dir, t.top = filepath.Join(real, below), filepath.Join(real, filepath.Base(path))
			return t, nil
		}
		if !errors.Is(none, fs.ErrNotExist) {
			err = none
		}
	}
	return t, plain(t.named, err)
}

// put fills the files where they are not seen, and puts them in place.
func (t target) put(files []File, each func(string)) error {
	modes, err := t.free(files)
	if err != nil {
		return err
	}
	h, drop, err := t.stage()
	if err != nil {
		return err
	}
	defer drop()
	if err := t.fill(h, files, modes, each); err != nil {
		return err
	}
	return inOneGo(func() error {
		if _, err := t.free(files); err != nil { // again: time has passed
			return err
		}
		switch t.way {
		case fresh:
			return t.appear(h)
		case exchanged:
			return t.exchange(h, files)
		}
		return t.each(h, files)
	})
}

// free makes sure that nothing is in the way of the files, and returns the modes
// of those that are replaced.
func (t target) free(files []File) (map[string]fs.FileMode, error) {
	modes := map[string]fs.FileMode{}
	for _, f := range files {
		info, err := os.Lstat(filepath.Join(t.dir, f.Name))
		if err != nil {
			continue // it is not there, or the next step says what is wrong
		}
		name := filepath.Join(t.named, f.Name)
		if err := refused(name, ""); err != nil {
			return nil, err
		}
		if !info.Mode().IsRegular() {
			return nil, fmt.Errorf("%s is %s; move it away first", name, kind(info))
		}
		modes[f.Name] = info.Mode()
	}
	return modes, nil
}

func kind(info fs.FileInfo) string {
	switch mode := info.Mode(); {
	case mode.IsDir():
		return "a folder"
	case mode&fs.ModeSymlink != 0:
		return "a link"
	}
	return "no plain file"
}

// stage makes the folder in which the files wait.
func (t target) stage() (*heldFolder, func(), error) {
	dir := filepath.Dir(t.top)
	if t.way == oneByOne {
		dir = t.dir // what lies beside it may be another disk, or not ours to write
	}
	h, drop, err := newHolder(dir, filepath.Base(t.top))
	switch {
	case err != nil && t.way == exchanged:
		err = &otherWay{err}
	case err != nil:
		err = plain(t.named, err)
	}
	return h, drop, err
}

// fill fills the files into the new folder.
func (t target) fill(h *heldFolder, files []File, modes map[string]fs.FileMode, each func(string)) error {
	below, err := filepath.Rel(t.top, t.dir)
	if err != nil {
		return plain(t.named, err)
	}
	dir := filepath.Join(h.fresh(), below)
	if below != "." {
		if err := makeAll(h.fresh(), below); err != nil {
			return plain(t.named, err)
		}
	}
	for _, f := range files {
		each(f.Name)
		name := filepath.Join(dir, f.Name)
		to, err := on.create(name)
		if err == nil {
			err = filled(to, name, modes[f.Name], f.Fill)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", f.Name, plain(filepath.Join(t.named, f.Name), err))
		}
	}
	return nil
}
