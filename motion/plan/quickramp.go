package plan

import (
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/quick"
	"seamrail/motion/track"
)

// addRamps gives every axis that moves through the seam a run-up and a run-out
// of whole captured frames, with a share of its acceleration and jerk. Where it
// passes the seam at an even speed they are the quickest changes of speed, which
// also need the least room. Each axis takes its own least time, so that none
// strays further than it must; the take's are those of the slowest.
func (p *Plan) addRamps(share float64) {
	for i := range p.Axes {
		a := &p.Axes[i]
		a.RunUp, a.RunOut = nil, nil
		start, end := seamStart(a), seamEnd(a)
		settled := a.Track.Settled(settledShare * a.Rig.MaxAcc)
		if n, sec := p.changeFrames(a, start.Vel, share); settled && moving(start) {
			if a.RunUp = quickRamp(p.leg(a, share), start, sec, false); a.RunUp != nil {
				p.RunUp = max(p.RunUp, n)
			}
		}
		if n, sec := p.changeFrames(a, end.Vel, share); settled && moving(end) {
			if a.RunOut = quickRamp(p.leg(a, share), end, sec, true); a.RunOut != nil {
				p.RunOut = max(p.RunOut, n)
			}
		}
		if a.RunUp == nil {
			p.addRunUp(a)
		}
		if a.RunOut == nil {
			p.addRunOut(a)
		}
	}
}

// changeFrames returns the least whole captured frames in which an axis can
// change its speed by vel: T* of package quick.
func (p *Plan) changeFrames(a *Axis, vel, share float64) (int64, exact.Rat) {
	l, d := p.leg(a, share), math.Abs(vel)
	least := d/l.Acc + l.Acc/l.Jerk
	if d <= l.Acc*l.Acc/l.Jerk {
		least = 2 * math.Sqrt(d/l.Jerk)
	}
	n := max(1, exact.FromFloat(least).Mul(p.Loop.Clock.Capture).Ceil().Whole())
	return n, p.Loop.Clock.FrameTime(n)
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
