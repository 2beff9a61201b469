package spin

import (
	"math"

	"seamrail/motion/base/exact"
)

// candidate is a loop that a scan comes by.
type candidate struct {
	query  Query
	speeds []Speed
	grain  grain
	at     int64
	closes bool
	weight float64 // Loop.weight, within slack
	share  float64 // the worst product's error in shares of its bound, within slack
	turns  float64 // and in turns
	// before and after are share of the loops next to it, in the range or not;
	// +Inf where there is none.
	before, after float64
}

// nearest tells whether it is nearer to a match than the loops next to it; of
// two that are equally near, the longer is.
func (c candidate) nearest() bool {
	return c.compare(c.share, c.before, c.at-1) <= 0 && c.compare(c.share, c.after, c.at+1) < 0
}

// compare compares its share with that of loop i, exactly where floats cannot
// tell.
func (c candidate) compare(own, other float64, i int64) int {
	switch gap := math.Abs(own-other) - slack*max(own, other); {
	case math.IsInf(other, 1):
		return -1
	case gap > 0 && own < other:
		return -1
	case gap > 0:
		return 1
	}
	return c.exactly(c.at).Cmp(c.exactly(i))
}

// exactly returns the share of loop i.
func (c candidate) exactly(i int64) exact.Rat {
	var worst exact.Rat
	for k, p := range c.query.Products {
		s := p.seam(c.grain.real(i), c.grain.clock.Capture, c.speeds[k])
		if share := s.Error.Abs().Quo(s.Bound); worst.Less(share) {
			worst = share
		}
	}
	return worst
}

// listens is after how many loops it is asked whether anybody still waits: some
// milliseconds.
const listens = 4096

// scan goes through the loops of one clock and one speed a stand, in order.
func (q Query) scan(g grain, speeds []Speed, visit func(candidate)) {
	if g.per == 0 {
		return
	}
	lo, hi := g.span(q.From, q.To)
	hi = min(hi, g.limit())
	if hi < lo {
		return
	}
	f := q.follow(g, speeds, max(1, lo-1))
	before := math.Inf(1)
	if lo > 1 {
		before = f.share
		f.next()
	}
	for i := lo; i <= hi; i++ {
		if i%listens == 0 && q.givenUp() {
			return
		}
		c := candidate{query: q, speeds: speeds, grain: g, at: i, closes: f.closes, weight: f.weight, share: f.share, turns: f.turns, before: before}
		f.next()
		c.after = f.share
		visit(c)
		before = c.share
	}
}

// follower follows the residues of several products, and the worst of them.
type follower struct {
	residues             []*residue
	at                   int64
	closes               bool
	weight, share, turns float64 // of the worst; turns is its error's size
}

func (q Query) follow(g grain, speeds []Speed, at int64) *follower {
	f := &follower{at: at}
	for k, p := range q.Products {
		f.residues = append(f.residues, newResidue(g, p, speeds[k], at))
	}
	f.look()
	return f
}

func (f *follower) next() {
	for _, r := range f.residues {
		r.next()
	}
	f.at++
	f.look()
}

func (f *follower) look() {
	f.closes, f.weight, f.share, f.turns = true, 0, -1, 0
	for _, r := range f.residues {
		f.closes = f.closes && r.closes()
		share, spread := r.shares(f.at)
		f.weight = max(f.weight, share*share+spread*spread)
		if share > f.share {
			f.share, f.turns = share, share*r.bound
		}
	}
}
