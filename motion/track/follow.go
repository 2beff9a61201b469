package track

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/exact"
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
	Jerk float64 // share of its greatest jerk
	// Least is the share of the period below which a piece only has to keep to
	// Pos: for motions that are rounded so much that nothing shorter tells more
	// of their acceleration and jerk. Breaks that are closer are one.
	Least float64
}

// FineSlack is that of aims: a millionth of a micrometre is past every encoder,
// and peaks are good to the digits a report prints. A millionth of the loop is
// long enough for the rounding of positions to leave most of the acceleration of
// what lies between two breaks.
var FineSlack = Slack{Pos: 1e-9, Acc: 1e-6, Jerk: 1e-3, Least: 1e-6}

const (
	// firstParts is how many parts a smooth stretch is cut into at first, at most,
	// so that nothing between two looks is overlooked.
	firstParts = 8
	// shortStretch is the share of the period that a first part has at least.
	shortStretch = 5e-3
	// maxHalvings bounds how often a part is halved: a millionth of a stretch.
	maxHalvings = 20
	// maxPieces bounds the memory of a track.
	maxPieces = 1 << 17
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
	at := f.grid(breaks)
	if !f.measure(at) {
		return nil, fmt.Errorf("the motion to follow is not finite everywhere")
	}
	for i := 1; i < len(at); i++ {
		if err := f.part(at[i-1], at[i], 0); err != nil {
			return nil, err
		}
	}
	return &Track{period: period, advance: advance, seconds: f.end, gain: advance.Float(), pieces: f.pieces}, nil
}

type follower struct {
	m         Mover
	slack     Slack
	acc, jerk float64 // the greatest seen
	pos       float64 // the furthest from 0 seen
	end       float64 // s, the period
	pieces    []piece
}

// grid returns where the first parts begin and end, in seconds.
func (f *follower) grid(breaks []float64) []float64 {
	ends := []float64{0}
	slices.Sort(breaks)
	for _, b := range breaks {
		if b > ends[len(ends)-1]+f.slack.Least*f.end && b < f.end*(1-f.slack.Least) {
			ends = append(ends, b)
		}
	}
	ends = append(ends, f.end)
	out := ends[:1:1]
	for i := 1; i < len(ends); i++ {
		width := ends[i] - ends[i-1]
		parts := min(max(math.Ceil(width/(shortStretch*f.end)), 1), firstParts)
		for k := 1.0; k < parts; k++ {
			out = append(out, ends[i-1]+width*(k/parts))
		}
		out = append(out, ends[i])
	}
	return out
}

// measure finds the sizes that slack is a share of.
func (f *follower) measure(at []float64) bool {
	for i := 1; i < len(at); i++ {
		a, b := at[i-1], at[i]
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
func (f *follower) part(a, b float64, depth int) error {
	from, to := f.after(a, b), f.m.Before(b)
	h := b - a
	p := piece{from: a, to: b, origin: a, length: h, base: from.Pos, goal: to.Pos, span: 1}
	c := newQuintic(end{0, from.Vel * h, from.Acc * h * h}, end{to.Pos - from.Pos, to.Vel * h, to.Acc * h * h})
	if !c.still() {
		p.shape = c
	}
	if f.close(&p) {
		f.pieces = append(f.pieces, p)
		return nil
	}
	if depth == maxHalvings || len(f.pieces) > maxPieces {
		return fmt.Errorf("the motion is too sharp to follow at %.6f s", a)
	}
	middle := a + h/2
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

// close tells whether a part keeps to slack.
// What rounding of the positions does to the derivatives of a short part is
// forgiven: they were met at its ends.
func (f *follower) close(p *piece) bool {
	h := p.length
	blur := f.pos * rounding
	for _, u := range checked {
		got, want := p.state(p.from+u*h), f.m.At(p.from+u*h)
		if math.Abs(got.Pos-want.Pos) > f.slack.Pos+blur {
			return false
		}
		if h < f.slack.Least*f.end {
			continue
		}
		if math.Abs(got.Acc-want.Acc) > f.slack.Acc*f.acc+accBlur*blur/(h*h) ||
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
