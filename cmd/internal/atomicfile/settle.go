package atomicfile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"seamrail/cmd/internal/hold"
)

// Settle clears up what runs that were killed have left of a folder: what was not
// yet in place is removed, and what was being put in place one by one is finished.
// Folder begins with it.
func Settle(dir string) {
	abs, err := Real(dir)
	if err == nil {
		settleIn(abs, abs)
	} else if abs, err = filepath.Abs(dir); err != nil {
		return
	}
	// A folder on the way to it may have been made for it.
	for up := filepath.Dir(abs); ; abs, up = up, filepath.Dir(up) {
		settleIn(up, abs)
		if up == filepath.Dir(up) {
			return
		}
	}
}

// settleIn clears up what of home waits in a folder.
func settleIn(dir, home string) {
	entries, _ := on.list(dir)
	for _, e := range entries {
		shown := dir == home && seen().MatchString(e.Name())
		if !e.IsDir() || !shown && !isPart(e.Name(), filepath.Base(home)) {
			continue
		}
		h := &heldFolder{dir: filepath.Join(dir, e.Name())}
		var err error
		if h.alive, err = hold.Take(lockOf(h.dir)); err != nil {
			continue
		}
		if h.alive.Sure {
			h.settle(home, shown)
		}
		h.alive.Close()
	}
}

func (h *heldFolder) settle(home string, shown bool) {
	if shown {
		h.finish(home)
		return
	}
	_, err := os.Lstat(h.names())
	if errors.Is(err, fs.ErrNotExist) {
		_ = on.removeAll(h.dir) // it was not in place yet: all in it is ours
		return
	}
	h.putAway(home)
}

// finish puts the rest of the files in place. What this run has read stays, and
// so does then the sign that something is unfinished.
func (h *heldFolder) finish(home string) {
	entries, err := on.list(h.fresh())
	if err != nil && !errors.Is(err, fs.ErrNotExist) { // that is all done, and was being removed
		return
	}
	t := target{dir: home}
	for _, e := range entries {
		if Refused(filepath.Join(home, e.Name())) != nil || t.clear(h, e.Name()) != nil {
			return
		}
	}
	for _, e := range entries {
		if t.place(h, e.Name()) != nil {
			return
		}
	}
	_ = on.removeAll(h.dir)
}

// stuck says that files could be put neither in place nor back.
func stuck(t target, h *heldFolder, err error) error {
	return fmt.Errorf("%w; %s lacks some of its files, and they are in %s: write to it again", bare(err), t.named, h.dir)
}

func bare(err error) error {
	var link *os.LinkError
	if errors.As(err, &link) {
		return fmt.Errorf("cannot write %s: %w", link.New, link.Err)
	}
	return err
}
