package track

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/exact"
)

// Mover is where an axis is at a time within a loop, with the limit from the
// left beside it; a *Track is one.
type Mover interface {
	At(sec float64) State
	Before(sec float64) State
}

// Slack is how far a track may be from the motion it follows.
type Slack struct {
	Pos  float64 // units
	Acc  float64 // share of the motion's greatest acceleration
	Jerk float64 // share of its greatest jerk; +Inf leaves the jerk to itself
}

// FineSlack is that of aims: a millionth of a micrometre is past every encoder,
// and peaks are good to the digits a report prints.
var FineSlack = Slack{Pos: 1e-9, Acc: 1e-6, Jerk: 1e-3}

const (
	// firstParts is how many parts each smooth stretch is cut into at first, so
	// that nothing between two looks is overlooked.
	firstParts = 8
	// mostHalvings bounds how often a part is halved: a millionth of a stretch.
	mostHalvings = 20
	// mostPieces bounds the memory of a track.
	mostPieces = 1 << 17
)

// checked are the places of a part at which it is held against the motion. What a
// quintic through both ends misses goes as u^3 (1-u)^3, most in the middle; its
// second and third derivatives are great at the others.
var checked = [...]float64{0.1, 0.25, 0.5, 0.75, 0.9}

// Follow returns a track that follows a motion of the given period and advance
// within slack. It meets position, speed and acceleration exactly at the ends
// of its pieces, which are quintics, and is halved between them until it is
// close enough; extremes and turnarounds are then exact for what is driven.
// breaks are the times in the loop at which a derivative of the motion may
// jump; position may not.
//
// It fails where the motion is not finite or too sharp to follow.
func Follow(period, advance exact.Rat, m Mover, breaks []float64, slack Slack) (*Track, error) {
	if err := checkPeriod(period); err != nil {
		return nil, err
	}
	f := &follower{m: m, slack: slack, end: period.Float()}
	at := f.grid(period, breaks)
	if !f.measure(at) {
		return nil, fmt.Errorf("the motion to follow is not finite everywhere")
	}
	for i := 1; i < len(at); i++ {
		if err := f.part(at[i-1], at[i], 0); err != nil {
			return nil, err
		}
	}
	return layout(period, advance, exact.Int(0), f.legs), nil
}

type follower struct {
	m         Mover
	slack     Slack
	acc, jerk float64 // the greatest seen
	pos       float64 // the furthest from 0 seen
	end       float64 // s, the period
	legs      []leg
}

// grid returns where the first parts begin and end.
func (f *follower) grid(period exact.Rat, breaks []float64) []exact.Rat {
	ends := []exact.Rat{exact.Int(0)}
	slices.Sort(breaks)
	end := period.Float()
	for _, b := range breaks {
		last := ends[len(ends)-1].Float()
		if b > last+breakSlack*end && b < end*(1-breakSlack) {
			ends = append(ends, exact.FromFloat(b))
		}
	}
	ends = append(ends, period)
	out := ends[:1:1]
	for i := 1; i < len(ends); i++ {
		width := ends[i].Sub(ends[i-1])
		for k := int64(1); k < firstParts; k++ {
			out = append(out, ends[i-1].Add(width.Mul(exact.New(k, firstParts))))
		}
		out = append(out, ends[i])
	}
	return out
}

// measure finds the sizes that slack is a share of.
func (f *follower) measure(at []exact.Rat) bool {
	for i := 1; i < len(at); i++ {
		a, b := at[i-1].Float(), at[i].Float()
		for _, s := range []State{f.m.At(a), f.m.At((a + b) / 2), f.m.Before(b)} {
			f.pos = max(f.pos, math.Abs(s.Pos))
			f.acc = max(f.acc, math.Abs(s.Acc))
			f.jerk = max(f.jerk, math.Abs(s.Jerk))
			if !finite(s.Pos) || !finite(s.Vel) || !finite(s.Acc) || !finite(s.Jerk) {
				return false
			}
		}
	}
	return true
}

// part appends the pieces from a to b.
func (f *follower) part(a, b exact.Rat, depth int) error {
	from, to := f.after(a.Float(), b.Float()), f.m.Before(b.Float())
	h := b.Float() - a.Float()
	l := leg{lasts: b.Sub(a), base: from.Pos, goal: to.Pos}
	c := newQuintic(end{0, from.Vel * h, from.Acc * h * h}, end{to.Pos - from.Pos, to.Vel * h, to.Acc * h * h})
	if !c.still() {
		l.curve = c
	}
	if f.close(l, a.Float(), h) {
		f.legs = append(f.legs, l)
		return nil
	}
	if depth == mostHalvings || len(f.legs) > mostPieces {
		return fmt.Errorf("the motion is too sharp to follow at %s s", seconds(a))
	}
	middle := a.Add(b).Quo(exact.Int(2))
	if err := f.part(a, middle, depth+1); err != nil {
		return err
	}
	return f.part(middle, b, depth+1)
}

// jolt is the share of the greatest acceleration by which it must differ within
// afterBreak of a time for there to be a jump.
const (
	jolt       = 1e-6
	afterBreak = 2 * breakSlack
)

// after is the limit from the right. A break that rounding has put a hair after
// a is still one at a.
func (f *follower) after(a, b float64) State {
	s := f.m.At(a)
	late := f.m.At(a + min(afterBreak*f.end, (b-a)/2))
	if math.Abs(late.Acc-s.Acc) > jolt*f.acc {
		s.Acc, s.Jerk = late.Acc, late.Jerk
	}
	return s
}

// rounding is what float64 leaves of a position, as a share: a few operations.
const rounding = 1e-15

// close tells whether a part that begins at from and lasts h keeps to slack.
// What rounding of the positions does to the derivatives of a short part is
// forgiven: they were met at its ends.
func (f *follower) close(l leg, from, h float64) bool {
	p := piece{from: from, to: from + h, origin: from, length: h, base: l.base, goal: l.goal, span: 1, shape: l.curve}
	blur := f.pos * rounding
	for _, u := range checked {
		got, want := p.state(from+u*h), f.m.At(from+u*h)
		if math.Abs(got.Pos-want.Pos) > f.slack.Pos+blur ||
			math.Abs(got.Acc-want.Acc) > f.slack.Acc*f.acc+accBlur*blur/(h*h) ||
			math.Abs(got.Jerk-want.Jerk) > f.slack.Jerk*f.jerk+jerkBlur*blur/(h*h*h) {
			return false
		}
	}
	return true
}

// accBlur and jerkBlur are how much the second and third derivative of a
// quintic on [0, 1] can change with a unit of its rise: 60 u - 180 u^2 + 120 u^3
// and its derivative, at their greatest.
const (
	accBlur  = 6
	jerkBlur = 60
)
