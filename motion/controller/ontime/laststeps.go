package ontime

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/segment"
)

const (
	// maxLast is how many steps beside a rest may be late or early with it, and
	// lastGrain how finely the time of the path is looked for that they take, s.
	maxLast   = 6
	lastGrain = 0.0005
	maxLook   = 0.1 // s
)

// late makes the last steps before rest i of the round, or the first after it
// where dir is +1, last sec longer, and no more than them: as few as the board can
// make as slowly. Sec, the time of the rest's side in the round, is given. It
// returns false where several axes move, or too many steps would have to.
func (m *machine) late(round []segment.Block, i, dir int, sec exact.Rat) ([]segment.Block, bool) {
	rest := round[i].End
	near, from := i+dir, segment.Total(round[:i])
	beyond := rest
	if dir > 0 {
		from = from.Add(round[i].Seconds)
	}
	if near < 0 || near >= len(round) || round[near].Rest {
		return nil, false
	}
	beyond = round[near].End
	if dir < 0 {
		if near == 0 {
			return nil, false
		}
		beyond = round[near-1].End
	}
	axis, ok := moving(beyond, midway(beyond, rest), rest)
	if !ok {
		return nil, false
	}
	per := m.axes[axis].StepsPerUnit.Float()
	for k := 1.0; k <= maxLast; k++ {
		took, ok := m.takes(axis, from.Float(), float64(dir), k/per)
		if !ok {
			return nil, false
		}
		if k/(took+sec.Float()) < slowMargin*m.slowest {
			continue
		}
		place := append([]float64(nil), rest...)
		place[axis] += math.Copysign(k/per, beyond[axis]-rest[axis])
		return beside(round, i, dir, nanos(took), sec, place)
	}
	return nil, false
}

// far tells whether the move beside rest i goes further than may be late with it.
func (m *machine) far(round []segment.Block, i, dir int) bool {
	near := i + dir
	if near < 0 || near >= len(round) {
		return false
	}
	from, to := round[i].End, round[near].End
	if dir < 0 {
		if near == 0 {
			return false
		}
		to = round[near-1].End
	}
	for a := range from {
		if math.Abs(from[a]-to[a]) > quietWay {
			return true
		}
	}
	return false
}

// takes is how long before or after a time of the path an axis is so far away.
func (m *machine) takes(axis int, sec, dir, way float64) (float64, bool) {
	here := m.t.State(axis, sec).Pos
	for q := lastGrain; q < maxLook; q += lastGrain {
		if math.Abs(m.t.State(axis, sec+dir*q).Pos-here) >= way {
			return q, true
		}
	}
	return 0, false
}

// beside cuts the block beside rest i that goes to or from place and lasts took
// off the moves there, and makes it longer.
func beside(round []segment.Block, i, dir int, took, longer exact.Rat, place []float64) ([]segment.Block, bool) {
	block := segment.Block{Seconds: took.Add(longer), End: round[i].End}
	block.Nominal = block.Seconds
	if dir < 0 {
		first := i - 1
		for first > 0 && !round[first-1].Rest {
			first--
		}
		leg := round[first:i]
		if !took.Less(segment.Total(leg)) {
			return nil, false
		}
		leg = curtail(leg, took)
		leg[len(leg)-1].End = place
		out := append(clone(round[:first]), leg...)
		return append(append(out, block), round[i:]...), true
	}
	last := i + 1
	for last+1 < len(round) && !round[last+1].Rest {
		last++
	}
	leg := round[i+1 : last+1]
	if !took.Less(segment.Total(leg)) {
		return nil, false
	}
	block.End = place
	out := append(clone(round[:i+1]), block)
	return append(append(out, behead(leg, took)...), round[last+1:]...), true
}
