package optimal

import (
	"errors"
	"math"

	"seamrail/motion/base/list"
	"seamrail/motion/base/root"

	"gonum.org/v1/gonum/mat"
)

// combination is the leading power and shares of the basis: p of the package's
// words.
type combination struct {
	lead   power
	basis  []function
	shares []float64
}

func (c combination) sum(of func(function) float64) float64 {
	out := of(c.lead)
	for i, f := range c.basis {
		out += c.shares[i] * of(f)
	}
	return out
}

func (c combination) at(x float64) float64 {
	return c.sum(func(f function) float64 { return f.at(x) })
}

func (c combination) slope(x float64) float64 {
	return c.sum(func(f function) float64 { return f.slope(x) })
}

const (
	// looks is how many places of half a move are looked at for a change of sign,
	// and looksMore how many of each swing in it besides.
	looks, looksMore = 64, 32
	// beside is how near to the middle, as a share of half a move, p is looked at
	// first: in the middle itself an odd one is nothing.
	beside = 1e-6
	// newtons bounds the steps; each doubles the digits once it is near.
	newtons = 60
	// settled is the share of a function's own integral that is rounding.
	settled = 1e-14
)

// roots returns where p changes its sign inside (0, half), rising.
func (c combination) roots(swings float64) []float64 {
	n := looks + looksMore*int(math.Ceil(swings))
	var out []float64
	from := c.look(half * beside)
	for i := 1; i <= n; i++ {
		to := c.look(half * float64(i) / float64(n))
		out = append(out, c.between(from, to)...)
		from = to
	}
	return out
}

// glance is p and its slope at a place.
type glance struct{ x, p, slope float64 }

func (c combination) look(x float64) glance { return glance{x, c.at(x), c.slope(x)} }

// between returns the changes of sign in a short stretch: one, or two where p
// turns towards nothing in it and goes past, or none.
func (c combination) between(from, to glance) []float64 {
	below := from.p < 0
	if below != (to.p < 0) {
		return []float64{bisect(c.at, from.x, to.x)}
	}
	if (from.slope < 0) == below || (to.slope < 0) != below {
		return nil
	}
	turn := bisect(c.slope, from.x, to.x)
	if (c.at(turn) < 0) == below {
		return nil
	}
	return []float64{bisect(c.at, from.x, turn), bisect(c.at, turn, to.x)}
}

// bisect halves its way to a change of sign, to the last bit.
func bisect(f func(float64) float64, from, to float64) float64 {
	below := f(from) < 0
	from, to = root.Bisect(from, to, maxHalvings, 0,
		func(x float64) bool { return (f(x) < 0) == below })
	return from + (to-from)/2
}

// firstSign is the sign of p beside the middle: that at the end, turned at each
// root.
func (c combination) firstSign(roots []float64) float64 {
	sign := 1.0
	if c.at(half) < 0 {
		sign = -1
	}
	if len(roots)%2 == 1 {
		sign = -sign
	}
	return sign
}

// signed integrates f times the sign of p over half a move.
func (c combination) signed(f function, roots []float64) float64 {
	sum, from, sign := 0.0, 0.0, c.firstSign(roots)
	for _, r := range roots {
		sum += sign * (f.area(r) - f.area(from))
		from, sign = r, -sign
	}
	return sum + sign*(f.area(half)-f.area(from))
}

// size is the integral of |p| over half a move.
func (c combination) size(roots []float64) float64 {
	return c.sum(func(f function) float64 { return c.signed(f, roots) })
}

// ErrNoLaw says that the search did not end. In some thousands of trials that was
// so within half a hundredth of every fourth swing, where a plain law leaves hardly
// any and a damped or robust one has roots that nearly meet; of a swing damped by a
// thousandth within as much of every second one, now and then, where its sine and
// cosine are nearly alike over the move; and below one swing.
var ErrNoLaw = errors.New("no law was found that leaves such a swing at rest; a move a hundredth longer would do")

