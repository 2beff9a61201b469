package rampfit

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"seamrail/motion/law"
)

// The fit: position = from + way s((t - start) / time), for which start, time and the
// shares of the law are sought; both ends of given ones are one linear least-squares solve
// (variable projection: G. H. Golub and V. Pereyra, SIAM J. Numer. Anal. 10:413-432, 1973,
// DOI 10.1137/0710036). The search is by damped Gauss-Newton steps (D. Marquardt, J. SIAM
// 11:431-441, 1963, DOI 10.1137/0111030).
const (
	maxSteps = 60
	// settled is the share by which a step must change what is left over to go on.
	settled = 1e-10
	// nudge is the share of the time of the way by which an unknown is moved to see what
	// it does.
	nudge = 1e-6
)

// fit is one law laid through readings.
type fit struct {
	shape    shape
	readings []Reading
	p        []float64 // start, time of the way, shares

	from, span float64 // units, of the last look
	rest       float64 // sum of squares left over
}

// curve is the law of some unknowns, nil where they are out of bounds.
func (f *fit) curve(p []float64) law.Law {
	if !(p[1] > 0) {
		return nil
	}
	return f.shape.law(p[2:])
}

// look solves for both ends, and tells whether that could be done.
func (f *fit) look(p []float64) bool {
	l := f.curve(p)
	if l == nil {
		return false
	}
	var n, s, ss, y, sy float64
	for _, r := range f.readings {
		v := at(l, p[0], p[1], r.Seconds)
		n, s, ss, y, sy = n+1, s+v, ss+v*v, y+r.Position, sy+v*r.Position
	}
	det := n*ss - s*s
	if !(det > 0) {
		return false
	}
	f.span = (n*sy - s*y) / det
	f.from = (y - f.span*s) / n
	f.p, f.rest = p, 0
	for _, r := range f.readings {
		d := r.Position - f.from - f.span*at(l, p[0], p[1], r.Seconds)
		f.rest += d * d
	}
	return true
}

// rows are the derivatives of the model with respect to the unknowns that are sought,
// then both ends, at each reading; false where an unknown is at its bound.
func (f *fit) rows() (*mat.Dense, bool) {
	k := len(f.p)
	out := mat.NewDense(len(f.readings), k+2, nil)
	base := f.curve(f.p)
	for j := range k {
		step := nudge
		if j < 2 {
			step *= f.p[1]
		}
		moved := append([]float64(nil), f.p...)
		moved[j] += step
		l := f.curve(moved)
		if l == nil { // at its upper bound
			step = -step
			moved[j] += 2 * step
			if l = f.curve(moved); l == nil {
				return nil, false
			}
		}
		for i, r := range f.readings {
			was, is := at(base, f.p[0], f.p[1], r.Seconds), at(l, moved[0], moved[1], r.Seconds)
			out.Set(i, j, f.span*(is-was)/step)
		}
	}
	for i, r := range f.readings {
		out.Set(i, k, 1)
		out.Set(i, k+1, at(base, f.p[0], f.p[1], r.Seconds))
	}
	return out, true
}

// normal returns J'J and J'r.
func (f *fit) normal() (*mat.SymDense, *mat.VecDense, bool) {
	rows, ok := f.rows()
	if !ok {
		return nil, nil, false
	}
	_, n := rows.Dims()
	left := mat.NewVecDense(len(f.readings), nil)
	l := f.curve(f.p)
	for i, r := range f.readings {
		left.SetVec(i, r.Position-f.from-f.span*at(l, f.p[0], f.p[1], r.Seconds))
	}
	var jj mat.SymDense
	jj.SymOuterK(1, rows.T())
	g := mat.NewVecDense(n, nil)
	g.MulVec(rows.T(), left)
	return &jj, g, true
}

// search improves the unknowns from a beginning, and tells whether it could begin.
func (f *fit) search(begin []float64) bool {
	if !f.look(begin) {
		return false
	}
	brake := 1e-3
	for range maxSteps {
		best := *f
		step, ok := f.step(brake)
		if !ok {
			return true
		}
		p := append([]float64(nil), f.p...)
		for j := range p {
			p[j] += step[j]
		}
		within(p[2:])
		if f.look(p) && f.rest <= best.rest {
			if brake /= 10; best.rest-f.rest <= settled*best.rest {
				return true
			}
			continue
		}
		*f = best
		if brake *= 10; brake > 1e10 {
			return true
		}
	}
	return true
}

// step is a damped Gauss-Newton step of the unknowns that are sought.
func (f *fit) step(brake float64) ([]float64, bool) {
	n, g, ok := f.normal()
	if !ok {
		return nil, false
	}
	size := n.SymmetricDim()
	for i := range size {
		n.SetSym(i, i, n.At(i, i)*(1+brake)+math.SmallestNonzeroFloat64)
	}
	var c mat.Cholesky
	var x mat.VecDense
	if !c.Factorize(n) || c.SolveVecTo(&x, g) != nil {
		return nil, false
	}
	return x.RawVector().Data[:len(f.p)], true
}

// covariance is that of the unknowns that are sought: the noise times the inverse of J'J
// (W. H. Press et al., Numerical Recipes, section 15.5). Nil where it has none.
func (f *fit) covariance(variance float64) *mat.SymDense {
	n, _, ok := f.normal()
	if !ok {
		return nil
	}
	var c mat.Cholesky
	var inverse mat.SymDense
	if !c.Factorize(n) || c.InverseTo(&inverse) != nil {
		return nil
	}
	inverse.ScaleSym(variance, &inverse)
	return &inverse
}
