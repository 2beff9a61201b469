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
// or its browser ends, the connection ends with it: what it held is let go of at once, and
// the page counts as lost.
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
	s.driving.mu.Lock()
	over := s.driving.over
	s.driving.mu.Unlock()
	w.WriteHeader(http.StatusOK)
	_ = http.NewResponseController(w).Flush()
	select {
	case <-over:
	case <-r.Context().Done():
		s.vanished(run, q.Claim)
	}
}

// vanished takes in that the page is gone that holds a claim.
func (s *Server) vanished(run *run, claim string) {
	d := &s.driving
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.claim == "" || !d.claim.opens(claim) {
		return
	}
	if d.released < d.pressed {
		s.stage.heard()
	}
	d.heard, d.released = time.Time{}, d.pressed
	run.Ask(drive.Request{Kind: drive.JogRelease})
}
