package track

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// jerkGram is the integral over u in [0, 1] of the squared third derivative
// 6 c3 + 24 c4 u + 60 c5 u^2 of a quintic, as a quadratic form in c3, c4, c5.
var jerkGram = [3][3]float64{{36, 72, 120}, {72, 192, 360}, {120, 360, 720}}

// jerkRows are c3, c4, c5 of a quintic as sums of its rise and of the velocity
// and acceleration at its start and end, with respect to u; see hermite.
var jerkRows = [3][5]float64{
	{10, -6, -1.5, -4, 0.5},
	{-15, 8, 1.5, 7, -1},
	{6, -3, -0.5, -3, 0.5},
}

// jerkForm is the integral of squared jerk as a quadratic form in the rise and
// the four end conditions.
var jerkForm = func() (q [5][5]float64) {
	for i := range q {
		for j := range q {
			for k := range jerkGram {
				for l := range jerkGram {
					q[i][j] += jerkRows[k][i] * jerkGram[k][l] * jerkRows[l][j]
				}
			}
		}
	}
	return q
}()

// errSingular cannot come from keys in order: only a parabola has no jerk, and
// none closes on itself.
var errSingular = errors.New("the keys leave the curve undetermined; move two that are very close apart")

// smooth chooses the free velocities and accelerations that make the integral
// of squared jerk over the loop least. Between knots the least is reached by
// quintics (its Euler equation is x””” = 0); at knots the sum of their
// integrals is a positive definite quadratic form, whose least is one linear
// solve. Where nothing is stated the result is the periodic quintic spline,
// with four continuous derivatives (de Boor, A Practical Guide to Splines,
// on best interpolation by splines of odd degree; from memory).
func (r *ring) smooth() error {
	at, n := r.unknowns()
	if n == 0 {
		return nil
	}
	h := mat.NewSymDense(n, nil)
	b := mat.NewVecDense(n, nil)
	for i := range r.gaps {
		r.assemble(i, at, h, b)
	}
	return r.solve(at, h, b)
}

// unknowns numbers the free velocity and acceleration of each knot; -1 is
// fixed.
func (r *ring) unknowns() (at [][2]int, n int) {
	at = make([][2]int, len(r.knots))
	for i, k := range r.knots {
		at[i] = [2]int{-1, -1}
		if !k.fixVel {
			at[i][0] = n
			n++
		}
		if !k.fixAcc {
			at[i][1] = n
			n++
		}
	}
	return at, n
}

// assemble adds the jerk of gap i to the system h x = b.
func (r *ring) assemble(i int, at [][2]int, h *mat.SymDense, b *mat.VecDense) {
	g, j := r.gaps[i], r.next(i)
	s := g.length
	scale := [5]float64{1, s, s * s, s, s * s}
	known := [5]float64{g.rise, r.knots[i].vel, r.knots[i].acc, r.knots[j].vel, r.knots[j].acc}
	index := [5]int{-1, at[i][0], at[i][1], at[j][0], at[j][1]}
	weight := 1 / math.Pow(s, 5)
	for p, row := range index {
		if row < 0 {
			continue
		}
		for q, col := range index {
			f := weight * jerkForm[p][q] * scale[p] * scale[q]
			switch {
			case col < 0:
				b.SetVec(row, b.AtVec(row)-f*known[q])
			case row < col:
				h.SetSym(row, col, h.At(row, col)+f)
			case row == col:
				h.SetSym(row, row, h.At(row, row)+f)
			}
		}
	}
}

// solve scales the system to a unit diagonal, which takes out the powers of
// the gaps' lengths, and writes the solution into the knots.
func (r *ring) solve(at [][2]int, h *mat.SymDense, b *mat.VecDense) error {
	n := b.Len()
	d := make([]float64, n)
	for i := range d {
		d[i] = 1 / math.Sqrt(h.At(i, i))
	}
	for i := range d {
		b.SetVec(i, b.AtVec(i)*d[i])
		for j := i; j < n; j++ {
			h.SetSym(i, j, h.At(i, j)*d[i]*d[j])
		}
	}
	var c mat.Cholesky
	if !c.Factorize(h) || c.Cond() > worstCondition {
		return errSingular
	}
	var x mat.VecDense
	if err := c.SolveVecTo(&x, b); err != nil {
		return errSingular
	}
	for i, k := range at {
		if k[0] >= 0 {
			r.knots[i].vel = x.AtVec(k[0]) * d[k[0]]
		}
		if k[1] >= 0 {
			r.knots[i].acc = x.AtVec(k[1]) * d[k[1]]
		}
	}
	return nil
}

// worstCondition is the condition number beyond which fewer than four digits
// of the solution would be left.
const worstCondition = 1e12
