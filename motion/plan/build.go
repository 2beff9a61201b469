package plan

import (
	"fmt"
	"strings"

	"seamrail/motion/exact"
	"seamrail/motion/fault"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
)

// Build plans the shot on the rig. The error is a fault.List with everything
// that keeps the shot from having a plan at all: an axis the rig does not
// have, a unit that does not fit the axis, a move that cannot be built. A plan
// that breaks a limit is a plan; ask it for its Breaches.
func Build(s shot.Shot, r rig.Rig) (*Plan, error) {
	p := &Plan{
		Title: s.Title, ShotFile: s.File, Loop: s.Loop, Rig: r,
		Rounds: s.Rounds, Timecode: s.Timecode, Start: s.Start,
		Defaults: s.Defaults,
	}
	p.Handles = exact.Int(s.Handles).Mul(s.Clock.PerScreen()).Ceil().Whole()
	var faults fault.List
	for _, move := range s.Axes {
		axis, err := buildAxis(s, r, move)
		if err != nil {
			faults = append(faults, *err)
			continue
		}
		p.Axes = append(p.Axes, axis)
	}
	faults = append(faults, p.addStands(s)...)
	if len(faults) == 0 {
		faults = p.aim()
	}
	if len(faults) == 0 && s.Quickest {
		faults = p.hurry()
	}
	if len(faults) == 0 {
		faults = p.addReturns()
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return p, nil
}

func buildAxis(s shot.Shot, r rig.Rig, move shot.AxisMove) (Axis, *fault.Fault) {
	at := fault.Fault{File: s.File, Line: move.Line, Column: move.Column, Axis: move.Name}
	axis, ok := r.Axis(move.Name)
	if !ok {
		at.Quantity, at.Bound = "is not on the rig", fmt.Sprintf("%q", r.Name)
		at.Fit = "it has " + strings.Join(axisNames(r), ", ")
		return Axis{}, &at
	}
	if problem := move.CheckKind(axis.Kind == rig.Rotary); problem != nil {
		problem.File, problem.Axis = s.File, move.Name
		return Axis{}, problem
	}
	if move.Move == shot.Aim {
		return Axis{Rig: axis, Move: move}, nil // see aim
	}
	t, err := move.ShapedTrack(s.Loop.Real(), axis.Shake.Spring)
	if err != nil {
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
