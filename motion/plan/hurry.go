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
// path: a nanometre, a ten-thousandth of a microstep. A schedule is an average
// that is rounded to some 1e-11 mm, and over a ten-thousandth of a loop that is
// still nothing beside the jerk.
var retimeSlack = track.Slack{Pos: 1e-6, Acc: 2e-3, Jerk: 0.05, Least: 1e-4}

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
	return nil
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
	p.Bound = s.Bound()
	return p.paceOut(s, path)
}

// mostSlower is how many times the loop may be made a little longer so that what
// is driven, not only what was scheduled, keeps within the limits.
const mostSlower = 8

// paceOut follows the schedule in the fewest whole frames that keep the limits.
func (p *Plan) paceOut(s *retime.Schedule, path retime.Loop) (clock.Loop, error) {
	least := s.Seconds()
	for range mostSlower {
		loop, err := p.wholeLoop(least)
		if err != nil {
			return loop, err
		}
		real := loop.Real().Float()
		if err := p.follow(s.Stretched(max(real, s.Seconds())), path, loop.Real()); err != nil {
			return loop, err
		}
		if err := p.aim().Err(); err != nil {
			return loop, err
		}
		over := p.overdone()
		if over <= 1 {
			return loop, nil
		}
		least = real * over
	}
	return clock.Loop{}, fmt.Errorf("no loop as quick as %.3f s keeps the limits", least)
}

// overdone returns how much slower the axes must go to keep their limits; 1 is
// no slower.
func (p *Plan) overdone() float64 {
	slower := 1.0
	for i := range p.Axes {
		a := &p.Axes[i]
		for _, c := range p.checks(a, a.Extremes) {
			share := math.Abs(c.peak.Value) / c.bound
			switch c.quantity {
			case Acceleration:
				share = math.Sqrt(share)
			case Jerk:
				share = math.Cbrt(share)
			}
			if share > 1+limitSlack {
				slower = max(slower, share)
			}
		}
	}
	return slower
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
		m := paced{s, path[i]}
		t, err := track.Follow(period, a.Gain, m, m.breaks(), retimeSlack)
		if err != nil {
			return err
		}
		a.Track, a.Extremes = t, t.Extremes()
	}
	return nil
}

// paced is one axis of a schedule as a motion: its track, gone along at the
// schedule's pace.
type paced struct {
	s     *retime.Schedule
	track *track.Track
}

func (m paced) At(sec float64) track.State {
	p := m.s.At(sec)
	q := m.track.At(p.S)
	return track.Jet{q.Pos, q.Vel, q.Acc, q.Jerk}.Of(track.State{Pos: p.S, Vel: p.Vel, Acc: p.Acc, Jerk: p.Jerk})
}

// Before is At: a schedule's speed and acceleration are continuous.
func (m paced) Before(sec float64) track.State { return m.At(sec) }

// jumpShare is the share of the greatest jump of a schedule's jerk that counts
// as one: what is left out is a fiftieth of the limit.
const jumpShare = 0.02

// breaks returns when the schedule's jerk jumps, and when it is where a track's
// formula changes.
func (m paced) breaks() []float64 {
	at := m.track.Breaks()
	out := m.s.Breaks(jumpShare)
	for _, b := range at[1 : len(at)-1] {
		out = append(out, m.s.When(b))
	}
	return out
}
