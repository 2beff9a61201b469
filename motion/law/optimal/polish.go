package optimal

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

const (
	// polishes bounds the steps; near their end each doubles the digits.
	polishes = 60
	// sameSize is how near the size of p and what its signs integrate of the
	// leading power must come, as a share: then both are the least.
	sameSize = 1e-12
)

// polish moves shares and roots together to where p is nothing at each root and
// the signed integral of each function is nothing (Newton's method). Where p has
// just gained roots this is smooth, and its size is not. It is false where that
// does not end, or ends at roots that are not all of p's.
func (c combination) polish(roots []float64, swings float64) (combination, []float64, bool) {
	if len(roots) < len(c.basis) {
		return c, nil, false
	}
	out := combination{c.lead, c.basis, slices.Clone(c.shares)}
	x := slices.Clone(roots)
	first := c.firstSign(roots)
	for range polishes {
		move, ok := out.joint(x, first)
		if !ok {
			return c, nil, false
		}
		share := inOrder(x, move[:len(x)])
		for i := range x {
			x[i] -= share * move[i]
		}
		for i := range out.shares {
			out.shares[i] -= share * move[len(x)+i]
		}
		if out.flat(x) && slices.Max(absolute(move[:len(x)])) < 1e-9 {
			return out, x, out.least(x, swings)
		}
	}
	return c, nil, false
}

// least tells whether x are the changes of sign of p, and give its size.
func (c combination) least(x []float64, swings float64) bool {
	size := c.size(c.roots(swings))
	return math.Abs(c.signed(c.lead, x)-size) <= sameSize*size
}

// joint is a step of Newton's for roots and shares; first is the sign of p beside
// the middle.
func (c combination) joint(x []float64, first float64) ([]float64, bool) {
	m, k := len(x), len(c.basis)
	a, b := mat.NewDense(m+k, m+k, nil), mat.NewVecDense(m+k, nil)
	sign := first
	for i, r := range x {
		a.Set(i, i, c.slope(r))
		b.SetVec(i, c.at(r))
		for j, f := range c.basis {
			v := f.at(r)
			a.Set(i, m+j, v)
			a.Set(m+j, i, 2*sign*v)
		}
		sign = -sign
	}
	for j, g := range c.gradient(x) {
		b.SetVec(m+j, g)
	}
	var move mat.VecDense
	if err := move.SolveVec(a, b); err != nil && move.Len() != m+k {
		return nil, false
	}
	return move.RawVector().Data, true
}

func absolute(v []float64) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		out[i] = math.Abs(v[i])
	}
	return out
}

// closing is the most of a gap between roots that one step may close.
const closing = 0.75

// inOrder returns the share of a step, at most 1, that keeps x rising inside (0,
// half).
func inOrder(x, move []float64) float64 {
	share, last, lastMove := 1.0, 0.0, 0.0
	for i := range len(x) + 1 {
		at, by := half, 0.0
		if i < len(x) {
			at, by = x[i], move[i]
		}
		if shrinks := by - lastMove; shrinks > 0 {
			share = min(share, closing*(at-last)/shrinks)
		}
		last, lastMove = at, by
	}
	return share
}
