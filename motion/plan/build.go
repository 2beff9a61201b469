package plan

import (
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Build plans the shot on the rig: tracks, the time scale, the way back, ramps. The
// error is a fault.List with everything that keeps the shot from having a plan at
// all: an axis the rig does not have, a unit that does not fit the axis, a move that
// cannot be built. A plan that breaks a limit is a plan; ask it for its Breaches.
func Build(s shot.Shot, r rig.Rig) (*Plan, error) {
	j, faults := join(s, r)
	c, bound := j.course, 0.0
	if len(faults) == 0 && s.Quickest {
		c, bound, faults = c.quickest(len(j.stands) > 0)
	}
	if len(faults) == 0 {
		c, faults = c.closed()
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return j.plan(c, bound), nil
}

// Partly joins what is sound of a shot and a rig, of which parts may not have
// been understood, for the faults that this shows. What depends on a part that
// is not sound is left out, and not blamed. The plan has neither pace, way back
// nor run-ups.
func Partly(s shot.Shot, r rig.Rig) (*Plan, fault.List) {
	j, faults := join(s, r)
	return j.plan(j.course, 0), faults
}

// joined is a shot on a rig, with all tracks as the shot times them.
type joined struct {
	shot   shot.Shot
	rig    rig.Rig
	course course
	stands []Stand
	speeds []shot.Default // of stands that have only one
	set    *Set           // on a rig that is started by hand
}

func join(s shot.Shot, r rig.Rig) (joined, fault.List) {
	s, set, faults := byHand(s, r)
	c := course{file: s.File, controller: r.Controller, loop: s.Loop, rounds: s.Rounds, byFrame: s.ByFrame}
	c, more := c.tracked(s, r)
	faults = append(faults, more...)
	stands, speeds, more := standsOf(s, r)
	faults = append(faults, more...)
	faults = append(faults, releases(s, r)...)
	c, more = c.following(s)
	return joined{s, r, c, stands, speeds, set}, append(faults, more...)
}

// lawDefaults are the defaults of the shot, of which a law that was filled in is the
// rig's own where that has one.
func (j joined) lawDefaults() []shot.Default {
	if j.set == nil {
		return j.shot.Defaults
	}
	return list.Map(j.shot.Defaults, func(d shot.Default) shot.Default {
		for _, a := range j.course.axes {
			if d.Key == source.Join("axis", a.Rig.Name)+".law" {
				d.Value, d.Why = j.rig.Controller.Buttons.Ramp.Words(), "the rig has a ramp of its own"
			}
		}
		return d
	})
}

// plan is what was joined, moving like c.
func (j joined) plan(c course, bound float64) *Plan {
	s := j.shot
	p := &Plan{
		Title: s.Title, ShotFile: s.File, Loop: c.loop, Rig: j.rig, Axes: c.axes, Stands: j.stands, Set: j.set,
		ByFrame: s.ByFrame, Rounds: s.Rounds, Bound: bound, Back: c.back, Timecode: s.Timecode, Start: s.Start,
		Defaults: slices.Concat(j.lawDefaults(), j.speeds),
		LeftOut:  s.LeftOut,
		Music:    s.Music,
		Captures: s.Offers, Shortest: s.Shortest, Longest: s.Longest,
	}
	if s.Loop.Captured > 0 {
		p.Handles = exact.Int(s.Handles).Mul(s.Clock.PerScreen()).Ceil().Whole()
	}
	for _, a := range c.axes {
		p.RunUp = max(p.RunUp, c.framesOf(a.RunUp))
		p.RunOut = max(p.RunOut, c.framesOf(a.RunOut))
	}
	return p
}
