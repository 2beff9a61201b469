// Package picture tells what a move does to the picture: smear, screen speed,
// visible steps, focus, light, flicker, clearance, framing and the seam.
//
// Every number of a scene may be left out. What can be told without it is
// told; the verdicts it would take name it. Conventions are those of package scene.
package picture

import (
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
)

// Motion is the move that is looked at. A *trajectory.Trajectory is one.
type Motion interface {
	Clock() clock.Clock
	Captured() int64                                        // frames in the loop, at least 1
	FrameSeconds(k int64) exact.Rat                         // real s when captured frame k begins
	Period() exact.Rat                                      // real s of a round
	AxisCount() int                                         //
	Axis(i int) rig.Axis                                    //
	State(i int, sec float64) track.State                   // at any real time of an endless loop
	Before(i int, sec float64) track.State                  // the limit from the left
	RampFrames() (up, out int64)                            // captured frames of run-up and run-out
	TakeState(i int, rounds int64, sec float64) track.State // with run-up and run-out
}
