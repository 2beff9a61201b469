package plan

import (
	"fmt"
	"slices"

	"seamrail/motion/base/fault"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// followed returns the course with every axis that aims on the track that follows
// from what carries the lens, as that moves in it. One that cannot aim has none.
func (c course) followed() (course, fault.List) {
	var faults fault.List
	return c.with(func(a Axis) Axis {
		follower, aims := a.Move.Does.(move.Follower)
		if !aims {
			return a
		}
		a, problem := c.aimed(a, follower)
		if problem != nil {
			faults = append(faults, *problem)
		}
		return a
	}), faults
}

// following is followed for a course that may lack axes of the shot. What would
// follow one of these is left out of it, and so is what cannot aim.
func (c course) following(s shot.Shot) (course, fault.List) {
	c.axes = slices.DeleteFunc(slices.Clone(c.axes), func(a Axis) bool {
		follower, aims := a.Move.Does.(move.Follower)
		if !aims {
			return false
		}
		_, planned := c.axis(follower.Carriage())
		_, stated := s.Axis(follower.Carriage())
		return stated && !planned
	})
	c, faults := c.followed()
	c.axes = slices.DeleteFunc(c.axes, func(a Axis) bool { return a.Track == nil })
	return c, faults
}

func (c course) aimed(a Axis, follower move.Follower) (Axis, *fault.Fault) {
	f := c.fault(a)
	f.Quantity, f.Value = "follow", fmt.Sprintf("%q", follower.Carriage())
	carriage, ok := c.axis(follower.Carriage())
	switch {
	case !ok:
		f.Bound = "must be an axis of this shot"
		return a, &f
	case carriage.Rig.Kind != rig.Linear || aims(carriage.Move):
		f.Bound = "must slide along a rail, and not aim at something itself"
		return a, &f
	}
	t, err := follower.Aimed(carriage.Track)
	if err != nil {
		f.Quantity, f.Value = err.Error(), ""
		return a, &f
	}
	a.Track, a.Extremes, a.Cut = t, t.Extremes(), 0
	if c.back > 0 {
		a.Cut = t.Before(c.shown()).Pos - t.At(0).Pos
	}
	return a, nil
}
