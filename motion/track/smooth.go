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
// with four continuous derivatives (C. de Boor, A Practical Guide to Splines,
// rev. ed., Springer 2001, on best interpolation by splines of odd degree,
// ISBN 0-387-95366-3).
func (r *keySpline) smooth() error { return r.smoothed(func(int) bool { return false }) }

// smoothed is smooth with the positions of some knots to choose as well.
func (r *keySpline) smoothed(free func(knot int) bool) error {
	at, n := r.unknowns(free)
	if n == 0 {
		return nil
	}
	h := mat.NewSymDense(n, nil)
	b := mat.NewVecDense(n, nil)
	for i := range r.gaps {
		r.assemble(i, at, h, b)
	}
	r.pull(at, h)
	return r.solve(at, h, b)
}

// unknown numbers the free velocity, acceleration and shift of a knot; -1 is
// fixed.
type unknown struct{ vel, acc, off int }

func (r *keySpline) unknowns(free func(knot int) bool) (at []unknown, n int) {
	at = make([]unknown, len(r.knots))
	for i, k := range r.knots {
		at[i] = unknown{-1, -1, -1}
		for _, u := range []struct {
			to   *int
			free bool
		}{{&at[i].vel, !k.fixVel}, {&at[i].acc, !k.fixAcc}, {&at[i].off, free(i)}} {
			if u.free {
				*u.to = n
				n++
			}
		}
	}
	return at, n
}

// term is one unknown of a gap: which row of jerkForm it counts in, and how
// often.
type term struct {
	unknown, row int
	times        float64
}

// terms lists what is to be chosen about gap i, and the known part of each row.
func (r *keySpline) terms(i int, at []unknown) (list []term, known [5]float64) {
	g, j := r.gaps[i], r.next(i)
	a, b, s := &r.knots[i], &r.knots[j], g.length
	known[0] = g.rise
	if at[i].off >= 0 {
		known[0] += a.off
	}
	if at[j].off >= 0 {
		known[0] -= b.off
	}
	add := func(unknown, row int, times, value float64) {
		if unknown >= 0 {
			list = append(list, term{unknown, row, times})
		} else if row > 0 {
			known[row] = value * times
		}
	}
	add(at[i].off, 0, -1, 0)
	add(at[j].off, 0, 1, 0)
	add(at[i].vel, 1, s, a.vel)
	add(at[i].acc, 2, s*s, a.acc)
	add(at[j].vel, 3, s, b.vel)
	add(at[j].acc, 4, s*s, b.acc)
	return list, known
}

// assemble adds the jerk of gap i to the system h x = b.
func (r *keySpline) assemble(i int, at []unknown, h *mat.SymDense, b *mat.VecDense) {
	list, known := r.terms(i, at)
	weight := 1 / math.Pow(r.gaps[i].length, 5)
	for _, p := range list {
		f := weight * p.times
		for q, value := range known {
			b.SetVec(p.unknown, b.AtVec(p.unknown)-f*jerkForm[p.row][q]*value)
		}
		for _, q := range list {
			if p.unknown <= q.unknown {
				h.SetSym(p.unknown, q.unknown, h.At(p.unknown, q.unknown)+f*jerkForm[p.row][q.row]*q.times)
			}
		}
	}
}

// solve scales the system to a unit diagonal, which takes out the powers of
// the gaps' lengths, and writes the solution into the knots.
func (r *keySpline) solve(at []unknown, h *mat.SymDense, b *mat.VecDense) error {
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
		if k.vel >= 0 {
			r.knots[i].vel = x.AtVec(k.vel) * d[k.vel]
		}
		if k.acc >= 0 {
			r.knots[i].acc = x.AtVec(k.acc) * d[k.acc]
		}
		if k.off >= 0 {
			r.move(i, x.AtVec(k.off)*d[k.off])
		}
	}
	return nil
}

// worstCondition is the condition number beyond which fewer than four digits
// of the solution would be left.
const worstCondition = 1e12
