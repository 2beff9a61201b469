package plan

import (
	"fmt"
	"math"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/fault"
	"seamrail/motion/retime"
	"seamrail/motion/shot"
	"seamrail/motion/track"
)

// retimeSlack is how far, in mm or degrees, a retimed axis may be from its
// path: a tenth of a micrometre, a hundredth of the finest microstep. Its
// schedule changes jerk at places of its own, so jerk follows by itself.
var retimeSlack = track.Slack{Pos: 1e-7, Acc: 1e-3, Jerk: math.Inf(1)}

// hurry lets all axes go along their way together as fast as the rig allows,
// and makes the loop as many whole frames as that takes.
func (p *Plan) hurry() fault.List {
	f := fault.Fault{File: p.ShotFile, Quantity: "clock.pace"}
	if p.cut() || len(p.Stands) > 0 {
		f.Value, f.Bound = `"quickest"`, "cannot be in a shot that passes through or has a stand, whose times are their own"
		return fault.List{f}
	}
	loop, err := p.hurried()
	if err != nil {
		f.Quantity += ": " + err.Error()
		return fault.List{f}
	}
	p.Loop = loop
	return p.aim()
}

func (p *Plan) hurried() (clock.Loop, error) {
	var path retime.Loop
	var limits []retime.Limit
	for i := range p.Axes {
		if a := &p.Axes[i]; math.IsInf(a.Extremes.Jerk.Value, 0) {
			return clock.Loop{}, fmt.Errorf("axis %s jumps in acceleration; its law must not, such as %q", a.Rig.Name, "3-4-5")
		}
	}
	for i := range p.Axes {
		a := &p.Axes[i]
		path = append(path, a.Track)
		limits = append(limits, retime.Limit{Speed: a.Rig.SpeedCap(p.Rig.Controller.StepRate), Acc: a.Rig.MaxAcc, Jerk: a.Rig.MaxJerk})
	}
	s, err := retime.New(path, limits)
	if err != nil {
		return clock.Loop{}, err
	}
	loop, err := p.wholeLoop(s.Seconds())
	if err != nil {
		return clock.Loop{}, err
	}
	return loop, p.follow(s.Stretched(loop.Real().Float()), path, loop.Real())
}

// wholeLoop returns the shortest loop of whole frames, captured and shown, of
// at least so many real seconds.
func (p *Plan) wholeLoop(sec float64) (clock.Loop, error) {
	c := p.Loop.Clock
	grain := c.PerScreen().Den().Int64()
	screen := exact.FromFloat(sec).Mul(c.Playback).Quo(c.Retime)
	n := screen.Quo(exact.Int(grain)).Ceil().Whole()
	loop, err := c.LoopFrames(max(1, n) * grain)
	loop.Asked = p.Loop.Asked + ", at the quickest pace"
	return loop, err
}

// follow gives every axis the track that the schedule makes of its own.
func (p *Plan) follow(s *retime.Schedule, path retime.Loop, period exact.Rat) error {
	for i := range p.Axes {
		a := &p.Axes[i]
		if a.Move.Move == shot.Aim {
			continue
		}
		m := paced{s, i, len(path)}
		t, err := track.Follow(period, a.Track.Advance(), m, m.breaks(a.Track), retimeSlack)
		if err != nil {
			return err
		}
		a.Track, a.Extremes = t, t.Extremes()
	}
	return nil
}

// paced is one axis of a schedule as a motion.
type paced struct {
	s    *retime.Schedule
	axis int
	axes int
}

func (m paced) At(sec float64) track.State {
	to := make([]track.State, m.axes)
	m.s.States(sec, to)
	return to[m.axis]
}

// Before is At: a schedule's speed and acceleration are continuous.
func (m paced) Before(sec float64) track.State { return m.At(sec) }

// breaks returns when the schedule is where a track's formula changes.
func (m paced) breaks(t *track.Track) []float64 {
	at := t.Breaks()
	var out []float64
	for _, b := range at[1 : len(at)-1] {
		out = append(out, m.s.When(b))
	}
	return out
}
