package page

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"

	"seamrail/cmd/internal/film/stills"
	"seamrail/cmd/internal/hold"
	"seamrail/cmd/internal/rushes"
	"seamrail/motion/base/plain"
)

// A film that is dropped on the page comes from the browser byte by byte: no page is told where
// a file lies. It is written to a folder of its own among the system's temporary files, looked
// through, and taken away again; small pictures of its frames stay until another is dropped.

const (
	// mostFilm is how many bytes a film may have: ten minutes at 400 Mbit/s, which is more than
	// cameras write on cards. What has more is read where it lies by the footage command.
	mostFilm = 32 << 30
	// mostStills is how many files one take may be: seven minutes at 24 a second. Their names
	// fill most of a question.
	mostStills = 10_000
)

// FilmFile is a file of a take, as the browser knows it.
type FilmFile struct {
	File  string `json:"file"` // its name, without a folder
	Bytes int64  `json:"bytes"`
}

// filmFiles are those of a take that is about to come: one film, or all its stills.
type filmFiles struct {
	Files []FilmFile `json:"files"`
}

// FilmBegun names the take in all questions about it.
type FilmBegun struct {
	Film     key    `json:"film"`
	Name     string `json:"name"`     // what it is called
	Replaced string `json:"replaced"` // the take in whose place it is; "" for none
}

// filmQuestion is about the take that was begun last.
type filmQuestion struct {
	Film key `json:"film"`
}

// cinema has the one take that is looked at, whichever shot it is of.
type cinema struct {
	mu   sync.Mutex
	reel *reel // nil for none
	over bool
}

// reel is a take that was dropped.
type reel struct {
	id    key
	name  string
	files []FilmFile
	lock  *hold.Hold // says to other runs that the folder is somebody's
	dir   string
	ctx   context.Context // ends when another takes its place
	end   context.CancelFunc
	users sync.RWMutex // read-locked by whoever has the folder in use

	mu       sync.Mutex
	come     int             // how many files have come whole
	busy     bool            // one is coming, or all are being looked through
	stop     func(why error) // gives up the looking that is under way
	looked   *rushes.Take    // nil until it was looked through
	strip    *strip
	accepted *Accepted
	laid     *filmLies  // nil until it was laid on a plan
	laying   sync.Mutex // held by who lays it on a plan: what it holds of the frames is of one at a time
}

// beginFilm makes room for a take. The one before goes, wherever it has got to.
func (s *Server) beginFilm(q filmFiles) (*FilmBegun, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	if s.driving.held() {
		return nil, refused(http.StatusLocked, busyRig)
	}
	r, err := newReel(q.Files)
	if err != nil {
		return nil, err
	}
	before, err := s.film.put(r)
	return &FilmBegun{r.id, r.name, before}, err
}

const busyRig = "a rig is held, and this computer has to be there for it alone; look at the take once you have let go of it"

// held tells whether a page drives a rig or reads one.
func (d *driving) held() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.claim != ""
}

// dropFilm lets go of a take.
func (s *Server) dropFilm(q filmQuestion) (*done, error) {
	r, leave, err := s.film.at(q.Film)
	if err != nil {
		return nil, err
	}
	leave()
	s.film.clear(r)
	return &done{OK: true}, nil
}

// check says what of a take cannot be taken.
func (q filmFiles) check() error {
	if len(q.Files) == 0 {
		return refused(http.StatusBadRequest, "there is no file in what was dropped; drop a film, or all stills of one take")
	}
	var all int64
	for _, f := range q.Files {
		switch {
		case f.Bytes <= 0:
			return fmt.Errorf("%s is empty, or a folder; drop a film, or the stills themselves", plain.Line(f.File))
		case f.Bytes > mostFilm-all:
			return refused(http.StatusRequestEntityTooLarge, fmt.Sprintf("%s: the page takes at most %d GB; \"seamrail footage FILM --shot SHOT\" reads what has more where it lies", plain.Line(f.File), mostFilm>>30))
		}
		all += f.Bytes
	}
	if len(q.Files) == 1 {
		return nil
	}
	seen := map[string]bool{}
	for _, f := range q.Files {
		name := strings.ToLower(f.File)
		switch {
		case !stills.Readable(f.File):
			return fmt.Errorf("%s is no still (PNG, JPEG, TIFF); drop one film, or all stills of one take: takes are looked at one at a time", plain.Line(f.File))
		case filepath.Base(filepath.ToSlash(f.File)) != f.File:
			return fmt.Errorf("a still is called %q: a name has no folder in it", f.File)
		case unfit(f.File) != "":
			return fmt.Errorf("a still is called %q: %s", f.File, unfit(f.File))
		case seen[name]:
			return fmt.Errorf("two stills are called %s", f.File)
		}
		seen[name] = true
	}
	return nil
}

