package spin

import (
	"math/big"

	"seamrail/motion/base/exact"
)

// residue follows the faces that a stand has turned, loop after loop, as a whole
// number of 1/size face: the sum is exact and allocates nothing.
type residue struct {
	at, step, size *big.Int // at is within 0..size-1
	limit          *big.Int // the bound, rounded down
	off            *big.Int // how far at is from a match
	started        bool     // half a face has been turned, so that 0 is a match
	perBound       float64  // 1/size faces to shares of the bound
	bound          float64  // in turns
	spread         float64  // uncertainty that a loop adds, in shares of the bound
}

// newResidue begins at loop lo of g.
func newResidue(g grain, p Product, v Speed, lo int64) *residue {
	sym, turn := exact.Int(p.Symmetry), g.real(1).Quo(v.Period)
	faces := turn.Mul(sym)
	bound := p.Limit(v.Period, g.clock.Capture)
	r := &residue{step: faces.Num(), size: faces.Den(), at: new(big.Int), off: new(big.Int)}
	r.limit = floorOf(bound.Mul(sym), r.size)
	size, _ := r.size.Float64()
	r.bound = bound.Float()
	r.perBound = 1 / (size * sym.Float() * r.bound)
	r.spread = turn.Mul(v.Sigma).Quo(v.Period).Quo(bound).Float()
	r.at.Mul(r.step, big.NewInt(lo))
	r.started = faces.Mul(exact.Int(lo)).Round().Sign() > 0
	r.at.Mod(r.at, r.size)
	r.step.Mod(r.step, r.size)
	r.measure()
	return r
}

// next goes on to the next loop.
func (r *residue) next() {
	r.at.Add(r.at, r.step)
	if r.at.Cmp(r.size) >= 0 {
		r.at.Sub(r.at, r.size)
		r.started = true
	}
	r.measure()
}

// measure finds how far the nearest match is; before half a face has been
// turned that is the first one, not the start.
func (r *residue) measure() {
	r.off.Sub(r.size, r.at)
	if r.off.Cmp(r.at) <= 0 {
		r.started = true
	}
	if r.started && r.at.Cmp(r.off) < 0 {
		r.off.Set(r.at)
	}
}

func (r *residue) closes() bool { return r.off.Cmp(r.limit) <= 0 }

// shares returns the error and its uncertainty at loop i in shares of the bound,
// within slack.
func (r *residue) shares(i int64) (share, spread float64) {
	off, _ := r.off.Float64()
	return off * r.perBound, float64(i) * r.spread
}

// floorOf returns the greatest whole number not above a*n, a being at least 0.
func floorOf(a exact.Rat, n *big.Int) *big.Int {
	out := new(big.Int).Mul(a.Num(), n)
	return out.Quo(out, a.Den())
}
