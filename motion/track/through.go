package track

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
)

// ThroughSpec is a carriage that crosses the used part of its way once, to be
// cut back to where it began.
type ThroughSpec struct {
	From, To float64 // units, at frame 0 and where the frame after the last would be
	Law      law.Law // of the way across
}

// Through returns the track of a pass over period seconds. Its position jumps
// at the seam, by design from To to From, and its speed does not: a law is
// symmetric, so both ends go at the same speed. The track is not closed before
// WithReturn has brought it back.
//
// It fails if the ends are not finite or the same place, if a law is missing,
// or if the law's acceleration does not begin and end at 0 and so would jump at
// the cut, or by the law's speed, which must be bounded.
func Through(period exact.Rat, s ThroughSpec) (*Track, error) {
	if err := checkPeriod(period); err != nil {
		return nil, err
	}
	switch {
	case !finite(s.From) || !finite(s.To):
		return nil, fmt.Errorf("the ends %g and %g must both be finite", s.From, s.To)
	case s.From == s.To:
		return nil, fmt.Errorf("from and to are both %g: there is nothing to cross; to stay put, use a hold", s.From)
	case s.Law == nil:
		return nil, fmt.Errorf("a through move needs a motion law, such as %q", "uniform")
	case s.Law.At(0).A != 0:
		return nil, fmt.Errorf("the law %s pushes at its ends, one way at the first and the other at the last, and would jump at the cut; use one that does not, such as %q",
			s.Law.Name(), "uniform")
	}
	none := exact.Int(0)
	return layout(period, none, none, []leg{{lasts: period, base: s.From, goal: s.To, curve: s.Law}}), nil
}

// WayBack is a move from one place to another, counted from the first, in
// stretches over which position is a cubic; a *mintime.Move is one.
type WayBack interface {
	At(sec float64) (pos, vel, acc, jerk float64)
	Breaks() []float64 // s, from 0 to its duration
}

// WithReturn returns the round of a take that shows t and then brings the axis,
// unseen, from where t ends to where the next round starts: t over its period,
// then back over so many seconds. Each round gains advance units; back must
// cover t's start plus that, less its end, from and to t's speeds there. A nil
// back rests: t must then end where it starts, at rest.
func (t *Track) WithReturn(sec, advance exact.Rat, back WayBack) *Track {
	out := &Track{period: t.period.Add(sec), advance: advance, gain: advance.Float()}
	out.seconds = out.period.Float()
	out.pieces = append(out.pieces, t.pieces...)
	begins, ends := t.period, t.Before(t.seconds)
	for _, l := range returnLegs(sec, ends.Pos, back) {
		stop := begins.Add(l.lasts)
		out.pieces = append(out.pieces, l.piece(begins, stop, begins, stop, 0))
		begins = stop
	}
	return out
}

func returnLegs(sec exact.Rat, base float64, back WayBack) []leg {
	if back == nil {
		return []leg{{lasts: sec, base: base, goal: base}}
	}
	var out []leg
	at := back.Breaks()
	begins := exact.Int(0)
	for i := 1; i < len(at); i++ {
		stop := exact.FromFloat(at[i])
		if i == len(at)-1 {
			stop = sec
		}
		l := cubicLeg(back, at[i-1], at[i])
		l.lasts, l.base, l.goal = stop.Sub(begins), l.base+base, l.goal+base
		out, begins = append(out, l), stop
	}
	return out
}

// cubicLeg is one stretch of a way back. Its ends are met; in between a quintic
// through the states at both ends of a cubic is that cubic.
func cubicLeg(back WayBack, from, to float64) leg {
	h := to - from
	p0, v0, a0, _ := back.At(from)
	p1, v1, a1, _ := back.At(to)
	l := leg{base: p0, goal: p1}
	c := newQuintic(end{0, v0 * h, a0 * h * h}, end{p1 - p0, v1 * h, a1 * h * h})
	if !c.still() {
		l.curve = c
	}
	return l
}

// Settled tells whether an axis has no acceleration at either side of the seam
// of its loop, so that a way back can begin and end there. slack is in units/s2.
func (t *Track) Settled(slack float64) bool {
	return math.Abs(t.At(0).Acc) <= slack && math.Abs(t.Before(t.seconds).Acc) <= slack
}