// nearest finds the combination of least size, by Newton's method on its convex
// size: the gradient is the signed integral of each function, the curvature sits
// at the roots.
func nearest(lead power, funcs []function, swings float64) (combination, []float64, error) {
	c := combination{lead, funcs, make([]float64, len(funcs))}
	if err := c.begin(); err != nil {
		return c, nil, err
	}
	roots, held := c.roots(swings), minHeld
	for range newtons {
		if len(funcs) == 0 || c.flat(roots) {
			return c, roots, nil
		}
		if p, x, ok := c.polish(roots, swings); ok {
			return p, x, nil
		}
		next, nextRoots, ok := c.step(roots, swings, &held)
		if !ok {
			break
		}
		c, roots = next, nextRoots
	}
	if c.nearlyFlat(roots) {
		return c, roots, nil
	}
	return c, nil, ErrNoLaw
}

// begin takes the shares of least squares.
func (c *combination) begin() error {
	k := len(c.basis)
	if k == 0 {
		return nil
	}
	const points = 2048
	a, b := mat.NewDense(points, k, nil), mat.NewVecDense(points, nil)
	for i := range points {
		x := half * (float64(i) + 0.5) / points
		for j, f := range c.basis {
			a.Set(i, j, f.at(x))
		}
		b.SetVec(i, -c.lead.at(x))
	}
	var s mat.VecDense
	if err := s.SolveVec(a, b); err != nil {
		return ErrNoLaw
	}
	copy(c.shares, s.RawVector().Data)
	return nil
}

func (c combination) gradient(roots []float64) []float64 {
	return list.Map(c.basis, func(f function) float64 { return c.signed(f, roots) })
}

func (c combination) flat(roots []float64) bool { return c.slant(roots) <= settled }

// nearlyFlat is what must hold where rounding stops the steps: a residual of a
// millionth of a millionth of the travel is far below what can be seen.
func (c combination) nearlyFlat(roots []float64) bool { return c.slant(roots) <= 100*settled }

func (c combination) slant(roots []float64) float64 {
	most := 0.0
	for _, g := range c.gradient(roots) {
		most = max(most, math.Abs(g))
	}
	return most
}

// Damping of a step: where p is about to gain roots its size is bent too little,
// or too suddenly, for Newton's step, and it is shortened towards the steepest way
// down (the damping of K. Levenberg, Quart. Appl. Math. 2:164-168, 1944,
// DOI 10.1090/qam/10666, and of D. Marquardt 1963).
const (
	minHeld  = 1e-16
	maxHeld  = 1e6
	holdMore = 10.0
	holdLess = 30.0
)

// step goes towards the least size, or where rounding hides that, towards the
// flattest; held is the damping, which it changes.
func (c combination) step(roots []float64, swings float64, held *float64) (combination, []float64, bool) {
	size, slant := c.size(roots), c.slant(roots)
	for ; *held < maxHeld; *held *= holdMore {
		move, ok := c.newton(roots, *held)
		if !ok {
			continue
		}
		next := combination{c.lead, c.basis, make([]float64, len(c.shares))}
		for i := range c.shares {
			next.shares[i] = c.shares[i] - move.AtVec(i)
		}
		r := next.roots(swings)
		if next.size(r) < size*(1-1e-13) || next.slant(r) < slant*0.9 {
			*held = max(minHeld, *held/holdLess)
			return next, r, true
		}
	}
	return c, roots, false
}

func (c combination) newton(roots []float64, held float64) (*mat.VecDense, bool) {
	k := len(c.basis)
	h := mat.NewSymDense(k, nil)
	for i := range k {
		h.SetSym(i, i, held)
	}
	for _, r := range roots {
		weight := 2 / math.Abs(c.slope(r))
		for i, f := range c.basis {
			for j := i; j < k; j++ {
				h.SetSym(i, j, h.At(i, j)+weight*f.at(r)*c.basis[j].at(r))
			}
		}
	}
	var ch mat.Cholesky
	var out mat.VecDense
	if !ch.Factorize(h) || ch.SolveVecTo(&out, mat.NewVecDense(k, c.gradient(roots))) != nil {
		return nil, false
	}
	return &out, true
}
