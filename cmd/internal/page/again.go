package page

import (
	"net/http"
	"time"

	"seamrail/export/drive"
)

// again hands a run back to the page that had it before it was loaded anew, by its claim,
// and gives it another: a page that is still there, or a copy of it, has no use of the old
// one. While the page that drives is there nobody takes the run from it.
func (s *Server) again(q beatQuestion) (*claimed, error) {
	d := &s.driving
	d.mu.Lock()
	defer d.mu.Unlock()
	switch {
	case d.claim == "" || !d.claim.opens(q.Claim):
		return nil, refused(http.StatusLocked, "this page does not drive the rig")
	case d.stays > 0:
		return nil, refused(http.StatusConflict, "the page that drives the rig is still there")
	}
	d.claim, d.heard = newKey(), time.Now()
	d.pressed, d.released = 0, 0 // it counts its presses anew
	s.stage.Say("The page was loaded anew, and has the rig in hand again.")
	return &claimed{d.claim}, nil
}

// stopQuestion stops what moves.
type stopQuestion struct {
	Again bool `json:"again"` // while it slows down: at once
}

// stop stops the rig for any page of this program, whoever drives: nobody needs a claim to
// stop. It is passed on once, like every other; at once it stops only while it slows down.
func (s *Server) stop(q stopQuestion) (*done, error) {
	_, run := s.driving.away()
	if run == nil {
		return nil, refused(http.StatusConflict, "no rig is driven")
	}
	at, _ := s.stage.at()
	if q.Again && s.takesNow("abort") {
		s.pass(run, drive.Request{Kind: drive.Stop})
		s.stage.Say("Another page stopped it at once.")
		return &done{OK: true}, nil
	}
	ok := s.halt(run, drive.Stop)
	if ok && !resting(at) {
		s.stage.Say("Another page stopped it.")
	}
	return &done{OK: ok}, nil
}
