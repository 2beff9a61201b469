package page

import (
	"context"
	"encoding/json"
	"errors"
	"io/fs"
	"net/http"
	"sync"
	"time"

	"seamrail/motion/base/plain"
)

const (
	// lookEvery is how often the file is looked at: an editor's change is seen
	// before a hand is back at the mouse.
	lookEvery = 400 * time.Millisecond
	// beatEvery is how often a stream says that it is alive.
	beatEvery = time.Second
)

// DiskNews is what an editor has done to the file.
type DiskNews struct {
	Disk
	Error string `json:"error,omitempty"` // why it cannot be read; the text is then empty
	Gone  bool   `json:"gone,omitempty"`  // there is no such file
}

// watch tells, a JSON object a line, what happens: the file changed, the rig
// moves, a beat. The page says which revision it knows.
func (s *desk) watch(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Revision string `json:"revision"`
	}
	if !ask(w, r, &q) {
		return
	}
	w.Header().Set("Content-Type", "application/x-ndjson; charset=utf-8")
	x := watcher{s: s, seen: map[string]string{}, to: plain.Encoder(w), flush: http.NewResponseController(w).Flush, known: q.Revision}
	x.watch(r.Context(), s.Server, func() {
		x.disk()
		x.under()
	})
}

// watchDrive tells of the rig alone, to a page that has no shot.
func (s *Server) watchDrive(w http.ResponseWriter, r *http.Request) {
	var q struct{}
	if !ask(w, r, &q) {
		return
	}
	w.Header().Set("Content-Type", "application/x-ndjson; charset=utf-8")
	x := watcher{to: plain.Encoder(w), flush: http.NewResponseController(w).Flush}
	x.watch(r.Context(), s, func() {})
}

// watcher is one stream.
type watcher struct {
	s     *desk
	to    *json.Encoder
	flush func() error
	known string            // revision that was told last
	seen  map[string]string // revisions of what lies under the shot
	lost  string            // trouble with the file that was told last
	told  int64             // version of the drive state that was told last
	beats int
	err   error
}

// watch tells until ctx ends; look is done every so often.
func (x *watcher) watch(ctx context.Context, s *Server, look func()) {
	wake, leave := s.hub.join()
	defer leave()
	looks, beat := time.NewTicker(lookEvery), time.NewTicker(beatEvery)
	defer looks.Stop()
	defer beat.Stop()
	x.beat()
	x.drive(&s.stage)
	look()
	for x.err == nil {
		select {
		case <-ctx.Done():
			return
		case <-wake:
			x.drive(&s.stage)
		case <-looks.C:
			look()
		case <-beat.C:
			x.beat()
		}
	}
}

// News is one line of a stream: what of it there is.
type News struct {
	Disk  *DiskNews   `json:"disk,omitempty"`
	Under *UnderNews  `json:"under,omitempty"`
	Drive *DriveState `json:"drive,omitempty"`
	Beat  int         `json:"beat,omitempty"` // the first is 1
}

func (x *watcher) tell(v News) {
	if x.err == nil {
		x.err = errors.Join(x.to.Encode(v), x.flush())
	}
}

func (x *watcher) beat() {
	x.beats++
	x.tell(News{Beat: x.beats})
}

// disk tells the file where it is another than was told.
func (x *watcher) disk() {
	d, err := x.s.doc.disk()
	news := DiskNews{Disk: d}
	switch {
	case err != nil:
		news.Error = err.Error()
		if news.Gone = errors.Is(err, fs.ErrNotExist); news.Gone && x.known == "" && x.lost == "" {
			return // it was never there
		}
		if news.Gone {
			news.Error = x.s.doc.name + " is no longer there; saving writes it again"
		}
		news.Text, news.Revision = "", ""
	case d.Revision == x.known && x.lost == "":
		return
	}
	if news.Error != "" && news.Error == x.lost {
		return
	}
	x.known, x.lost = d.Revision, news.Error
	x.tell(News{Disk: &news})
}

// drive tells how it stands with the rig where that has changed.
func (x *watcher) drive(of *stage) {
	state, version := of.look()
	if version == x.told {
		return
	}
	x.told = version
	x.tell(News{Drive: &state})
}

// hub wakes every stream when there is something new to tell. Streams look for
// themselves what it is, so that a slow one misses no more than it can hear.
type hub struct {
	mu    sync.Mutex
	wakes map[chan struct{}]bool
}

// join returns what wakes a stream, and what leaves again.
func (h *hub) join() (wake <-chan struct{}, leave func()) {
	c := make(chan struct{}, 1)
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.wakes == nil {
		h.wakes = map[chan struct{}]bool{}
	}
	h.wakes[c] = true
	return c, func() {
		h.mu.Lock()
		defer h.mu.Unlock()
		delete(h.wakes, c)
	}
}

// wake wakes all, and waits for none.
func (h *hub) wake() {
	h.mu.Lock()
	defer h.mu.Unlock()
	for c := range h.wakes {
		select {
		case c <- struct{}{}:
		default:
		}
	}
}
