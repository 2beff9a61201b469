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
	p, faults := Partly(s, r)
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

// Partly joins what is sound of a shot and a rig, of which parts may not have
// been understood, for the faults that this shows. What depends on a part that
// is not sound is left out, and not blamed. The plan has neither pace, way back
// nor run-ups.
func Partly(s shot.Shot, r rig.Rig) (*Plan, fault.List) {
	p := &Plan{
		Title: s.Title, ShotFile: s.File, Loop: s.Loop, Rig: r,
		Rounds: s.Rounds, Timecode: s.Timecode, Start: s.Start,
		Defaults: s.Defaults,
	}
	timed := s.Loop.Captured > 0
	if timed {
		p.Handles = exact.Int(s.Handles).Mul(s.Clock.PerScreen()).Ceil().Whole()
	}
	var faults fault.List
	for _, move := range s.Axes {
		axis, err := onRig(s, r, move)
		if sound := !move.Faulty && !axis.Faulty; err == nil && sound && (timed || move.Move == shot.Aim) {
			err = p.addAxis(s, axis, move)
		}
		if err != nil {
			faults = append(faults, *err)
		}
	}
	faults = append(faults, p.addStands(s)...)
	return p, append(faults, p.aimSound(s)...)
}

// onRig looks the axis of a move up, and whether the move suits it.
func onRig(s shot.Shot, r rig.Rig, move shot.AxisMove) (rig.Axis, *fault.Fault) {
	axis, ok := r.Axis(move.Name)
	if !ok {
		at := placed(s, move)
		at.Quantity, at.Bound = "is not on the rig", fmt.Sprintf("%q", r.Name)
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

// addAxis adds an axis with its track, but for one that aims: see aim.
func (p *Plan) addAxis(s shot.Shot, axis rig.Axis, move shot.AxisMove) *fault.Fault {
	if move.Move == shot.Aim {
		p.Axes = append(p.Axes, Axis{Rig: axis, Move: move})
		return nil
	}
	t, err := move.ShapedTrack(s.Loop.Real(), axis.Shake.Spring)
	if err != nil {
		at := placed(s, move)
		at.Quantity = err.Error()
		return &at
	}
	p.Axes = append(p.Axes, Axis{Rig: axis, Move: move, Track: t, Gain: t.Advance(), Extremes: t.Extremes()})
	return nil
}

func axisNames(r rig.Rig) []string {
	names := make([]string, len(r.Axes))
	for i, a := range r.Axes {
		names[i] = a.Name
	}
	return names
}
