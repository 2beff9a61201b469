package trajectory

import (
	"seamrail/motion/clock"
	"seamrail/motion/track"
)

// Clock returns the frame rates and the retime.
func (t *Trajectory) Clock() clock.Clock { return t.plan.Loop.Clock }

// Before returns axis i just before sec real seconds of an endless loop: at
// the period, the state that comes into the seam.
func (t *Trajectory) Before(i int, sec float64) track.State {
	return t.plan.Axes[i].Track.Before(sec)
}
