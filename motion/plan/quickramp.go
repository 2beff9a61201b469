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

// addRamps gives every axis that moves through the seam a run-up and a run-out
// of whole captured frames, with a share of its acceleration and jerk. Where it
// passes the seam at an even speed they are the quickest changes of speed, which
// also need the least room. Each axis takes its own least time, so that none
// strays further than it must; the take's are those of the slowest.
func (p *Plan) addRamps(share float64) {
	for i := range p.Axes {
		a := &p.Axes[i]
		if a.RunUp = p.change(a, seamStart(a), share, false); a.RunUp == nil {
			a.RunUp = p.gentlest(a, seamStart(a), newRunUp)
		}
		if a.RunOut = p.change(a, seamEnd(a), share, true); a.RunOut == nil {
			a.RunOut = p.gentlest(a, seamEnd(a), newRunOut)
		}
		p.RunUp = max(p.RunUp, p.framesOf(a.RunUp))
		p.RunOut = max(p.RunOut, p.framesOf(a.RunOut))
	}
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
