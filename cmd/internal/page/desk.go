package page

import (
	"errors"
	"net/http"
	"net/url"
	"path"
	"path/filepath"
	"slices"
	"sync"
)

// desk is one shot of the folder, with what is known of it. The driving and the streams are
// those of the server, which all desks share.
type desk struct {
	*Server
	shot     string // file name, as commands are given it
	doc      *document
	plans    plans
	glances  glances
	replaced sync.Map // revisions of rig files that changes of the page took the place of
}

// desks are the shots that have been asked of, by their names in the folder.
type desks struct {
	mu   sync.Mutex
	open map[string]*desk
	used []*desk // those whose plans are kept, the last one asked of first
}

// shotHeader names the shot in the folder that a question is of, with escapes as in an
// address (RFC 3986, section 2.1). Without it that is the shot that the page was opened with.
const shotHeader = "Seamrail-Shot"

var errNoShot = errors.New("no shot is named, and none was opened; the first screen has those of this folder")

// of is the desk of a request.
func (s *Server) of(r *http.Request) (*desk, error) {
	name, err := url.PathUnescape(r.Header.Get(shotHeader))
	switch {
	case err != nil:
		return nil, err
	case name != "":
		return s.at(name)
	case s.first == nil:
		return nil, errNoShot
	}
	return s.first, nil
}

// at is the desk of a shot of the folder.
func (s *Server) at(name string) (*desk, error) {
	if _, err := inside(name); err != nil {
		return nil, err
	}
	name = path.Clean(filepath.ToSlash(name))
	s.desks.mu.Lock()
	defer s.desks.mu.Unlock()
	d := s.desks.open[name]
	if d == nil {
		d = s.deskOf(name)
		s.desks.open[name] = d
	}
	s.desks.use(d)
	return d, nil
}

func (s *Server) deskOf(name string) *desk {
	return &desk{Server: s, shot: s.folder.path(filepath.FromSlash(name)), doc: &document{folder: s.folder, name: name, rig: s.rig}}
}

// desksKept is of how many shots the plans are kept: a first screen asks of every shot of
// its folder, and a plan of a long loop has megabytes.
const desksKept = 6

// use brings a desk to the front, and lets the plans go of the one that was asked of longest
// ago.
func (x *desks) use(d *desk) {
	x.used = slices.DeleteFunc(x.used, func(o *desk) bool { return o == d })
	x.used = slices.Insert(x.used, 0, d)
	for len(x.used) > desksKept {
		last := len(x.used) - 1
		x.used[last].plans.drop()
		x.used = x.used[:last]
	}
}

// onDesk reads a question of a shot and replies with what is answered to it.
func onDesk[Q, A any](s *Server, answer func(*desk, Q) (A, error)) http.HandlerFunc {
	return s.desked(func(d *desk, w http.ResponseWriter, r *http.Request) {
		answers(func(q Q) (A, error) { return answer(d, q) })(w, r)
	})
}

// desked hands a request to what answers it for its shot.
func (s *Server) desked(f func(*desk, http.ResponseWriter, *http.Request)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		d, err := s.of(r)
		if err != nil {
			fail(w, err)
			return
		}
		f(d, w, r)
	}
}
