package plan

import (
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/track"
	"seamrail/motion/track/toppath"
)

// retimeSlack is how far, in mm or degrees, a retimed axis may be from its
// path: a nanometre, a ten-thousandth of a microstep. A schedule is an average
// that is rounded to some 1e-11 mm, and over a ten-thousandth of a loop that is
// still nothing beside the jerk.
var retimeSlack = track.Slack{Pos: 1e-6, Acc: 2e-3, Jerk: 0.05, Least: 1e-4}

// quickest returns the course with all axes going along their way together as fast as
// the rig allows, in a loop of as many whole frames as that takes, and the seconds
// that none can be below.
func (c course) quickest(stands bool) (course, float64, fault.List) {
	f := fault.Fault{File: c.file, Quantity: "clock.pace"}
	if c.cut() || stands {
		f.Value, f.Bound = `"quickest"`, "cannot be in a shot that passes through or has a stand, whose times are their own"
		return c, 0, fault.List{f}
	}
	s, err := c.schedule()
	if err == nil {
		c, err = c.fitted(s)
	}
	if err != nil {
		f.Quantity += ": " + err.Error()
		return c, 0, fault.List{f}
	}
	return c, s.Bound(), nil
}

// schedule is the quickest pace along the tracks.
func (c course) schedule() (*toppath.Schedule, error) {
	var path toppath.Loop
	var limits []toppath.Limit
	for _, a := range c.axes {
		if math.IsInf(a.Extremes.Jerk.Value, 0) {
			return nil, fmt.Errorf("axis %s jumps in acceleration; its law must not, such as %q", a.Rig.Name, "3-4-5")
		}
		path = append(path, a.Track)
		limits = append(limits, toppath.Limit{Speed: c.top(a), Acc: a.Rig.MaxAcc, Jerk: a.Rig.MaxJerk})
	}
	return toppath.New(path, limits)
}

// maxSlower is how many times the loop may be made a little longer so that what
// is driven, not only what was scheduled, keeps within the limits.
const maxSlower = 8

// fitted returns the course at the pace of a schedule, in the fewest whole frames
// that keep the limits.
func (c course) fitted(s *toppath.Schedule) (course, error) {
	least := s.Seconds()
	for range maxSlower {
		loop, err := c.wholeLoop(least)
		if err != nil {
			return c, err
		}
		real := loop.Real().Float()
		quick, err := c.paced(s.Stretched(max(real, s.Seconds())), loop)
		if err != nil {
			return c, err
		}
		over := quick.excess()
		if over <= 1 {
			return quick, nil
		}
		least = real * over
	}
	return c, fmt.Errorf("no loop as quick as %.3f s keeps the limits", least)
}

// excess returns how much slower the axes must go to keep their limits; 1 is
// no slower.
func (c course) excess() float64 {
	slower := 1.0
	for _, a := range c.axes {
		for _, l := range c.limits(a, a.Extremes) {
			share := math.Abs(l.peak.Value) / l.bound
			switch l.quantity {
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
func (c course) wholeLoop(sec float64) (clock.Loop, error) {
	rates := c.loop.Clock
	grain := rates.PerScreen().Den().Int64()
	screen := exact.FromFloat(sec).Mul(rates.Playback).Quo(rates.Retime)
	n := screen.Quo(exact.Int(grain)).Ceil().Whole()
	loop, err := rates.LoopFrames(max(1, n) * grain)
	loop.Asked = c.loop.Asked + ", at the quickest pace"
	return loop, err
}

// paced gives every axis the track that the schedule makes of its own, in a loop.
func (c course) paced(s *toppath.Schedule, loop clock.Loop) (course, error) {
	var failed error
	c = c.with(func(a Axis) Axis {
		if failed != nil || aims(a.Move) {
			return a
		}
		m := paced{s, a.Track}
		if a.Track, failed = track.Follow(loop.Real(), a.Gain, m, m.breaks(), retimeSlack); failed == nil {
			a.Extremes = a.Track.Extremes()
		}
		return a
	})
	if failed != nil {
		return c, failed
	}
	c.loop = loop
	c, faults := c.followed()
	return c, faults.Err()
}

// paced is one axis of a schedule as a motion: its track, gone along at the
// schedule's pace.
type paced struct {
	s     *toppath.Schedule
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
