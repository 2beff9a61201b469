package plan

import (
	"fmt"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// tracked returns the course with every axis of the shot that is sound, each with its
// own track but for those that follow another.
func (c course) tracked(s shot.Shot, r rig.Rig) (course, fault.List) {
	var faults fault.List
	for _, move := range s.Axes {
		on, err := onRig(s, r, move)
		if err == nil && !move.Faulty && !on.Faulty && (s.Loop.Captured > 0 || aims(move)) {
			var a Axis
			if a, err = own(s, on, move); err == nil {
				c.axes = append(c.axes, a)
			}
		}
		if err != nil {
			faults = append(faults, *err)
		}
	}
	return c, faults
}

// onRig looks the axis of a move up, and whether the move suits it.
func onRig(s shot.Shot, r rig.Rig, move shot.AxisMove) (rig.Axis, *fault.Fault) {
	axis, ok := r.Axis(move.Name)
	if !ok {
		at := placed(s, move)
		at.Quantity, at.Bound = notOnRig, fmt.Sprintf("%q", r.Name)
		at.Fit = "it has " + strings.Join(axisNames(r), ", ")
		return axis, &at
	}
	if move.Faulty || axis.Faulty {
		return axis, nil
	}
	problem := move.CheckKind(axis.Kind == rig.Rotary)
	if problem != nil {
		problem.File, problem.Axis = s.File, move.Name
	}
	return axis, problem
}

func placed(s shot.Shot, move shot.AxisMove) fault.Fault {
	if move.Origin != "" {
		return fault.Fault{File: move.Origin, Axis: move.Name}
	}
	return fault.Fault{File: s.File, Line: move.Line, Column: move.Column, Axis: move.Name}
}

// own is an axis with the track of its move; one that follows has none yet.
func own(s shot.Shot, axis rig.Axis, move shot.AxisMove) (Axis, *fault.Fault) {
	if aims(move) {
		return Axis{Rig: axis, Move: move}, nil
	}
	t, err := move.ShapedTrack(s.Loop.Real(), axis.Shake.Spring)
	if err != nil {
		at := placed(s, move)
		at.Quantity = err.Error()
		return Axis{}, &at
	}
	return Axis{Rig: axis, Move: move, Track: t, Gain: t.Advance(), Extremes: t.Extremes()}, nil
}

func axisNames(r rig.Rig) []string {
	names := make([]string, len(r.Axes))
	for i, a := range r.Axes {
		names[i] = a.Name
	}
	return names
}
