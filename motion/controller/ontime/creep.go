package ontime

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/segment"
)

var two = exact.Int(2)

const (
	// creepWay is how far, in mm or degrees, an axis may creep while it should
	// rest: less than is promised by far.
	creepWay = 0.02
	// minFeed is the slowest pace of a line, mm or degrees a second, with a
	// tenth to spare: open firmware goes no slower than a unit a minute (common
	// practice).
	minFeed = 1.1 / 60
)

// crept is the round with its rests spent in motion too small to see, for
// controllers that answer each line: a dwell is answered when it is over, and
// how soon the next line comes then is not known. The last steps before a rest
// last through its first half, the first after it through its second. A rest
// that is too long for it stays one.
func (m *machine) crept(round []segment.Block, start []float64) []segment.Block {
	round = merged(round)
	if allRest(round) {
		return round
	}
	var out []segment.Block
	for i := 0; i < len(round); i++ {
		b := round[i]
		if !b.Rest || i == 0 {
			out = append(out, b)
			continue
		}
		sec := b.Seconds
		if i+1 < len(round) {
			sec = sec.Quo(two)
		}
		before, back, ok := m.comes(out, b.End, sec.Float())
		if !ok {
			out = append(out, b)
			continue
		}
		creeps := b
		creeps.Rest, creeps.Seconds = false, sec
		if i+1 == len(round) {
			out = append(before, creeps)
			out[len(out)-2].End = back
			continue
		}
		after, on, ok := m.goes(round[i+1:], b.End, sec.Float())
		if !ok {
			out = append(out, b)
			continue
		}
		out = append(before, creeps)
		out[len(out)-2].End = back
		creeps.End, creeps.Seconds = on, b.Seconds.Sub(sec)
		out = append(out, creeps)
		round = append(clone(round[:i+1]), after...)
	}
	return out
}

// comes returns the moves before a rest at a place, the last of them long enough
// to end some steps short of it, and where that is.
func (m *machine) comes(moves []segment.Block, at []float64, sec float64) (out []segment.Block, back []float64, ok bool) {
	out = clone(moves)
	for n := len(out); n >= 2 && !out[n-1].Rest && !out[n-2].Rest; n-- {
		if back, ok = m.short(out[n-2].End, at, sec); ok {
			return out, back, true
		}
		out = append(out[:n-2], group(out[n-2:n]))
	}
	return nil, nil, false
}

// goes returns the moves after a rest at a place, the first of them long enough
// to begin some steps from it, and where that is.
func (m *machine) goes(moves []segment.Block, at []float64, sec float64) (out []segment.Block, on []float64, ok bool) {
	out = clone(moves)
	for len(out) >= 2 && !out[0].Rest && !out[1].Rest {
		if on, ok = m.short(out[0].End, at, sec); ok {
			return out, on, true
		}
		out = append([]segment.Block{group(out[:2])}, out[2:]...)
	}
	return nil, nil, false
}

// short returns a place some steps from at towards from, as many as a move of
// sec s has at the least. It returns false where they are too many or too far.
func (m *machine) short(from, at []float64, sec float64) ([]float64, bool) {
	out := append([]float64(nil), at...)
	moves := false
	for i, a := range m.axes {
		if from[i] == at[i] {
			continue
		}
		per := a.StepsPerUnit.Float()
		steps := max(1, math.Ceil(sec*max(minFeed*per, slowMargin*m.slowest)))
		way := steps / per
		if way > creepWay || way > math.Abs(from[i]-at[i])/2 {
			return nil, false
		}
		out[i] = at[i] + math.Copysign(way, from[i]-at[i])
		moves = true
	}
	return out, moves
}
