package plan

import (
	"fmt"
	"slices"

	"seamrail/motion/fault"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
)

// aim gives every axis that aims the track that follows from what carries the
// lens, as that moves now.
func (p *Plan) aim() fault.List {
	var faults fault.List
	for i := range p.Axes {
		if a := &p.Axes[i]; a.Move.Move == shot.Aim {
			if problem := p.aimAxis(a); problem != nil {
				faults = append(faults, *problem)
			}
		}
	}
	return faults
}

// aimSound is aim in a plan that may lack axes of the shot. What would follow one
// of these is left out of it, and so is what cannot aim.
func (p *Plan) aimSound(s shot.Shot) fault.List {
	orphan := map[string]bool{}
	for i := range p.Axes {
		m := p.Axes[i].Move
		_, planned := p.axis(m.Follow)
		_, stated := s.Axis(m.Follow)
		orphan[m.Name] = m.Move == shot.Aim && stated && !planned
	}
	p.Axes = slices.DeleteFunc(p.Axes, func(a Axis) bool { return orphan[a.Move.Name] })
	faults := p.aim()
	p.Axes = slices.DeleteFunc(p.Axes, func(a Axis) bool { return a.Track == nil })
	return faults
}

func (p *Plan) aimAxis(a *Axis) *fault.Fault {
	f := a.fault(p.ShotFile)
	carriage, ok := p.axis(a.Move.Follow)
	f.Quantity, f.Value = "follow", fmt.Sprintf("%q", a.Move.Follow)
	switch {
	case !ok:
		f.Bound = "must be an axis of this shot"
		return &f
	case carriage.Rig.Kind != rig.Linear || carriage.Move.Move == shot.Aim:
		f.Bound = "must slide along a rail, and not aim at something itself"
		return &f
	}
	t, err := a.Move.Aimed(carriage.Track)
	if err != nil {
		f.Quantity, f.Value = err.Error(), ""
		return &f
	}
	a.Track, a.Extremes = t, t.Extremes()
	a.Cut = 0
	if p.Back > 0 {
		a.Cut = t.Before(p.Loop.Real().Float()).Pos - t.At(0).Pos
	}
	return nil
}

func (p *Plan) axis(name string) (*Axis, bool) {
	for i := range p.Axes {
		if p.Axes[i].Rig.Name == name {
			return &p.Axes[i], true
		}
	}
	return nil, false
}

// fault is one about the axis' move, with what is wrong left to say.
func (a *Axis) fault(file string) fault.Fault {
	return fault.Fault{File: file, Line: a.Move.Line, Column: a.Move.Column, Axis: a.Rig.Name}
}
