package against

import (
	"math"
	"slices"
)

// stretch is a part of a take, in frames that may be fractions.
type stretch struct{ from, to float64 }

// Moves are looked for a quarter of a frame apart. What goes less than a hundred-millionth of
// its travel meanwhile stands: a plan stands exactly, but for how numbers are rounded, and even
// the softest law sets out faster within a frame.
const (
	grain = 0.25
	still = 1e-8
)

// turn is where an axis sets out the other way than it went before.
type turn struct {
	axis  int
	ended float64 // planned frame at which it stopped going the one way
	sets  float64 // and at which it sets out the other way
	to    float64 // 1 or -1: the way that it sets out
}

// step is which way an axis goes from a planned frame to a grain later: 1, -1, or 0.
func (t track) step(axis int, frame float64) float64 {
	d := t.at(axis, frame+grain) - t.at(axis, frame)
	if math.Abs(d) <= still*t.travel[axis] {
		return 0
	}
	return math.Copysign(1, d)
}

// turns are those of an axis over the whole take.
func (t track) turns(axis int) (out []turn, first float64) {
	way, ended := 0.0, t.first
	for k := t.first; k < t.last; k += grain {
		s := t.step(axis, k)
		if s == 0 {
			continue
		}
		if way == 0 {
			first = s
		} else if s != way {
			out = append(out, turn{axis, ended, k, s})
		}
		way, ended = s, k+grain
	}
	return out, first
}

// rests are the stretches in which an axis does not move, after a move, in planned frames; the
// last one goes on after the take.
func (t track) rests(axis int) (out []stretch) {
	moved, from := false, math.NaN()
	for k := t.first; k < t.last; k += grain {
		if t.step(axis, k) == 0 {
			continue
		}
		if moved && from < k {
			out = append(out, stretch{from, k})
		}
		moved, from = true, k+grain
	}
	if moved {
		out = append(out, stretch{from, math.Inf(1)})
	}
	return out
}

// allRests are those of all axes, each axis after the other; where two rest alike, once.
func (t track) allRests() (out [][]stretch) {
	for a := range t.Axes {
		rests := t.rests(a)
		alike := slices.ContainsFunc(out, func(s []stretch) bool { return slices.EqualFunc(s, rests, nearly) })
		if len(rests) > 0 && !alike {
			out = append(out, rests)
		}
	}
	return out
}

// nearly tells whether two stretches are the same to a frame.
func nearly(a, b stretch) bool {
	return math.Abs(a.from-b.from) < 1 && (a.to == b.to || math.Abs(a.to-b.to) < 1)
}

// moving tells whether any axis moves around a planned frame.
func (t track) moving(frame float64) bool {
	for a := range t.Axes {
		if t.step(a, frame-grain) != 0 || t.step(a, frame) != 0 {
			return true
		}
	}
	return false
}
