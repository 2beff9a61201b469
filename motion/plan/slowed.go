package plan

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

// Slowed returns the plan as a rig goes through it so many times as slowly, more than 1,
// for somebody to look at: one round along the very same path, run-up, way back and
// run-out included, with every frame of it so many times as long. Speeds, accelerations
// and jerks are less by that, its square and its cube, so that what keeps the limits
// goes on keeping them. Stands are not in it: nobody slows them.
func (p *Plan) Slowed(times exact.Rat) *Plan {
	out := *p
	out.Loop.Clock.Capture = p.Loop.Clock.Capture.Quo(times)
	out.Loop.Clock.Retime = p.Loop.Clock.Retime.Mul(times) // what is shown stays as long
	out.Rounds, out.Stands, out.Bound = 1, nil, p.Bound*times.Float()
	out.Axes = make([]Axis, len(p.Axes))
	for i, a := range p.Axes {
		a.Track = a.Track.Slowed(times)
		a.Extremes = a.Track.Extremes()
		a.RunUp, a.RunOut = a.RunUp.slowed(times), a.RunOut.slowed(times)
		out.Axes[i] = a
	}
	return &out
}

// slowed is the ramp gone along so many times as slowly.
func (r *Ramp) slowed(times exact.Rat) *Ramp {
	if r == nil {
		return nil
	}
	out, k := *r, times.Float()
	out.exact = r.exact.Mul(times)
	out.length, out.pace = out.exact.Float(), r.pace*k
	out.end = slower(r.end, k)
	return &out
}

// slower is a state that is gone through k times as slowly.
func slower(s track.State, k float64) track.State {
	return track.State{Pos: s.Pos, Vel: s.Vel / k, Acc: s.Acc / (k * k), Jerk: s.Jerk / (k * k * k)}
}
