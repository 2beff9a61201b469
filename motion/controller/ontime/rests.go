package ontime

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/segment"
)

// restsIn counts the rests of a round.
func restsIn(round []segment.Block) int {
	n := 0
	for _, b := range round {
		if b.Rest {
			n++
		}
	}
	return n
}

// grained tells whether a dwell lasts other than it is told.
func (m *machine) grained() bool { return m.c.DwellGrain > 0 || m.c.IdleDelay > 0 }

// rests tells whether nothing moves for a part of the round, and something for
// another.
func (m *machine) rests() bool {
	some := false
	for i := range m.axes {
		for _, s := range m.t.Spans(i) {
			some = some || !m.t.Moves((s.From+s.To)/2)
		}
	}
	return some
}

// besideDwell is what a rest lasts beside its dwell, s, before it is run: the
// idle delay, and some turns of the board's main loop.
func (m *machine) besideDwell() float64 {
	const turns = 12
	return m.c.IdleDelay + turns*m.board.Turn.Seconds()
}

// rested gives the rests of a round lengths that the controller can keep. A
// dwell lasts whole grains; what is left of the rest goes to the moves on both
// sides, whose last and first steps are a little late or early, too little to
// see; where the round begins or ends with a rest, it all goes to the one side
// that is in the round. A rest shorter than a grain is no dwell at all: the
// steps beside it are slow enough to fill it. It returns false where the moves are too short for it.
func (m *machine) rested(round []segment.Block, long bool) (out []segment.Block, ok bool) {
	round = merged(round)
	if !m.grained() || allRest(round) {
		return round, true
	}
	for i := 0; i < len(round); i++ {
		if !round[i].Rest {
			continue
		}
		told, real := m.dwell(round[i].Seconds.Float(), long)
		left := round[i].Seconds.Sub(nanos(real))
		before, after := m.shared(round, i, left)
		if round, ok = m.spread(round, i, +1, after); !ok {
			return nil, false
		}
		n := len(round)
		if round, ok = m.spread(round, i, -1, before); !ok {
			return nil, false
		}
		i += len(round) - n
		round[i].Nominal, round[i].Seconds = exact.FromFloat(told), nanos(real)
		if told == 0 {
			round = append(round[:i], round[i+1:]...)
			i--
		}
	}
	return round, true
}

// nanos is s seconds in whole nanoseconds, exactly.
func nanos(s float64) exact.Rat { return exact.New(int64(math.Round(s*instantGrain)), instantGrain) }

// grainMargin is by how much less than its grains a dwell is told, s: a word that
// a board rounds up must not make one grain more.
const grainMargin = 0.0001

// sameGrain is the share of a grain by which a rest may be short of whole ones and
// count as them: it is rounded to a nanosecond.
const sameGrain = 1e-6

// dwell returns what a dwell is told so that a rest lasts so many s, or one
// grain more where it is to be long, and how long the rest is then.
func (m *machine) dwell(sec float64, long bool) (told, real float64) {
	beside := m.besideDwell()
	grain := m.c.DwellGrain
	if grain == 0 { // only the idle delay is in the way
		told = max(0, sec-beside)
		if told == 0 && !long {
			return 0, 0
		}
		return told, told + beside
	}
	each := grain + m.board.Turn.Seconds()
	n := max(0, math.Floor((sec-beside)/each+sameGrain))
	if long {
		n++
	}
	if n == 0 {
		return 0, 0
	}
	return n*grain - grainMargin, n*each + beside
}

// creepSeconds is more than the first block of a round lasts where it is a single
// step before a rest: it cannot be any slower.
const creepSeconds = 0.035

// shared says how much of what is left of rest i the moves on either side get.
func (m *machine) shared(round []segment.Block, i int, left exact.Rat) (before, after exact.Rat) {
	half := left.Quo(exact.Int(2))
	switch {
	case i == 0, i == 1 && round[0].Seconds.Float() < creepSeconds:
		return exact.Rat{}, left
	case i == len(round)-1:
		return left, exact.Rat{}
	}
	return half, left.Sub(half)
}

// merged joins rests that follow on each other.
func merged(round []segment.Block) []segment.Block {
	var out []segment.Block
	for _, b := range round {
		if n := len(out); n > 0 && b.Rest && out[n-1].Rest {
			b.Seconds = b.Seconds.Add(out[n-1].Seconds)
			b.Nominal = b.Seconds
			out[n-1] = b
			continue
		}
		out = append(out, b)
	}
	return out
}

func allRest(round []segment.Block) bool {
	for _, b := range round {
		if !b.Rest {
			return false
		}
	}
	return true
}

// spread adds sec to the moves before rest i, or after it where dir is +1. What is
// added goes to the last steps, or the first; what is taken off, to as many moves as
// last twice as long. It returns false where there are not so many.
func (m *machine) spread(round []segment.Block, i, dir int, sec exact.Rat) ([]segment.Block, bool) {
	if sec.Sign() > 0 && m.far(round, i, dir) {
		if out, ok := m.late(round, i, dir, sec); ok {
			return out, true
		}
	}
	return spread(round, i+dir, sec, dir)
}

// spread adds sec to the moves of round from block i on, in the direction dir.
func spread(round []segment.Block, i int, sec exact.Rat, dir int) ([]segment.Block, bool) {
	switch {
	case sec.Sign() == 0:
		return round, true
	case i < 0 || i >= len(round) || round[i].Rest:
		return nil, false
	case sec.Sign() > 0:
		round[i].Seconds = round[i].Seconds.Add(sec)
		return round, true
	}
	from, to := i, i
	least := sec.Mul(exact.Int(-2))
	for !least.Less(segment.Total(round[from : to+1])) {
		switch {
		case dir > 0 && to+1 < len(round) && !round[to+1].Rest:
			to++
		case dir < 0 && from > 0 && !round[from-1].Rest:
			from--
		default:
			return nil, false
		}
	}
	one := group(round[from : to+1])
	one.Seconds = one.Seconds.Add(sec)
	out := append([]segment.Block(nil), round[:from]...)
	return append(append(out, one), round[to+1:]...), true
}

// stood makes rest i of a stage as long as it really was, and the moves beside
// it as much shorter.
func (f *fitting) stood(stage []segment.Block, i int, over float64) {
	left := nanos(-over)
	before, after := f.m.shared(stage, i, left)
	room := func(k int, sec exact.Rat) bool {
		return sec.Sign() == 0 || k >= 0 && k < len(stage) && !stage[k].Rest && sec.Neg().Mul(exact.Int(2)).Less(stage[k].Seconds)
	}
	if !room(i-1, before) || !room(i+1, after) || !left.Less(stage[i].Seconds) {
		return
	}
	stage[i].Seconds = stage[i].Seconds.Sub(left)
	if before.Sign() != 0 {
		stage[i-1].Seconds = stage[i-1].Seconds.Add(before)
	}
	if after.Sign() != 0 {
		stage[i+1].Seconds = stage[i+1].Seconds.Add(after)
	}
}
