package plan

import (
	"math"
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// course is what all axes do in a take, round after round. Each stage of planning
// makes one from another and changes none: own tracks, tracks that follow, the time
// scale, the way back, run-ups and run-outs; limits only read it.
type course struct {
	file       string // of the shot, for faults
	controller rig.Controller
	loop       clock.Loop
	back       int64 // captured frames of the way back, unseen
	rounds     int
	byFrame    *shot.ByFrame // it rests at each frame, and needs no ramps; nil where the camera runs
	axes       []Axis
}

// course is the motion of a plan.
func (p *Plan) course() course {
	return course{p.ShotFile, p.Rig.Controller, p.Loop, p.Back, p.Rounds, p.ByFrame, p.Axes}
}

// with returns the course with every axis as change makes it.
func (c course) with(change func(Axis) Axis) course {
	c.axes = slices.Clone(c.axes)
	for i, a := range c.axes {
		c.axes[i] = change(a)
	}
	return c
}

// period is the real seconds of a round.
func (c course) period() float64 { return c.loop.Clock.FrameTime(c.loop.Captured + c.back).Float() }

// shown is the real seconds of a round that are seen.
func (c course) shown() float64 { return c.loop.Real().Float() }

// unseen tells whether a time of the take, in real seconds from frame 0, is on a way
// back.
func (c course) unseen(sec float64) bool {
	return c.back > 0 && math.Mod(sec, c.period()) > c.shown()*(1+limitSlack)
}

// carried is how far the axis has come by the start of the take's last round:
// a turn goes on where the round before it ended.
func (c course) carried(a Axis) float64 {
	return exact.Int(int64(c.rounds - 1)).Mul(a.Track.Advance()).Float()
}

// top is the greatest speed that the axis and the controller's steps allow.
func (c course) top(a Axis) float64 { return a.Rig.SpeedCap(c.controller.StepRate) }

func (c course) axis(name string) (Axis, bool) {
	i := slices.IndexFunc(c.axes, func(a Axis) bool { return a.Rig.Name == name })
	if i < 0 {
		return Axis{}, false
	}
	return c.axes[i], true
}

// fault is one about the axis' move, with what is wrong left to say.
func (c course) fault(a Axis) fault.Fault {
	return fault.Fault{File: c.file, Line: a.Move.Line, Column: a.Move.Column, Axis: a.Rig.Name}
}
