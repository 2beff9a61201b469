package plan

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/law/mintime"
	"seamrail/motion/move"
	"seamrail/motion/track"
)

// maxBackSeconds is longer than anyone waits between two rounds.
const maxBackSeconds = 600

// homeward is an axis on its way back.
type homeward struct {
	shown Axis
	leg   mintime.Leg
	gain  exact.Rat // units a turn goes on, with the way back
	still bool      // at rest where it has to be
}

// wayBack takes every axis that has a track of its own from where the loop ends to
// where it begins.
type wayBack struct {
	shown course
	axes  []homeward
}

func (c course) wayBack(share float64) wayBack {
	w := wayBack{shown: c}
	for _, a := range c.axes {
		if !aims(a.Move) {
			w.axes = append(w.axes, c.homeward(a, share))
		}
	}
	return w
}

func (c course) homeward(a Axis, share float64) homeward {
	in, out := seamEnd(a), seamStart(a)
	h := homeward{shown: a, gain: a.Track.Advance(), leg: c.leg(a, share)}
	h.leg.Start, h.leg.End = in.Vel, out.Vel
	h.leg.Speed = max(h.leg.Speed, math.Abs(in.Vel), math.Abs(out.Vel))
	if passes(a.Move) {
		h.leg.Distance = out.Pos - in.Pos
	}
	h.still = !moving(in) && !moving(out) && h.leg.Distance == 0
	return h
}

// settledShare is how much acceleration, as a share of the limit, an axis may
// have at the seam and count as having none: nothing that a motor could show.
const settledShare = 1e-9

// unsettled reports the axes that a way back cannot take over.
func (w wayBack) unsettled() fault.List {
	var faults fault.List
	for _, h := range w.axes {
		if h.shown.Track.Settled(settledShare * h.shown.Rig.MaxAcc) {
			continue
		}
		f := w.shown.fault(h.shown)
		f.Quantity, f.Bound = "the move", "must be at rest or at an even speed at the seam, where the pass is cut"
		f.Fit = "a phase of 0, a hold at the first frame, or a turn at an even speed would do"
		faults = append(faults, f)
	}
	return faults
}

// least returns the least frames in which every axis can come back, on a way on which
// tables that turn without end go on as far as suits that time.
func (w wayBack) least() (wayBack, int64, error) {
	legs := w.legs(func(h homeward) bool { return !h.still && !h.goesOn() })
	frames, sec, err := mintime.Frames(w.shown.loop.Clock.Capture, legs...)
	if err != nil {
		return w, 0, err
	}
	w.axes = slices.Clone(w.axes)
	for i, h := range w.axes {
		if h.goesOn() {
			w.axes[i] = h.onFor(sec)
		}
	}
	frames, err = w.atLeast(frames)
	return w, frames, err
}

func (w wayBack) legs(of func(homeward) bool) []mintime.Leg {
	var legs []mintime.Leg
	for _, h := range w.axes {
		if of(h) {
			legs = append(legs, h.leg)
		}
	}
	return legs
}

// goesOn tells whether the axis may turn on rather than stop and come back.
func (h homeward) goesOn() bool {
	return h.shown.Rig.Endless && h.gain.Sign() != 0 && h.leg.Start != 0
}

// onFor lets a turn go on by as many more of its turns as come nearest to
// going on at its speed for sec seconds.
func (h homeward) onFor(sec exact.Rat) homeward {
	once := h.shown.Track.Advance()
	more := exact.FromFloat(h.leg.Start).Mul(sec).Quo(once).Round()
	h.gain = once.Add(once.Mul(more))
	h.leg.Distance = once.Mul(more).Float()
	return h
}

// atLeast returns the least frames, from a count on, in which every axis can
// come back.
func (w wayBack) atLeast(frames int64) (int64, error) {
	rate := w.shown.loop.Clock.Capture
	legs := w.legs(func(h homeward) bool { return !h.still })
	for {
		asked := exact.Int(frames).Quo(rate).Float()
		if asked > maxBackSeconds {
			return 0, fmt.Errorf("it would take more than %d s; the axes' limits are too low for the speed at the cut", maxBackSeconds)
		}
		sec, err := mintime.Together(asked, legs...)
		if err != nil || sec == asked {
			return frames, err
		}
		frames = max(frames+1, exact.FromFloat(sec).Mul(rate).Ceil().Whole())
	}
}

// laid returns the course with a way back of so many frames. What follows another
// axis is as it was.
func (w wayBack) laid(frames int64) (course, error) {
	var failed error
	sec := w.shown.loop.Clock.FrameTime(frames)
	c := w.shown.with(func(a Axis) Axis {
		i := slices.IndexFunc(w.axes, func(h homeward) bool { return h.shown.Rig.Name == a.Rig.Name })
		if i < 0 || failed != nil {
			return a
		}
		a, failed = w.axes[i].round(sec)
		return a
	})
	c.back = frames
	return c, failed
}

// round is the axis with a way back of so many seconds.
func (h homeward) round(sec exact.Rat) (Axis, error) {
	a := h.shown
	var back track.WayBack
	if !h.still {
		m, err := h.leg.Stretch(sec.Float(), mintime.MinJerk)
		if err != nil {
			return a, err
		}
		back = &m
	}
	a.Track = a.Track.WithReturn(sec, h.gain, back)
	a.Extremes = a.Track.Extremes()
	if p, cut := a.Move.Does.(move.Passer); cut {
		a.Cut = p.Cut()
	}
	return a, nil
}
