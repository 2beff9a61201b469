package plan

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/law/mintime"
	"seamrail/motion/track"
)

// change returns the quickest ramp between rest and s, or nil where s is rest or
// has an acceleration, or the limits do not allow one.
func (c course) change(a Axis, s track.State, share float64, out bool) *Ramp {
	if !moving(s) || !a.Track.Settled(settledShare*a.Rig.MaxAcc) {
		return nil
	}
	l := c.leg(a, share)
	return quickRamp(l, s, c.changeTime(l, s.Vel), out)
}

// changeTime returns the least whole captured frames, in seconds, in which the
// limits of l allow a change of speed by vel: T* of package mintime.
func (c course) changeTime(l mintime.Leg, vel float64) exact.Rat {
	d := math.Abs(vel)
	least := d/l.Acc + l.Acc/l.Jerk
	if d <= l.Acc*l.Acc/l.Jerk {
		least = 2 * math.Sqrt(d/l.Jerk)
	}
	n := exact.FromFloat(least).Mul(c.loop.Clock.Capture).Ceil().Whole()
	return c.loop.Clock.FrameTime(max(1, n))
}

// quickRamp returns the change of speed between rest and s, which has no
// acceleration, in sec seconds: half the way it would go at that speed. It is
// nil where limits do not allow it.
func quickRamp(l mintime.Leg, s track.State, sec exact.Rat, out bool) *Ramp {
	l.Distance, l.End = s.Vel*sec.Float()/2, s.Vel
	l.Speed = max(l.Speed, math.Abs(s.Vel))
	begin := s.Pos - l.Distance
	if out {
		l.Start, l.End, begin = s.Vel, 0, s.Pos
	}
	m, err := l.Stretch(sec.Float(), mintime.MinJerk)
	if err != nil {
		return nil
	}
	return &Ramp{exact: sec, length: sec.Float(), end: s, out: out, quick: &m, begin: begin, pace: 1}
}

// maxRampSeconds bounds the search for a run-up. An axis that needs longer to reach
// its speed asks at the seam for more than its limits leave.
const maxRampSeconds = 60

// pastIt is how many times as far beyond its limits as the nearest a ramp is when
// longer ones need not be tried: they have the longer to go back on.
const pastIt = 3

// gentlest returns the shortest ramp of whole frames, with a share of the limits,
// that takes up an acceleration as well as a speed; nil where s is rest. Where none
// keeps the limits it is the one that comes nearest to them.
func (c course) gentlest(a Axis, s track.State, share float64, out bool) *Ramp {
	if !moving(s) {
		return nil
	}
	make := newRunUp
	if out {
		make = newRunOut
	}
	most := exact.Int(maxRampSeconds).Mul(c.loop.Clock.Capture).Ceil().Whole() + 1
	var best *Ramp
	least := math.Inf(1)
	for frames := int64(1); frames <= most && least > 1; frames++ {
		r := make(s, c.loop.Clock.FrameTime(frames))
		strain := r.strain(a, s, share)
		if strain > pastIt*least {
			break
		}
		if strain < least {
			best, least = r, strain
		}
	}
	return best
}

// strain is the greatest of a ramp's peaks over what it may be, 1 or less where all
// are kept: a share of the axis' acceleration, all of its speed and jerk, or what the
// seam itself already asks.
func (r *Ramp) strain(a Axis, seam track.State, share float64) float64 {
	_, _, speed, acc, jerk := r.peaks()
	strain := math.Max(speed/math.Max(math.Abs(seam.Vel)*(1+limitSlack), a.Rig.MaxSpeed),
		acc/math.Max(share*a.Rig.MaxAcc, math.Abs(seam.Acc)*(1+limitSlack)))
	if a.Rig.MaxJerk > 0 {
		strain = math.Max(strain, jerk/a.Rig.MaxJerk)
	}
	return strain
}
