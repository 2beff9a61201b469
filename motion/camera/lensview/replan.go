package lensview

import (
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

// replanned is a trajectory as the lens sees it that can be planned anew.
type replanned struct {
	picture.Motion
	shot shot.Shot
	t    *trajectory.Trajectory
}

// Replanned returns the trajectory of a shot as the lens sees it, which can be planned
// in other loops, so that a longer one is tried before it is told as a cure.
func Replanned(t *trajectory.Trajectory, s shot.Shot) picture.Motion {
	if s.Quickest { // the rig says how long its loop is
		return Motion(t)
	}
	return replanned{Motion(t), s, t}
}

// InLoopOf implements picture.Replanner.
func (m replanned) InLoopOf(frames int64) (picture.Motion, bool) {
	s := m.shot
	loop, err := s.Clock.LoopFrames(frames)
	if err != nil {
		return nil, false
	}
	s.Loop = loop
	p, err := plan.Build(s, m.t.Rig())
	if err != nil || len(p.Breaches()) > 0 {
		return nil, false
	}
	return Motion(trajectory.New(p)), true
}
