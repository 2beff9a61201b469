// Package survey tells what a shot's moves leave of after-shake, and which laws,
// loops, dwells and shapers would leave less.
package survey

import (
	"errors"
	"math"
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/track"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/spring"
)

// Subject is one axis of a shot, and how it swings.
type Subject struct {
	Axis   rig.Axis // its Shake does not matter
	Move   shot.AxisMove
	Loop   clock.Loop
	Spring spring.Spring
	Stated float64 // steps/s of the controller; 0 = no limit
	// Fixed is the track as it was planned, of a move that goes as another axis
	// does or as fast as the rig can: no law or loop of its own is to be tried.
	// Nil where the move and the loop say how it goes.
	Fixed *track.Track
}

// Found is what one way of moving does to the load of an axis, in an endless
// loop. Lengths are in units, mm or degrees.
type Found struct {
	Worst  track.Peak       // greatest distance from the carriage, sign kept
	Ring   track.Peak       // the same, beside the even lag of its acceleration
	Rests  []vibration.Rest // of a captured frame or longer
	Left   float64          // greatest swing as a rest begins; without rests, that of Ring
	Acc    float64          // greatest acceleration, units/s2
	Within bool             // the limits of the axis
}

// Of returns the subject for an axis of a plan.
func Of(p *plan.Plan, a *plan.Axis) Subject {
	s := Subject{a.Rig, a.Move, p.Loop, a.Rig.Shake.Spring, p.Rig.Controller.StepRate, nil}
	if t, err := s.Move.ShapedTrack(s.Loop.Real(), s.Spring); err != nil || !alike(t.Extremes(), a.Extremes) {
		s.Fixed = a.Track
	}
	return s
}

// alike tells whether two tracks have the same reach and the same peaks, to the
// rounding of their planning.
func alike(a, b track.Extremes) bool {
	const slack = 1e-9
	same := func(p, q track.Peak) bool {
		return p.Value == q.Value || math.Abs(p.Value-q.Value) <= slack*math.Abs(q.Value)
	}
	return same(a.Min, b.Min) && same(a.Max, b.Max) && same(a.Speed, b.Speed) && same(a.Acc, b.Acc)
}

// maxLooked bounds the frames at which the ring is looked at: in a longer loop
// every so-manieth is.
const maxLooked = 20_000

// Frames returns the times of the captured frames, in real seconds, at most so
// many as are looked at, evenly.
func (s Subject) Frames() []float64 {
	n := s.Loop.Captured
	every := 1 + n/maxLooked
	var out []float64
	for k := int64(0); k < n; k += every {
		out = append(out, s.Loop.Clock.FrameTime(k).Float())
	}
	return out
}

// ErrPass says that a loop is cut: how the axis comes back is not filmed.
var ErrPass = errors.New("a pass comes back off camera, and how much is left of that when it begins again is not foretold")

// Look works out what a track does to the load. It fails where the loop has no
// steady state or is too long for its swings to be followed.
func (s Subject) Look(t *track.Track) (Found, *vibration.Response, error) {
	if _, cut := s.Move.Does.(move.Passer); cut {
		return Found{}, nil, ErrPass
	}
	r, err := vibration.Of(t, s.Spring)
	if err != nil {
		return Found{}, nil, err
	}
	f := Found{Worst: r.Worst(), Rests: s.seen(r.Rests()), Acc: math.Abs(t.Extremes().Acc.Value)}
	f.Ring = r.Ring(s.Frames())
	f.Left = math.Abs(f.Ring.Value)
	if len(f.Rests) > 0 {
		f.Left = loudest(f.Rests)
	}
	return f, r, nil
}

// seen are the rests that a frame can show: a shaped move may pause for less on
// its way.
func (s Subject) seen(rests []vibration.Rest) []vibration.Rest {
	frame := s.Loop.Clock.FrameTime(1).Float()
	return slices.DeleteFunc(rests, func(r vibration.Rest) bool { return r.To-r.From < frame })
}

func loudest(rests []vibration.Rest) float64 {
	left := 0.0
	for _, r := range rests {
		left = max(left, r.Swing)
	}
	return left
}

// Own is what the move does as it stands.
func (s Subject) Own() (Found, *vibration.Response, error) {
	t := s.Fixed
	if t == nil {
		var err error
		if t, err = s.Move.ShapedTrack(s.Loop.Real(), s.Spring); err != nil {
			return Found{}, nil, err
		}
	}
	f, r, err := s.Look(t)
	f.Within = s.within(t)
	return f, r, err
}

// try is Own of the subject with another move or loop, without its response;
// false where there is none.
func (s Subject) try() (Found, bool) {
	f, _, err := s.Own()
	return f, err == nil
}

// within tells whether a track keeps to the limits of the axis, rounding
// aside.
func (s Subject) within(t *track.Track) bool {
	const slack = 1 + 1e-9 // as in a plan
	e := t.Extremes()
	return math.Abs(e.Speed.Value) <= s.Axis.SpeedCap(s.Stated)*slack &&
		math.Abs(e.Acc.Value) <= s.Axis.MaxAcc*slack &&
		(s.Axis.MaxJerk == 0 || math.Abs(e.Jerk.Value) <= s.Axis.MaxJerk*slack)
}
