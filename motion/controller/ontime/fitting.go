package ontime

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/segment"
)

// fitting is a take whose lines are being made to be on time.
type fitting struct {
	m     *machine
	turns int // in which lines are corrected
	way   way
	take  segment.Take
	extra *extra
	share float64                 // of what is learnt that is acted on
	scale float64                 // of all times that are aimed at in a round
	even  map[*segment.Block]bool // blocks of one speed, whose ticks are chosen
}

const (
	// modelled is how many rounds are run in the search: the first, whose
	// beginning differs, and two that follow on rounds like themselves.
	modelled = 3
	// manyBlocks in a round let two rounds stand for all.
	manyBlocks = 2000
	// fitTurns is how often what came of the lines is taken off what is aimed at.
	fitTurns = 16
	// goodEnough is the share of what is promised at which no more is corrected.
	goodEnough = 0.65
	// farOff is how many times what is promised a take may be off after three
	// turns for more of them to be of use.
	farOff = 15
	// hopeless is the share of a round by which it is late where times are not
	// what is wrong.
	hopeless = 0.05
)

// few is how many rounds are run in the search, also for a take of fewer: it may
// go on until it is stopped.
func (f *fitting) few() int {
	if len(f.take.Round) > manyBlocks {
		return modelled - 1
	}
	return modelled
}

// fit runs the lines of the first rounds, takes off what each was late by, and
// runs them again. It leaves the best behind, and returns what came of it.
func (f *fitting) fit(x *ideal, work *int) (Prediction, error) {
	f.extra = extraOf(f.take)
	n := f.few()
	var best Prediction
	var kept fitting
	var seen *witness // of the best
	share := 1.0      // of what is learnt that is acted on
	for turn := range f.turns {
		f.solve()
		w, err := f.m.run(f.take, n, x)
		if err != nil {
			return best, err
		}
		*work += len(w.lines)
		p := w.prediction(int64(n))
		if turn == 0 || p.score() < best.score() {
			best, kept, seen = p, f.copy(), w
			share = min(1, share*1.5)
		} else { // too much at once: from the best again, more gently
			*f = kept.copy()
			share /= 2
		}
		lost := math.Abs(p.RoundLate) > hopeless*p.RoundPlanned || turn >= 2 && best.score() > farOff
		if p.score() < goodEnough || lost && !f.way.tread { // what many treads are off by adds up, and is learnt
			break
		}
		f.learn(seen, share)
	}
	*f = kept
	return best, nil
}

func (f *fitting) copy() fitting {
	c := *f
	c.take.RunUp, c.take.Round, c.take.RunOut = clone(f.take.RunUp), clone(f.take.Round), clone(f.take.RunOut)
	c.extra = &extra{clone(f.extra.up), clone(f.extra.round), clone(f.extra.out), f.extra.level}
	return c
}

func clone[T any](s []T) []T { return append([]T(nil), s...) }

// solve sets the nominal times of all blocks by the quick model, so that each
// takes the time that is aimed at.
func (f *fitting) solve() {
	k := &f.take
	s := f.m.script(*k, 2, f.extra)
	shapes := f.m.board.Shapes(s.moves)
	up, first, second, out := s.rounds[0], s.rounds[0], s.rounds[1], s.rounds[2]
	ring := s.chain(shapes, first, second, f.scale)
	ring.ring = true
	// The first follows on the last, as in the second round.
	if len(ring.links) > 0 && second < len(shapes) {
		ring.links[0].enter = shapes[second].Enter
	}
	ring.solve()
	f.even = map[*segment.Block]bool{}
	f.ticks(s, ring, first)
	s.pay(ring, first)
	if up > 0 {
		c := s.chain(shapes, 0, up, 1)
		c.after, c.leave = ring.links[0].reach(), shapes[first].Enter
		c.solve()
		s.pay(c, 0)
	}
	if out < len(shapes) {
		c := s.chain(shapes, out, len(shapes), 1)
		c.before = ring.links[len(ring.links)-1].reach()
		c.solve()
		s.pay(c, out)
	}
}

// chain returns the moves from one to the other as a chain.
func (s *script) chain(shapes []firmware.Shape, from, to int, scale float64) *chain {
	c := &chain{links: make([]link, to-from)}
	for i := range c.links {
		x := &shapes[from+i]
		c.links[i] = link{length: x.Length, acc: x.Acc, enter: x.Enter, cap: x.Cap, target: s.targets[from+i] * scale}
	}
	return c
}

// pay gives each block the nominal time that was found for it.
func (s *script) pay(c *chain, from int) {
	for i := range c.links {
		l := &c.links[i]
		if b := s.blocks[from+i]; b != nil && l.length > 0 {
			b.Nominal = exact.FromFloat(l.length / l.speed * s.stretch[from+i])
		}
	}
}
