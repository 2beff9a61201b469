package session

import (
	"fmt"
	"strconv"
	"strings"

	"seamrail/export/drive"
	"seamrail/motion/base/exact"
)

// plans tells whether a request is of the plan, and so of the shot as it is now.
func (s *session) plans(k drive.RequestKind) bool {
	return k == drive.Go || k == drive.Pose || k == drive.WalkThrough
}

// pose asks for the frame that a word names: one of the captured frames, or with a t
// before it one of the timeline's.
func (s *session) pose(word string) {
	number, ofTimeline := strings.CutPrefix(strings.ToLower(word), "t")
	n, err := strconv.ParseInt(number, 10, 32)
	if err != nil || n < 0 {
		s.Say(fmt.Sprintf("%q is no frame; a number is, such as 28, or t72 for frame 72 of the timeline", word))
		return
	}
	frame := float64(n)
	if ofTimeline {
		frame = exact.Int(n).Mul(s.now.Load().Trajectory.Clock().PerScreen()).Float()
	}
	offer(s.asks, drive.Request{Kind: drive.Pose, Frame: frame})
}

// walk asks for a walk through the plan once it is worked out, for which no key waits.
func (s *session) walk() {
	j := s.now.Load()
	s.aside(func() {
		w, err := j.Walk()
		if err != nil {
			s.Say(err.Error())
			return
		}
		ask := &drive.Walk{Trajectory: w.Trajectory, Words: w.Words()}
		if !j.Rig.Controller.Kind.PlaysSteps() {
			ask.Source = func() drive.Source { return w.Program() }
			ask.Foretold = foretold(&w.Chosen.Expected)
		}
		offer(s.asks, drive.Request{Kind: drive.WalkThrough, Walk: ask})
	})
}
