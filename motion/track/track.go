// Package track is one axis over one loop: where it is, how fast, and what its
// greatest values are, held as exact pieces rather than samples.
//
// Positions are mm on a linear axis and degrees on a rotary one ("units");
// times are real seconds, 0 at captured frame 0. A track repeats for ever:
// x(t + Period) = x(t) + Advance.
package track

import (
	"math"
	"sort"

	"seamrail/motion/base/exact"
)

// State is a position and its first three derivatives, in units, units/s,
// units/s2 and units/s3.
type State struct{ Pos, Vel, Acc, Jerk float64 }

// Track is one axis over one loop. It is immutable and safe for concurrent
// use.
type Track struct {
	period  exact.Rat
	advance exact.Rat
	seconds float64 // period
	gain    float64 // advance
	pieces  []piece // in time order, covering [0, seconds] without gaps
}

// Period returns the length of the loop in real seconds.
func (t *Track) Period() exact.Rat { return t.period }

// Seconds returns the period as a float.
func (t *Track) Seconds() float64 { return t.seconds }

// Advance returns the units gained in one loop: 0, or 360 a turn.
func (t *Track) Advance() exact.Rat { return t.advance }

// At returns the state at sec seconds. Where a derivative jumps it is the
// value just after. Outside [0, Period) it is the periodic extension, with
// what the track has advanced; At(Period) is therefore the start of the next
// round.
func (t *Track) At(sec float64) State {
	local, rounds := t.wrap(sec)
	s := t.pieces[t.after(local)].state(local)
	s.Pos += rounds * t.gain
	return s
}

// Before returns the state just before sec seconds: the limit from the left.
// Before(Period) is the state that comes into the seam.
func (t *Track) Before(sec float64) State {
	local, rounds := t.wrap(sec)
	i := t.after(local)
	if local == t.pieces[i].from {
		i--
	}
	if i < 0 {
		i, local, rounds = len(t.pieces)-1, t.seconds, rounds-1
	}
	s := t.pieces[i].before(local)
	s.Pos += rounds * t.gain
	return s
}

// wrap splits sec into a time in [0, seconds) and a count of whole rounds.
func (t *Track) wrap(sec float64) (local, rounds float64) {
	if sec >= 0 && sec < t.seconds {
		return sec, 0
	}
	rounds = math.Floor(sec / t.seconds)
	local = sec - rounds*t.seconds
	switch {
	case local < 0:
		local = 0
	case local >= t.seconds:
		local, rounds = 0, rounds+1
	}
	return local, rounds
}

// after returns the index of the piece that begins at or before sec.
func (t *Track) after(sec float64) int {
	p := t.pieces
	if len(p) <= linearSearch {
		i := len(p) - 1
		for i > 0 && sec < p[i].from {
			i--
		}
		return i
	}
	return max(0, sort.Search(len(p), func(i int) bool { return p[i].from > sec })-1)
}

// linearSearch is the count of pieces up to which looking at each is faster
// than halving.
const linearSearch = 8
