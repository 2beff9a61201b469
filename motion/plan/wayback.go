package plan

import (
	"fmt"
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/fault"
	"seamrail/motion/quick"
	"seamrail/motion/shot"
	"seamrail/motion/track"
)

// mostBackSeconds is longer than anyone waits between two rounds.
const mostBackSeconds = 600

// bound is an axis on its way back.
type bound struct {
	shown *Axis
	leg   quick.Leg
	gain  exact.Rat // units a turn goes on, with the way back
	still bool      // at rest where it has to be
}

type wayBack struct {
	plan  *Plan
	share float64
	axes  []bound
}

func (w *wayBack) bound(a *Axis) bound {
	in, out := seamEnd(a), seamStart(a)
	b := bound{shown: a, gain: a.Track.Advance(), leg: w.plan.leg(a, w.share)}
	b.leg.Start, b.leg.End = in.Vel, out.Vel
	b.leg.Speed = max(b.leg.Speed, math.Abs(in.Vel), math.Abs(out.Vel))
	b.leg.Distance = b.away(in, out)
	b.still = !moving(in) && !moving(out) && b.leg.Distance == 0
	return b
}

// away is how far it is from where the loop ends to where the next round, with
// gain, begins.
func (b *bound) away(in, out track.State) float64 {
	if b.shown.Move.Move == shot.Through {
		return out.Pos - in.Pos
	}
	return b.gain.Sub(b.shown.Track.Advance()).Float()
}

// settledShare is how much acceleration, as a share of the limit, an axis may
// have at the seam and count as having none: nothing that a motor could show.
const settledShare = 1e-9

// settled reports the axes that a way back cannot take over.
func (w *wayBack) settled() fault.List {
	var faults fault.List
	for _, b := range w.axes {
		if b.shown.Track.Settled(settledShare * b.shown.Rig.MaxAcc) {
			continue
		}
		f := b.shown.fault(w.plan.ShotFile)
		f.Quantity, f.Bound = "the move", "must be at rest or at an even speed at the seam, where the pass is cut"
		f.Fit = "a phase of 0, a hold at the first frame, or a turn at an even speed would do"
		faults = append(faults, f)
	}
	return faults
}

// least returns the least frames in which every axis can come back. A table
// that turns without end goes on as far as suits that time.
func (w *wayBack) least() (int64, error) {
	var legs []quick.Leg
	for _, b := range w.axes {
		if !b.still && !b.goesOn() {
			legs = append(legs, b.leg)
		}
	}
	frames, sec, err := quick.Frames(w.plan.Loop.Clock.Capture, legs...)
	if err != nil {
		return 0, err
	}
	for i := range w.axes {
		w.axes[i].carryOn(sec)
	}
	return w.atLeast(frames)
}

// goesOn tells whether the axis may turn on rather than stop and come back.
func (b *bound) goesOn() bool {
	return b.shown.Rig.Endless && b.gain.Sign() != 0 && b.leg.Start != 0
}

// carryOn lets a turn go on by as many more of its turns as come nearest to
// going on at its speed for sec seconds.
func (b *bound) carryOn(sec exact.Rat) {
	if !b.goesOn() {
		return
	}
	once := b.shown.Track.Advance()
	more := exact.FromFloat(b.leg.Start).Mul(sec).Quo(once).Round()
	b.gain = once.Add(once.Mul(more))
	b.leg.Distance = once.Mul(more).Float()
}

// atLeast returns the least frames, from a count on, in which every axis can
// come back.
func (w *wayBack) atLeast(frames int64) (int64, error) {
	rate := w.plan.Loop.Clock.Capture
	var legs []quick.Leg
	for _, b := range w.axes {
		if !b.still {
			legs = append(legs, b.leg)
		}
	}
	for {
		asked := exact.Int(frames).Quo(rate).Float()
		if asked > mostBackSeconds {
			return 0, fmt.Errorf("it would take more than %d s; the axes' limits are too low for the speed at the cut", mostBackSeconds)
		}
		sec, err := quick.Together(asked, legs...)
		if err != nil || sec == asked {
			return frames, err
		}
		frames = max(frames+1, exact.FromFloat(sec).Mul(rate).Ceil().Whole())
	}
}

// lay gives every axis its round, with a way back of so many frames.
func (w *wayBack) lay(frames int64) error {
	p := w.plan
	p.Back = frames
	sec := p.Loop.Clock.FrameTime(frames)
	for _, b := range w.axes {
		a, _ := p.axis(b.shown.Rig.Name)
		var back track.WayBack
		if !b.still {
			m, err := b.leg.Stretch(sec.Float(), quick.LeastJerk)
			if err != nil {
				return err
			}
			back = &m
		}
		a.Track = b.shown.Track.WithReturn(sec, b.gain, back)
		a.Extremes = a.Track.Extremes()
		if m := b.shown.Move; m.Move == shot.Through {
			a.Cut = m.To.Float() - m.From.Float()
		}
	}
	return nil
}