var plainEnding = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\.[A-Za-z0-9]{1,8}$`) })

// path is where a file of a take is written. A film has a name that no decoder takes for
// anything else, and stills have their own, which say which are missing.
func (r *reel) path(part int) string {
	if len(r.files) > 1 {
		return filepath.Join(r.dir, r.files[part].File)
	}
	end := filepath.Ext(r.files[0].File)
	if !plainEnding().MatchString(end) {
		end = ""
	}
	return filepath.Join(r.dir, "film"+end)
}

// filmFolder is what folders of takes are called, each with a lock beside it that ends with its run.
const (
	filmFolder = "seamrail-film-"
	lockEnds   = ".lock"
)

// newReel makes the folder of a take, and takes those away that runs have left which ended
// without a word.
func newReel(files []FilmFile) (*reel, error) {
	left, _ := filepath.Glob(filepath.Join(os.TempDir(), filmFolder+"*"+lockEnds)) // a pattern that is one
	for _, lock := range left {
		if h, err := hold.Existing(lock); err == nil {
			if h.Sure {
				_ = os.RemoveAll(strings.TrimSuffix(lock, lockEnds))
				h.Drop()
			}
			h.Close()
		}
	}
	r := &reel{id: newKey(), name: plain.Line(filepath.Base(filepath.ToSlash(files[0].File))), files: files}
	if len(files) > 1 {
		r.name = fmt.Sprintf("%d stills, %s to %s", len(files), files[0].File, files[len(files)-1].File)
	}
	r.dir = filepath.Join(os.TempDir(), filmFolder+string(newKey()))
	var err error
	if r.lock, err = hold.Take(r.dir + lockEnds); err == nil {
		if err = os.Mkdir(r.dir, 0o700); err != nil {
			r.lock.Drop()
		}
	}
	if err != nil {
		return nil, unable("write", "a temporary folder", err)
	}
	r.ctx, r.end = context.WithCancel(context.Background())
	return r, nil
}

// put has a take in the place of the one before, and says what that was called.
func (x *cinema) put(r *reel) (before string, err error) {
	x.mu.Lock()
	old := x.reel
	if x.over {
		old, err = r, errors.New("seamrail is about to end")
	} else {
		x.reel = r
	}
	x.mu.Unlock()
	if old == nil {
		return "", err
	}
	old.close()
	return old.name, err
}

// clear lets go of a take, if it is there still.
func (x *cinema) clear(r *reel) {
	x.mu.Lock()
	there := x.reel == r
	if there {
		x.reel = nil
	}
	x.mu.Unlock()
	if there {
		r.close()
	}
}

// at is the take of a question, which stays until leave is called.
func (x *cinema) at(id key) (r *reel, leave func(), err error) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.reel == nil || !x.reel.id.opens(string(id)) {
		return nil, nil, refused(http.StatusGone, "that take is not here any more: another was dropped in its place; drop it again")
	}
	x.reel.users.RLock() // nobody waits for it while it can be found
	return x.reel, x.reel.users.RUnlock, nil
}

// rest gives up what is being looked through: a rig is to be held.
func (x *cinema) rest() {
	x.mu.Lock()
	defer x.mu.Unlock()
	if r := x.reel; r != nil {
		r.mu.Lock()
		defer r.mu.Unlock()
		if r.stop != nil {
			r.stop(errors.New(busyRig))
		}
	}
}

// close lets go of the take for good.
func (x *cinema) close() {
	x.mu.Lock()
	r := x.reel
	x.reel, x.over = nil, true
	x.mu.Unlock()
	if r != nil {
		r.close()
	}
}

// close ends what is done with a take and takes its files away.
func (r *reel) close() {
	r.end()
	r.users.Lock() // until nobody has them open
	defer r.users.Unlock()
	if r.strip != nil {
		r.strip.close()
	}
	_ = os.RemoveAll(r.dir)
	r.lock.Drop()
}

// begin says that a take is at work, unless it is already or ready says why not.
func (r *reel) begin(ready func() error) error {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.busy {
		return refused(http.StatusConflict, "that take is at work already")
	}
	err := ready()
	r.busy = err == nil
	return err
}

func (r *reel) rests() {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.busy, r.stop = false, nil
}

// seen is what was seen of a take, or why there is none yet.
func (r *reel) seen() (*rushes.Take, *strip, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.looked == nil {
		return nil, nil, refused(http.StatusConflict, "that take was not looked through to its end")
	}
	return r.looked, r.strip, nil
}
