package atomicfile

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"

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
	err = filled(f, part, 0, Bytes([]byte(text.String())))
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

// longestName is how long a name may be with what PartName adds to it; systems
// allow 255 bytes.
const longestName = 220

// tag is how a name is part of another's.
func tag(base string) string {
	switch {
	case len(base) > longestName:
		return fmt.Sprintf("%x", sha256.Sum256([]byte(base)))
	case base == string(filepath.Separator):
		return "root"
	}
	return base
}

// PartName is a name for what is on its way to base. Who makes one holds it until
// it is renamed or gone: what is not held is swept.
func PartName(base string) string { return fmt.Sprintf(".%s.%016x.part", tag(base), rand.Uint64()) }

// seenName is a name for a folder whose files are being put in place one by one.
func seenName() string { return fmt.Sprintf("unfinished-%016x.part", rand.Uint64()) }

var (
	afterTag = named(`^\.[0-9a-f]{16}\.part$`)
	seen     = named(`^unfinished-[0-9a-f]{16}\.part$`)
)

// named is a pattern of names, read when the first name is held against it.
func named(pattern string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(pattern) })
}

// isPart tells whether a name is one of PartName for base.
func isPart(name, base string) bool {
	rest, ok := strings.CutPrefix(name, "."+tag(base))
	return ok && afterTag().MatchString(rest)
}

// Sweep removes what runs that were killed have left of the file at path. What is
// held is that of a run that is alive, and what cannot be known to be dead stays.
func Sweep(path string) {
	dir, base := filepath.Dir(path), filepath.Base(path)
	entries, _ := on.list(dir)
	for _, e := range entries {
		if !e.Type().IsRegular() || !isPart(e.Name(), base) {
			continue
		}
		name := filepath.Join(dir, e.Name())
		h, err := hold.Existing(name)
		if err != nil {
			continue
		}
		if h.Sure {
			_ = on.remove(name)
		}
		h.Close()
	}
}
