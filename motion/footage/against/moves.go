package against

import "math"

// stretch is a part of a take, in frames that may be fractions.
type stretch struct{ from, to float64 }

func (s stretch) has(x float64) bool { return x >= s.from && x < s.to }

// Moves are looked for a quarter of a frame apart. What goes less than a hundred-thousandth of
// its travel meanwhile stands: of a travel of a thousand pixels that is a hundredth of one.
const (
	grain = 0.25
	still = 1e-5
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

// rests are the stretches in which no axis moves, after a move, in planned frames; the last one
// goes on after the take.
func (t track) rests() (out []stretch) {
	moved, from := false, math.NaN()
	for k := t.first; k < t.last; k += grain {
		moves := false
		for a := range t.Axes {
			moves = moves || t.step(a, k) != 0
		}
		switch {
		case moves && moved && from < k:
			out = append(out, stretch{from, k})
			fallthrough
		case moves:
			moved, from = true, k+grain
		}
	}
	if moved {
		out = append(out, stretch{from, math.Inf(1)})
	}
	return out
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
