package atomicfile

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/hold"
)

// heldFolder is where files wait to be put in place. It holds a file that says
// that its run is alive, the new folder, and what is known of the old one.
type heldFolder struct {
	dir   string
	alive *hold.Hold
	// kept is set once something of the user's may be in it.
	kept bool
}

func (h *heldFolder) fresh() string { return filepath.Join(h.dir, "new") }
func (h *heldFolder) old() string   { return filepath.Join(h.dir, "old") }
func (h *heldFolder) names() string { return filepath.Join(h.dir, "names") }

func lockOf(dir string) string { return filepath.Join(dir, "lock") }

// newHolder makes a folder for what is on its way to base.
func newHolder(dir, base string) (h *heldFolder, drop func(), err error) {
	drop, err = began(func() (string, func(), error) {
		for range nameTries {
			h, err = makeHeld(filepath.Join(dir, PartName(base)))
			if err == nil {
				return h.dir, h.drop, nil
			}
			if !errors.Is(err, fs.ErrExist) && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, hold.ErrHeld) {
				break
			}
		}
		return "", nil, err
	})
	return h, drop, err
}

func makeHeld(dir string) (*heldFolder, error) {
	if err := on.mkdir(dir, 0o700); err != nil {
		return nil, err
	}
	alive, err := hold.Take(lockOf(dir))
	if err != nil {
		_ = on.remove(dir)
		return nil, err
	}
	h := &heldFolder{dir: dir, alive: alive}
	if err := on.mkdir(h.fresh(), 0o777); err != nil {
		h.drop()
		return nil, err
	}
	return h, nil
}

// dropTries is how often a folder is removed while files are still being made in
// it, as they may be when a signal comes: a try is lost to a file that is made in
// the midst of it.
const dropTries = 10

// drop removes the folder, unless something of the user's may be in it.
func (h *heldFolder) drop() {
	for range dropTries {
		if h.kept || on.removeAll(h.dir) == nil {
			break
		}
	}
	h.alive.Close()
}

// note writes down the names of the files that are ours, whole or not at all.
func (h *heldFolder) note(files []File) error {
	part := h.names() + ".part"
	f, err := on.create(part)
	if err != nil {
		return err
	}
	var text strings.Builder
	for _, f := range files {
		text.WriteString(f.Name + "\n")
	}
	err = filled(f, part, 0, func(w io.Writer) error {
		_, err := io.WriteString(w, text.String())
		return err
	})
	if err == nil {
		err = on.rename(part, h.names())
	}
	return err
}

// makeAll makes the folders of a path below another.
func makeAll(dir, below string) error {
	for name := range strings.SplitSeq(below, string(filepath.Separator)) {
		dir = filepath.Join(dir, name)
		if err := on.mkdir(dir, 0o777); err != nil {
			return err
		}
	}
	return nil
}

// putAway empties an old folder that has been exchanged for the one at home, and
// removes it. What was ours has been replaced. All else is at home under another
// link; what is not has been put into the old folder just then, and goes home. It
// never removes the only link to something that it does not know.
func (h *heldFolder) putAway(home string) {
	text, err := os.ReadFile(h.names())
	if err != nil {
		return
	}
	ours := map[string]bool{}
	for name := range strings.Lines(string(text)) {
		ours[strings.TrimSuffix(name, "\n")] = true
	}
	entries, _ := on.list(h.fresh())
	for _, e := range entries {
		from, to := filepath.Join(h.fresh(), e.Name()), filepath.Join(home, e.Name())
		if ours[e.Name()] || outdated(from, to) {
			_ = on.remove(from)
		} else {
			_ = on.rename(from, to)
		}
	}
	if err := on.remove(h.fresh()); err == nil || errors.Is(err, fs.ErrNotExist) {
		_ = on.removeAll(h.dir)
	}
}

// outdated tells whether a file is at home already, or a newer one is: an editor
// may have put another in its place.
func outdated(from, home string) bool {
	a, err := os.Lstat(from)
	if err != nil {
		return false
	}
	b, err := os.Lstat(home)
	return err == nil && (os.SameFile(a, b) || b.ModTime().After(a.ModTime()))
}
