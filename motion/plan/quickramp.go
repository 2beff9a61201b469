package plan

import (
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/quick"
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
func (p *Plan) leg(a *Axis, share float64) quick.Leg {
	jerk := a.Rig.MaxJerk
	if jerk == 0 {
		jerk = a.Rig.MaxAcc / jerkRise
	}
	jerk = min(jerk, a.Rig.MaxAcc/p.Loop.Clock.FrameTime(riseFrames).Float())
	most := a.Rig.SpeedCap(p.Rig.Controller.StepRate)
	speed := max(unseenShare*most, min(most, math.Abs(seamStart(a).Vel)))
	return quick.Leg{Speed: speed, Acc: share * a.Rig.MaxAcc, Jerk: share * jerk}
}

// shares are the shares of an axis' acceleration and jerk that its way back, its
// run-up and its run-out may use: as little as keeps within the travel, since what is
// used less needs more room.
var shares = []float64{rampShare, 0.75, 1}

// addRamps gives every axis that moves through the seam a run-up and a run-out of
// whole captured frames. Where it passes the seam at an even speed they are the
// quickest changes of speed, which also need the least room. Each axis takes its own
// least time, so that none strays further than it must; the take's are those of the
// slowest.
func (p *Plan) addRamps() {
	for i := range p.Axes {
		a := &p.Axes[i]
		a.RunUp = p.ramp(a, seamStart(a), false)
		a.RunOut = p.ramp(a, seamEnd(a), true)
		p.RunUp = max(p.RunUp, p.framesOf(a.RunUp))
		p.RunOut = max(p.RunOut, p.framesOf(a.RunOut))
	}
}

// ramp returns a ramp between rest and s with the least of the shares that keeps its
// limits and the travel, or with all; nil where s is rest.
func (p *Plan) ramp(a *Axis, s track.State, out bool) *Ramp {
	var r *Ramp
	for _, share := range shares {
		if r = p.change(a, s, share, out); r == nil {
			r = p.gentlest(a, s, share, out)
		}
		if r == nil || r.strain(a, s, share) <= 1+limitSlack && r.within(a, p.carriedBy(out, a)) {
			break
		}
	}
	return r
}

// carriedBy is how far the axis has been carried when a ramp begins or ends at the
// loop: a run-out follows on the last round.
func (p *Plan) carriedBy(out bool, a *Axis) float64 {
	if out {
		return p.carried(a)
	}
	return 0
}

// within tells whether the ramp keeps to the travel of its axis.
func (r *Ramp) within(a *Axis, carried float64) bool {
	lo, hi, _, _, _ := r.peaks()
	slack := travelSlack(a)
	return a.Rig.Endless || lo+carried >= a.Rig.Min-slack && hi+carried <= a.Rig.Max+slack
}

func (p *Plan) framesOf(r *Ramp) int64 {
	if r == nil {
		return 0
	}
	return r.exact.Mul(p.Loop.Clock.Capture).Round().Whole()
}

// change returns the quickest ramp between rest and s, or nil where s is rest or
// has an acceleration, or the limits do not allow one.
func (p *Plan) change(a *Axis, s track.State, share float64, out bool) *Ramp {
	if !moving(s) || !a.Track.Settled(settledShare*a.Rig.MaxAcc) {
		return nil
	}
	l := p.leg(a, share)
	return quickRamp(l, s, p.changeTime(l, s.Vel), out)
}

// changeTime returns the least whole captured frames, in seconds, in which the
// limits of l allow a change of speed by vel: T* of package quick.
func (p *Plan) changeTime(l quick.Leg, vel float64) exact.Rat {
	d := math.Abs(vel)
	least := d/l.Acc + l.Acc/l.Jerk
	if d <= l.Acc*l.Acc/l.Jerk {
		least = 2 * math.Sqrt(d/l.Jerk)
	}
	n := exact.FromFloat(least).Mul(p.Loop.Clock.Capture).Ceil().Whole()
	return p.Loop.Clock.FrameTime(max(1, n))
}

// quickRamp returns the change of speed between rest and s, which has no
// acceleration, in sec seconds: half the way it would go at that speed. It is
// nil where limits do not allow it.
func quickRamp(l quick.Leg, s track.State, sec exact.Rat, out bool) *Ramp {
	l.Distance, l.End = s.Vel*sec.Float()/2, s.Vel
	l.Speed = max(l.Speed, math.Abs(s.Vel))
	begin := s.Pos - l.Distance
	if out {
		l.Start, l.End, begin = s.Vel, 0, s.Pos
	}
	m, err := l.Stretch(sec.Float(), quick.LeastJerk)
	if err != nil {
		return nil
	}
	return &Ramp{exact: sec, length: sec.Float(), end: s, out: out, quick: &m, begin: begin}
}
