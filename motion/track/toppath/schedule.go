package toppath

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

// PathState is how far along the path, in its own seconds, with three derivatives by
// real time.
type PathState struct{ S, Vel, Acc, Jerk float64 }

// Schedule says when a path is where. Its pace is continuous and so is the
// change of its pace, over the seam too; with that are speed and acceleration of
// every axis. It is immutable.
type Schedule struct {
	path    Path
	curve   *spline // in place of the profile
	profile *profile
	width   float64 // s that the profile is averaged over
	origin  float64 // s of the profile at which s = 0
	natural float64 // s that the averaged profile takes
	slower  float64 // real seconds for each of those
	bound   float64 // s, the least time if jerk had no limit
}

// cells is how many even steps the path was cut into.
func (s *Schedule) cells() int {
	if s.curve != nil {
		return len(s.curve.bends)
	}
	return s.profile.cells()
}

// Seconds returns the time the path takes.
func (s *Schedule) Seconds() float64 { return s.natural * s.slower }

// Bound returns the least time under the limits of speed and acceleration alone,
// whatever the jerk, to a few thousandths: what smoothness costs is the difference.
func (s *Schedule) Bound() float64 { return s.bound }

// At returns the pace at t seconds. A closed path goes on for ever; an open one
// rests before and after.
func (s *Schedule) At(t float64) PathState {
	k := 1 / s.slower
	if s.curve != nil {
		p := s.curve.at(t * k)
		return PathState{p.S, p.Vel * k, p.Acc * k * k, p.Jerk * k * k * k}
	}
	p := s.profile.mean(t*k+s.origin, s.width)
	return PathState{p.S, p.Vel * k, p.Acc * k * k, p.Jerk * k * k * k}
}

// When returns the time in the first round at which the path is at s, from 0 to its
// length: a key's new time, given its old one. The pace is never below 0, so
// halving finds it.
func (s *Schedule) When(at float64) float64 {
	low, high := 0., s.Seconds()
	for high-low > sameTime*s.Seconds() {
		mid := (low + high) / 2
		if s.At(mid).S < at {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// sameTime is the share of the whole to which When is found.
const sameTime = 1e-14

// States writes where each axis is at t seconds, with derivatives by real time.
func (s *Schedule) States(t float64, to []track.State) {
	if rounds := states(s.path, s.At(t), to); rounds != 0 {
		advance(s.path, rounds, to)
	}
}

// states is the chain rule. A position is that of the first round; it returns
// how many rounds there were before it.
func states(path Path, p PathState, to []track.State) float64 {
	at, rounds := p.S, 0.
	if path.Closed() {
		rounds = math.Floor(at / path.Length())
		at -= rounds * path.Length()
	}
	path.At(at, to)
	for i, q := range to {
		v := p.Vel
		to[i].Vel = q.Vel * v
		to[i].Acc = q.Acc*v*v + q.Vel*p.Acc
		to[i].Jerk = q.Jerk*v*v*v + 3*q.Acc*v*p.Acc + q.Vel*p.Jerk
	}
	return rounds
}

// advance adds what the axes gain in a number of rounds.
func advance(path Path, rounds float64, to []track.State) {
	start, end := make([]track.State, len(to)), make([]track.State, len(to))
	path.At(0, start)
	path.At(path.Length(), end)
	for i := range to {
		to[i].Pos += rounds * (end[i].Pos - start[i].Pos)
	}
}

// Stretched returns the schedule slowed evenly to take sec seconds, which are no
// fewer than it takes now: no limit is then exceeded that was not before.
func (s *Schedule) Stretched(sec float64) *Schedule {
	if !(sec >= s.Seconds()) {
		panic("toppath: a schedule can only be slowed")
	}
	slow := *s
	slow.slower = sec / s.natural
	return &slow
}

// WholeFrames returns the schedule slowed to the next whole number of captured
// frames, that number, and its exact seconds.
func (s *Schedule) WholeFrames(capture exact.Rat) (*Schedule, int64, exact.Rat) {
	n := exact.FromFloat(s.Seconds()).Mul(capture).Ceil()
	sec := n.Quo(capture)
	return s.Stretched(max(sec.Float(), s.Seconds())), n.Whole(), sec
}
