package trajectory

import (
	"seamrail/motion/base/clock"
	"seamrail/motion/track"
)

// Loop returns what is shown of a round.
func (t *Trajectory) Loop() clock.Loop { return t.plan.Loop }

// Handles returns the captured frames that are kept on either side of the loop.
func (t *Trajectory) Handles() int64 { return t.plan.Handles }

// Labelled tells whether frames of the timeline have labels.
func (t *Trajectory) Labelled() bool { return t.plan.Timecode.Rate.Sign() > 0 }

// Label returns the label of a timeline frame, counted from the loop's first.
func (t *Trajectory) Label(frame int64) string { return t.plan.Timecode.Label(t.plan.Start + frame) }

// Clock returns the frame rates and the retime.
func (t *Trajectory) Clock() clock.Clock { return t.plan.Loop.Clock }

// Before returns axis i just before sec real seconds of an endless loop: at
// the period, the state that comes into the seam.
func (t *Trajectory) Before(i int, sec float64) track.State {
	return t.plan.Axes[i].Track.Before(sec)
}
