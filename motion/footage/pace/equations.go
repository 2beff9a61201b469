package pace

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// ridge keeps unknowns apart that go alike, as a share of their own size.
const ridge = 1e-7

// equations are normal equations, factored; each unknown is scaled by its own size, as they are of
// many.
type equations struct {
	size  []float64
	lower mat.Cholesky
}

// factored factors them; false where they cannot be.
func factored(normal *mat.SymDense) (*equations, bool) {
	p := normal.SymmetricDim()
	e := &equations{size: make([]float64, p)}
	for i := range e.size {
		if e.size[i] = math.Sqrt(normal.At(i, i)); !(e.size[i] > 0) {
			e.size[i] = 1
		}
	}
	scaled := mat.NewSymDense(p, nil)
	for i := range p {
		for j := range i + 1 {
			scaled.SetSym(i, j, normal.At(i, j)/e.size[i]/e.size[j])
		}
		scaled.SetSym(i, i, scaled.At(i, i)+ridge)
	}
	return e, e.lower.Factorize(scaled)
}

// solve is the solution for a right side; nothing where it is too near to none.
func (e *equations) solve(right []float64) []float64 {
	b := mat.NewVecDense(len(right), nil)
	for i, v := range right {
		b.SetVec(i, v/e.size[i])
	}
	out := make([]float64, len(right))
	if e.lower.SolveVecTo(b, b) != nil {
		return out
	}
	for i := range out {
		out[i] = b.AtVec(i) / e.size[i]
	}
	return out
}

// variances are those of the first few unknowns, where the noise is 1.
func (e *equations) variances(few int) (out []float64) {
	var inverse mat.SymDense
	bad := e.lower.InverseTo(&inverse) != nil
	for i := range few {
		if bad {
			out = append(out, math.Inf(1))
			continue
		}
		out = append(out, inverse.At(i, i)/e.size[i]/e.size[i])
	}
	return out
}
