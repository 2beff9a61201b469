// Package mintime finds the moves that take the least time under limits of
// speed, acceleration and jerk, from any speed to any speed, and stretches
// them to a given time with the least acceleration or the least jerk.
//
// # What is known of the quickest move
//
// The jerk is always at its limit, or acceleration or speed is (the maximum
// principle with bounded states: L. S. Pontryagin and others, The Mathematical
// Theory of Optimal Processes, 1962, chapter VI, ISBN 978-2-88124-077-5). With
// no acceleration at either end, a move of a given duration that gets furthest
// therefore has one shape: change to a peak speed as quickly as can be, hold it
// only if it is the speed limit, change to the end speed as quickly as can be.
// The move that gets least far is its mirror image, and as limits are convex
// every distance between the two is possible as well.
//
// The shortest duration of all is that of the direct change of speed,
//
//	T* = 2 sqrt(d/j) where d = |v1-v0| <= a^2/j, else d/a + a/j,
//
// which covers D* = (v0+v1)/2 T* and nothing else. A longer distance takes the
// first kind of move, a shorter one the second. The furthest distance is a
// convex function of the duration (see hop), so either has one solution.
//
// # Where durations jump
//
// If both end speeds share a sign, the duration jumps at D*: to cover a hair
// less than D*, the axis must back up first. Distances that fall short of D* by
// less than directSlack of it count as D*. For the same reason some durations
// between the shortest and the longest are impossible: see Durations. No
// distance with equal end speeds is the extreme of it: 0 s, or a whole
// excursion. Fastest takes 0 s; Detour takes the excursion.
package mintime

import (
	"errors"
	"math"
)

// Errors of a leg that has no move. They never come with one.
var (
	ErrNotFinite = errors.New("distance and end speeds must be finite numbers")
	ErrLimit     = errors.New("limits of speed, acceleration and jerk must be above 0, and but for jerk finite")
	ErrSpeed     = errors.New("an end speed is beyond the speed limit")
	ErrRange     = errors.New("distance, speeds and limits differ too much in size to be computed")
	ErrNoDetour  = errors.New("no duration is barred, so no detour is the shortest")
)

// Leg is a way to go along one axis, in any unit of length or angle and in
// seconds. Acceleration is nothing at both ends.
type Leg struct {
	Distance   float64 // signed
	Start, End float64 // speeds at both ends, signed
	Speed      float64 // limit, above 0
	Acc        float64 // limit, above 0
	Jerk       float64 // limit, above 0; +Inf is none, and acceleration jumps
}

// check returns what is wrong with the leg, or nil. Differences of two finite
// numbers are nothing exactly where both are finite.
func (l *Leg) check() error {
	switch {
	case l.Distance-l.Distance != 0 || l.Start-l.Start != 0 || l.End-l.End != 0:
		return ErrNotFinite
	case !(l.Speed > 0 && l.Acc > 0 && l.Jerk > 0) || l.Speed > math.MaxFloat64 || l.Acc > math.MaxFloat64:
		return ErrLimit
	case math.Abs(l.Start) > l.Speed || math.Abs(l.End) > l.Speed:
		return ErrSpeed
	}
	return nil
}

// mirrored returns the leg the other way round.
func (l *Leg) mirrored() Leg {
	m := *l
	m.Distance, m.Start, m.End = 0-m.Distance, 0-m.Start, 0-m.End
	return m
}
