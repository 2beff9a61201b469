// Package toppath goes along a path of several axes as fast as their limits
// allow, without leaving it.
//
// The path is any closed or open curve over a parameter s, which counts as the
// path's own seconds. Only the pace along it is chosen: s as a function of real
// time t. With v = ds/dt each axis has, by the chain rule,
//
//	speed        q' v
//	acceleration q'' v^2 + q' dv/dt
//	jerk         q''' v^3 + 3 q'' v dv/dt + q' d2v/dt2
//
// Under limits of speed and acceleration alone the least time is found to the
// width of a cell of the path: see fastest. A limit of jerk is kept by smoothing
// that: see New.
//
// This is about when the rig is where. The clock's retime, between what the
// camera sees and what is shown, is another matter: see motion/base/clock.
package toppath

import (
	"errors"
	"fmt"
	"math"

	"seamrail/motion/track"
)

// Path is a curve that several axes share. Speed and acceleration with respect
// to s must be continuous, over the seam too if it is closed.
type Path interface {
	// Axes returns how many axes there are.
	Axes() int
	// Length returns how far s goes, from 0.
	Length() float64
	// Closed tells whether the end is the start again. An open path starts and
	// ends at rest.
	Closed() bool
	// At writes where each axis is at s, with three derivatives by s, in units
	// and the path's own seconds.
	At(s float64, to []track.State)
}

// Limit is what one axis may do, in units and real seconds.
type Limit struct {
	Speed, Acc float64 // above 0
	Jerk       float64 // 0 is none
}

// suddenJerk bounds the pace of an axis without a limit of jerk where it comes to
// rest: as if it reached its acceleration in a tenth of the time in which that
// reaches its speed. Without it the pace would grow beyond all bounds there.
const suddenJerk = 10

// jerk returns the limit of jerk, or what stands in for it.
func (l Limit) jerk() float64 {
	if l.Jerk > 0 {
		return l.Jerk
	}
	return suddenJerk * l.Acc * l.Acc / l.Speed
}

// Errors of a path that has no schedule.
var (
	ErrLimit = errors.New("limits of speed and acceleration must be above 0, that of jerk at least 0, all finite, one for each axis")
	ErrPath  = errors.New("a path needs an axis, a finite length above 0 and finite derivatives")
)

func check(p Path, limits []Limit) error {
	if len(limits) != p.Axes() {
		return fmt.Errorf("%w: %d for %d axes", ErrLimit, len(limits), p.Axes())
	}
	for _, l := range limits {
		if !(l.Speed > 0 && l.Acc > 0 && l.Jerk >= 0) || math.IsInf(l.Speed+l.Acc+l.Jerk, 0) {
			return ErrLimit
		}
	}
	if s := p.Length(); len(limits) == 0 || !(s > 0) || math.IsInf(s, 0) {
		return ErrPath
	}
	return nil
}

// Loop is the path of tracks of one period over their own time, closed.
type Loop []*track.Track

func (l Loop) Axes() int { return len(l) }

func (l Loop) Length() float64 { return l[0].Seconds() }

func (Loop) Closed() bool { return true }

func (l Loop) At(s float64, to []track.State) {
	for i, t := range l {
		to[i] = t.At(s)
	}
}
