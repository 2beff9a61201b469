package plan

import (
	"math"

	"seamrail/motion/law/mintime"
	"seamrail/motion/track"
)

// jerkRise is the time, in seconds, in which the acceleration of a run-up or a
// way back rises to its limit where the rig states no jerk: a twentieth of a
// second is no blow, and short beside any of them.
const jerkRise = 0.05

// riseFrames is the least time, in captured frames, in which the acceleration of
// a way back rises: a change of it within one frame is a blow.
const riseFrames = 2

// unseenShare is the share of its greatest speed that an axis goes at where it is
// not filmed: the step timers of controllers are late by up to a fifth of a per
// cent, which an axis at its limit could not make up for.
const unseenShare = 0.98

// leg returns the limits of an axis with so much of its acceleration and jerk.
func (c course) leg(a Axis, share float64) mintime.Leg {
	jerk := a.Rig.MaxJerk
	if jerk == 0 {
		jerk = a.Rig.MaxAcc / jerkRise
	}
	jerk = min(jerk, a.Rig.MaxAcc/c.loop.Clock.FrameTime(riseFrames).Float())
	speed := max(unseenShare*c.top(a), min(c.top(a), math.Abs(seamStart(a).Vel)))
	return mintime.Leg{Speed: speed, Acc: share * a.Rig.MaxAcc, Jerk: share * jerk}
}

// Off camera nothing asks for haste, so run-ups use half of what an axis may
// do; common practice with rigs that carry glass.
const rampShare = 0.5

// shares are the shares of an axis' acceleration and jerk that its way back, its
// run-up and its run-out may use: as little as keeps within the travel, since what is
// used less needs more room.
var shares = []float64{rampShare, 0.75, 1}

// restSpeed is the speed below which an axis counts as at rest at the seam, in
// units a second: a ten-millionth of a millimetre in a second moves no motor.
const restSpeed = 1e-7

func seamStart(a Axis) track.State { return a.Track.At(0) }

func seamEnd(a Axis) track.State { return a.Track.Before(a.Track.Period().Float()) }

func moving(s track.State) bool { return math.Abs(s.Vel) > restSpeed }

// ramped returns the course with a run-up and a run-out of whole captured frames for
// every axis that moves through the seam. Where it passes the seam at an even speed
// they are the quickest changes of speed, which also need the least room. Each axis
// takes its own least time, so that none strays further than it must; the take's are
// those of the slowest. A take frame by frame has none: it rests at each.
func (c course) ramped() course {
	if c.byFrame != nil {
		return c
	}
	return c.with(func(a Axis) Axis {
		a.RunUp = c.ramp(a, seamStart(a), false)
		a.RunOut = c.ramp(a, seamEnd(a), true)
		return a
	})
}

// ramp returns a ramp between rest and s with the least of the shares that keeps its
// limits and the travel, or with all; nil where s is rest.
func (c course) ramp(a Axis, s track.State, out bool) *Ramp {
	var r *Ramp
	for _, share := range shares {
		if r = c.change(a, s, share, out); r == nil {
			r = c.gentlest(a, s, share, out)
		}
		if r == nil || r.strain(a, s, share) <= 1+limitSlack && r.within(a, c.carriedBy(r, a)) {
			break
		}
	}
	return r
}

// carriedBy is how far the axis has been carried when a ramp begins or ends at the
// loop: a run-out follows on the last round.
func (c course) carriedBy(r *Ramp, a Axis) float64 {
	if r.out {
		return c.carried(a)
	}
	return 0
}

// within tells whether the ramp keeps to the travel of its axis.
func (r *Ramp) within(a Axis, carried float64) bool {
	lo, hi, _, _, _ := r.peaks()
	slack := travelSlack(a)
	return a.Rig.Endless || lo+carried >= a.Rig.Min-slack && hi+carried <= a.Rig.Max+slack
}

func (c course) framesOf(r *Ramp) int64 {
	if r == nil {
		return 0
	}
	return r.exact.Mul(c.loop.Clock.Capture).Round().Whole()
}
