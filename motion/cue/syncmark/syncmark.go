// Package syncmark tells how the frames of a recording are found that a take fills: by a
// mark that the rig makes before its run-up and after its run-out, while it rests, and
// what is left open by it. Times are real seconds from frame 0, frames captured ones.
package syncmark

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/scene"
	"seamrail/motion/spec/rig"
)

// Means is what makes a mark.
type Means int

// What may make one.
const (
	ByOutput Means = iota // of the rig
	ByTwitch              // an axis goes out and back
	ByClick               // the click track alone
	ByHand                // a hand, told by the click track
)

// Mark is the mark of a planned shot, every default filled.
type Mark struct {
	By     Means
	Output rig.Output // that makes it, of ByOutput

	// Of ByTwitch: the axis of the plan, how far it goes out, mm or degrees, and how long
	// one way takes, in whole microseconds.
	Axis     int
	Distance float64
	Goes     exact.Rat

	Length exact.Rat // s that it lasts: the output is on, the axis is out
	Rest   exact.Rat // s from its end to the beginning of the run-up
	After  exact.Rat // s from the end of the run-out to the second mark; 0 = there is none
	Late   exact.Rat // s from what the board does to what is seen or heard of it

	Shows   picture.Beginning // what the picture shows of it, where Pictured
	Picture bool
	Share   scene.Number // of a captured frame that is exposed

	plan *plan.Plan
}

// Before is how long before the run-up the mark begins.
func (m *Mark) Before() exact.Rat {
	return m.Length.Add(m.Rest).Add(m.Goes).Add(m.Goes)
}

// At is when the mark begins, s from frame 0: below 0.
func (m *Mark) At() exact.Rat { return m.runUp().Add(m.Before()).Neg() }

// Seen is when it shows, s from frame 0.
func (m *Mark) Seen() exact.Rat { return m.At().Add(m.Late) }

// Frame is Seen in captured frames from frame 0.
func (m *Mark) Frame() exact.Rat { return m.frames(m.Seen()) }

// Second is when the second mark of a take of so many rounds shows, s from its frame 0,
// and whether there is one.
func (m *Mark) Second(rounds int64) (exact.Rat, bool) {
	return m.secondAt(rounds).Add(m.Late), m.After.Sign() > 0
}

// secondAt is when the second mark begins.
func (m *Mark) secondAt(rounds int64) exact.Rat {
	return m.plan.Round().Mul(exact.Int(rounds)).Add(m.plan.Loop.Clock.FrameTime(m.plan.RunOut)).Add(m.After)
}

// SecondFrame is Second in captured frames.
func (m *Mark) SecondFrame(rounds int64) (exact.Rat, bool) {
	s, ok := m.Second(rounds)
	return m.frames(s), ok
}

func (m *Mark) runUp() exact.Rat { return m.plan.Loop.Clock.FrameTime(m.plan.RunUp) }

func (m *Mark) frames(sec exact.Rat) exact.Rat { return sec.Mul(m.plan.Loop.Clock.Capture) }

// Unit is mm or deg, of a twitch.
func (m *Mark) Unit() string { return m.plan.Axes[m.Axis].Rig.Unit() }

// AxisName is the axis that twitches.
func (m *Mark) AxisName() string { return m.plan.Axes[m.Axis].Rig.Name }
