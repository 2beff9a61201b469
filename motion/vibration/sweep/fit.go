package sweep

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// fitting looks for the modes of least squares.
type fitting struct{ points []Point }

const (
	maxTurns = 200
	settled  = 1e-9 // by which a step must make what is left over less
	nudge    = 1e-6 // by which a number is changed for a derivative
)

// level is the response where least happens: that of the lowest frequencies, where the load
// goes with its foot.
func (f fitting) level() float64 { return max(f.points[0].Response, math.SmallestNonzeroFloat64) }

// off is how far each point is from what modes would have, in what it may be. Where the
// load hardly moves, what is wrong with the push of its foot is still as great.
func (f fitting) off(p []float64) *mat.VecDense {
	out := mat.NewVecDense(len(f.points), nil)
	for i, x := range f.points {
		out.SetVec(i, (size(p, x.Frequency)-x.Response)/math.Hypot(x.Sigma, modelled*max(x.Response, f.level())))
	}
	return out
}

// rest is what is left over, squared.
func (f fitting) rest(p []float64) float64 {
	r := mat.Norm(f.off(p), 2)
	return r * r
}

// best fits from a start, and again with the shares of modes turned about: of sizes alone
// it is not known whether two go with each other or against.
func (f fitting) best(start []float64) (p []float64, rest float64) {
	rest = math.Inf(1)
	modes := (len(start) - 1) / 3
	for signs := range 1 << modes {
		from := slices.Clone(start)
		for k := range modes {
			if signs>>k&1 == 1 {
				from[3+3*k] = -from[3+3*k]
			}
		}
		if q, r := f.search(from); r < rest {
			p, rest = q, r
		}
	}
	return p, rest
}

// search improves by damped Gauss-Newton steps (D. Marquardt, J. SIAM 11:431-441, 1963,
// DOI 10.1137/0111030).
func (f fitting) search(p []float64) ([]float64, float64) {
	rest, brake := f.rest(p), 1e-3
	for range maxTurns {
		n, g := f.normal(p)
		for i := range p {
			n.SetSym(i, i, n.At(i, i)*(1+brake))
		}
		var c mat.Cholesky
		var x mat.VecDense
		if !c.Factorize(n) || c.SolveVecTo(&x, g) != nil {
			return p, rest
		}
		q := slices.Clone(p)
		for i := range q {
			q[i] -= x.AtVec(i)
		}
		now := f.rest(q)
		if !(now < rest) {
			if brake *= 10; brake > 1e12 {
				break
			}
			continue
		}
		done := rest-now < settled*rest
		p, rest, brake = q, now, brake/10
		if done {
			break
		}
	}
	return p, rest
}

// normal is J'J and J'r, J by differences.
func (f fitting) normal(p []float64) (*mat.SymDense, *mat.VecDense) {
	j := mat.NewDense(len(f.points), len(p), nil)
	for k := range p {
		a, b := slices.Clone(p), slices.Clone(p)
		a[k], b[k] = a[k]-nudge, b[k]+nudge
		d := mat.NewVecDense(len(f.points), nil)
		d.SubVec(f.off(b), f.off(a))
		d.ScaleVec(1/(2*nudge), d)
		j.SetCol(k, d.RawVector().Data)
	}
	n, g := mat.NewSymDense(len(p), nil), mat.NewVecDense(len(p), nil)
	n.SymOuterK(1, j.T())
	g.MulVec(j.T(), f.off(p))
	return n, g
}

// sure are the standard uncertainties of what was fitted: the inverse of J'J, times what is
// left over to each degree of freedom (Numerical Recipes, section 15.5).
func (f fitting) sure(p []float64, scatter float64) []float64 {
	out := make([]float64, len(p))
	n, _ := f.normal(p)
	var c mat.Cholesky
	var inverse mat.SymDense
	if !c.Factorize(n) || c.InverseTo(&inverse) != nil {
		for i := range out {
			out[i] = math.Inf(1)
		}
		return out
	}
	for i := range out {
		out[i] = math.Sqrt(inverse.At(i, i) * scatter)
	}
	return out
}
