package page

import (
	"net/http"
	"time"

	"seamrail/export/drive"
)

// holdFor is how long an axis goes on that the page holds and no longer renews: a page
// that hangs with a finger on it moves the rig no longer than that. The page renews three
// times in it; what it sends when the finger is up stops the axis at once.
const holdFor = 200 * time.Millisecond

// hold moves an axis for as long as the page holds it, and tells whether it does. Requests
// of a page overtake each other: what a press that was let go of still asks is nothing.
func (s *Server) hold(run *run, r drive.Request, press int64) bool {
	d := &s.driving
	d.mu.Lock()
	defer d.mu.Unlock()
	if press <= d.released {
		return false
	}
	d.pressed = max(d.pressed, press)
	d.halt = 0
	s.stage.heard()
	_, d.holding = s.stage.at()
	run.Ask(r)
	return true
}

// release lets go of an axis.
func (s *Server) release(run *run, press int64) {
	d := &s.driving
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.released < press {
		s.stage.heard()
	}
	d.released = max(d.released, press)
	run.Ask(drive.Request{Kind: drive.JogRelease})
}

// stay is a question that is answered only when the run is over. When the page is closed,
// or its browser ends, the connection ends with it.
func (s *Server) stay(w http.ResponseWriter, r *http.Request) {
	var q beatQuestion
	if !ask(w, r, &q) {
		return
	}
	run, err := s.driving.of(q.Claim)
	if err != nil {
		refuse(w, http.StatusLocked, "this page does not drive the rig")
		return
	}
	over := s.driving.stayed(1)
	defer s.driving.stayed(-1)
	w.WriteHeader(http.StatusOK)
	_ = http.NewResponseController(w).Flush()
	select {
	case <-over:
	case <-r.Context().Done():
		s.vanished(run, q.Claim)
	}
}

// stayed counts the connections of the page that drives, and returns what is closed when the
// run is over.
func (d *driving) stayed(more int) <-chan struct{} {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.stays += more
	return d.over
}

// vanished takes in that the page is gone that holds a claim. What it held is let go of at
// once, and what else moves for it is stopped. Where a page was asked for just before, it may
// be this one that is loaded anew, and back by when its beats are late: a take goes on until
// then. A tab that is closed asks for none.
func (s *Server) vanished(run *run, claim string) {
	d := &s.driving
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.claim == "" || !d.claim.opens(claim) {
		return
	}
	at, entered := s.stage.at()
	inTake := at == drive.Running || at == drive.Awaiting
	waits := inTake && time.Since(d.loads) < loadsFor || resting(at) && !d.mayMove(entered, s.stage.jogs())
	if d.released < d.pressed {
		s.stage.heard()
	}
	d.released = d.pressed
	if !waits {
		d.heard = time.Time{}
	}
	run.Ask(drive.Request{Kind: drive.JogRelease})
}

// asked notes that a page is asked for, to be loaded.
func (d *driving) asked() {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.loads = time.Now()
}
