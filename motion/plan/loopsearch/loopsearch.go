// Package loopsearch finds how fast a loop may go: the quickest and the gentlest
// that keep every bound of the rig and of the picture.
package loopsearch

import (
	"context"
	"errors"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/move"

	"seamrail/motion/scene"

	"seamrail/motion/camera/picture"
	"seamrail/motion/law"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Question is what to look for.
type Question struct {
	Shot  shot.Shot
	Rig   rig.Rig
	Scene scene.Scene
	// From and To bound the loop, in timeline frames; 0 is a quarter and four
	// times the shot's own.
	From, To int64
	// Laws are tried on every axis that goes there and back; nil is every law.
	Laws []law.Law
	// Accept is the worst level that a check on the pace may have; 0 is Fair.
	Accept picture.Level
	// Tell, if not nil, is called after each loop that was tried.
	Tell func(tried int)
}

// Found is a loop that keeps every bound. It was planned, verified and looked
// at frame by frame.
type Found struct {
	Shot   shot.Shot
	Law    string  // "" where no axis goes there and back
	Strain float64 // the greatest share of any axis' acceleration or jerk limit
	Report picture.Report
}

// Frames is the length of the loop on the timeline.
func (f Found) Frames() int64 { return f.Shot.Loop.Screen }

// Edits make the file of the shot that was asked about one in this loop, each axis that it
// was tried for under its law.
func (f Found) Edits(of shot.Shot) []fault.Edit {
	out := []fault.Edit{{Path: "clock.loop", Text: move.FramesText(f.Frames())}}
	for _, m := range of.Axes {
		if s, goes := m.Does.(move.Shuttle); goes && f.Law != "" {
			for _, key := range s.LawKeys() {
				out = append(out, fault.Edit{Path: source.Join("axis", m.Name) + "." + key, Text: f.Law})
			}
		}
	}
	return out
}

// Answer is what was found. Both are nil where no loop within the range keeps
// the bounds; Kept then says what held each of them back.
type Answer struct {
	Quickest *Found // the fewest frames
	Gentlest *Found // the least strain
	Tried    int
	Kept     map[string]int    // loops held back, by check; "limits", "motors", "controller" and "verifier" are the rig's
	Standing []picture.Verdict // of the shot as it is: poor, and the same at any pace
	Unknown  []picture.Verdict // of the shot as it is: the pace decides, and a number is missing
}

// ErrRange is returned where no loop within the range has an exact seam.
var ErrRange = errors.New("loopsearch: no loop within the range has whole captured frames")

// Range is where a search looks that is told no range: from a quarter of the
// shot's own loop to four times it, in timeline frames.
func Range(s shot.Shot) (from, to int64) {
	own := s.Loop.Screen
	return max(1, own/widest), own * widest
}

// Search answers the question. It looks at loops spread over the range and
// halves its way from those that fail to those that hold, for every law. The
// error is of the scene, of the shot, of the range, or ctx's.
func Search(ctx context.Context, q Question) (Answer, error) {
	s, err := newSearch(ctx, q)
	if err != nil {
		return Answer{}, err
	}
	if blocked, err := s.standing(); err != nil || blocked {
		return s.answer, err
	}
	for _, l := range s.laws() {
		if err := s.try(l); err != nil {
			return Answer{}, err
		}
	}
	return s.answer, errors.Join(s.cured(s.answer.Quickest), s.cured(s.answer.Gentlest))
}
