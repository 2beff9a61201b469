package atomicfile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// appear puts a folder in place that was not there.
func (t target) appear(h *heldFolder) error {
	err := on.rename(h.fresh(), t.top)
	if errors.Is(err, fs.ErrExist) { // another run was quicker
		return &otherWay{err}
	}
	if err != nil {
		return plain(t.named, err)
	}
	_ = on.sync(filepath.Dir(t.top))
	return nil
}

// exchange puts the new folder in the place of the one that is there.
func (t target) exchange(h *heldFolder, files []File) error {
	if err := t.bring(h, files); err != nil {
		return &otherWay{err}
	}
	if err := h.note(files); err != nil {
		return plain(t.named, err)
	}
	_ = on.sync(h.fresh())
	h.kept = true
	if err := on.exchange(h.fresh(), t.dir); err != nil {
		h.kept = false
		return &otherWay{err}
	}
	_ = on.sync(filepath.Dir(t.dir))
	h.putAway(t.dir)
	return nil
}

// errFolder is a folder in the folder, which cannot have a second link.
var errFolder = errors.New("there are folders in it")

// bring gives the new folder what else is in the one that is there, and its mode.
func (t target) bring(h *heldFolder, files []File) error {
	ours := map[string]bool{}
	for _, f := range files {
		ours[f.Name] = true
	}
	entries, err := on.list(t.dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if ours[e.Name()] {
			continue
		}
		if e.IsDir() {
			return errFolder
		}
		if err := on.link(filepath.Join(t.dir, e.Name()), filepath.Join(h.fresh(), e.Name())); err != nil {
			return err
		}
	}
	if err := on.alike(h.fresh(), t.info); err != nil {
		return err
	}
	return on.chmod(h.fresh(), t.info.Mode())
}

// each puts the files in place one by one, once all that they replace is out of the
// way: old ones and new ones are never there together. It takes them back when one
// fails. It is for a folder that cannot be exchanged: on a system without that step,
// on a disk without links, where something is mounted, where folders are in it, where
// it has lists of access of its own, and where somebody works in it, such as the
// shell that this program was called from.
func (t target) each(h *heldFolder, files []File) (err error) {
	if err := on.mkdir(h.old(), 0o700); err != nil {
		return plain(t.named, err)
	}
	hidden, shown := h.dir, filepath.Join(t.dir, seenName())
	if err := on.rename(hidden, shown); err != nil {
		return plain(t.named, err)
	}
	h.dir, h.kept = shown, true
	for _, step := range []func(*heldFolder, string) error{t.clear, t.place} {
		for _, f := range files {
			if err := step(h, f.Name); err != nil {
				return t.back(h, hidden, files, plain(filepath.Join(t.named, f.Name), err))
			}
		}
	}
	h.kept = false
	_ = on.sync(t.dir)
	_ = on.removeAll(h.dir)
	return nil
}

// clear keeps what is in the place of a file.
func (t target) clear(h *heldFolder, name string) error {
	err := on.rename(filepath.Join(t.dir, name), filepath.Join(h.old(), name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// place puts one file in place.
func (t target) place(h *heldFolder, name string) error {
	return on.rename(filepath.Join(h.fresh(), name), filepath.Join(t.dir, name))
}

// back takes back what clear and place have done of the files: all new ones first.
// Should that fail as well, the next run finishes what could not be taken back.
func (t target) back(h *heldFolder, hidden string, files []File, err error) error {
	for _, f := range slices.Backward(files) {
		home, fresh := filepath.Join(t.dir, f.Name), filepath.Join(h.fresh(), f.Name)
		if _, gone := os.Lstat(fresh); gone != nil {
			if err := on.rename(home, fresh); err != nil {
				return stuck(t, h, err)
			}
		}
	}
	for _, f := range files {
		home, old := filepath.Join(t.dir, f.Name), filepath.Join(h.old(), f.Name)
		if _, none := os.Lstat(old); none == nil {
			if err := on.rename(old, home); err != nil {
				return stuck(t, h, err)
			}
		}
	}
	if err := on.rename(h.dir, hidden); err != nil {
		return stuck(t, h, err)
	}
	h.dir, h.kept = hidden, false
	return err
}
