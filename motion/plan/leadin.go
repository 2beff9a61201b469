package plan

import (
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/track"
)

// Off camera nothing asks for haste, so run-ups use half of what an axis may
// do; common practice with rigs that carry glass.
const rampShare = 0.5

// maxRampSeconds bounds the search for a run-up. A tabletop axis that needs
// longer to reach its speed at half its acceleration is out of its limits
// anyhow, and Breaches says so.
const maxRampSeconds = 60

// restSpeed is the speed below which an axis counts as at rest at the seam, in
// units a second: a ten-millionth of a millimetre in a second moves no motor.
const restSpeed = 1e-7

// gentlest returns the shortest ramp of whole frames that takes up an
// acceleration as well as a speed; nil where s is rest.
func (p *Plan) gentlest(a *Axis, s track.State, ramp makeRamp) *Ramp {
	n := p.rampFrames(a, s, ramp)
	if n == 0 {
		return nil
	}
	return ramp(s, p.Loop.Clock.FrameTime(n))
}

func seamStart(a *Axis) track.State { return a.Track.At(0) }

func seamEnd(a *Axis) track.State { return a.Track.Before(a.Track.Period().Float()) }

func moving(s track.State) bool { return math.Abs(s.Vel) > restSpeed }

type makeRamp func(track.State, exact.Rat) *Ramp

// rampFrames returns the least whole number of captured frames in which an
// axis can ramp to or from s within its share of the limits; 0 when s is rest.
func (p *Plan) rampFrames(a *Axis, s track.State, ramp makeRamp) int64 {
	if !moving(s) {
		return 0
	}
	most := exact.Int(maxRampSeconds).Mul(p.Loop.Clock.Capture).Ceil().Whole() + 1
	frames := int64(1)
	for frames < most && !gentle(a, ramp(s, p.Loop.Clock.FrameTime(frames)), s) {
		frames++
	}
	return frames
}

// gentle tells whether the ramp stays within rampShare of the axis' limits, or
// within what the seam itself already asks.
func gentle(a *Axis, r *Ramp, seam track.State) bool {
	_, _, speed, acc, jerk := r.peaks()
	ok := speed <= math.Max(math.Abs(seam.Vel)*(1+limitSlack), a.Rig.MaxSpeed) &&
		acc <= math.Max(rampShare*a.Rig.MaxAcc, math.Abs(seam.Acc)*(1+limitSlack))
	return ok && (a.Rig.MaxJerk == 0 || jerk <= a.Rig.MaxJerk)
}
