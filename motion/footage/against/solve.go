package against

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// column is a run of numbers in a long row of which all others are 0: of a way of the picture,
// or of all of them one after the other.
type column struct {
	at int
	v  []float64
}

// dot is the product of two columns, where both have something.
func (c column) dot(d column) float64 {
	from, to := max(c.at, d.at), min(c.at+len(c.v), d.at+len(d.v))
	if from >= to {
		return 0
	}
	return floats.Dot(c.v[from-c.at:to-c.at], d.v[from-d.at:to-d.at])
}

// less takes a share of another column, which lies within this one, away from it.
func (c column) less(d column, share float64) {
	floats.AddScaled(c.v[d.at-c.at:d.at-c.at+len(d.v)], -share, d.v)
}

// alike is what is left of the square of a column, of length 1, once those before it are taken
// out, below which it counts as one of them: two axes that go so much the same way are one.
const alike = 1e-8

// solved is what least squares make of columns.
type solved struct {
	beta []float64 // of each column; 0 of those that are left out
	cov  *mat.SymDense
	kept []int // the columns that tell something of their own
	size []float64
	chol mat.Cholesky
	cols []column
}

// solve finds how much of each column makes y, all of them weighed already.
func solve(cols []column, y column) solved {
	s := solved{beta: make([]float64, len(cols)), size: make([]float64, len(cols)), cols: cols}
	for i, c := range cols {
		s.size[i] = math.Sqrt(c.dot(c))
	}
	s.keep()
	if len(s.kept) == 0 {
		return s
	}
	b := s.within(y)
	for i, k := range s.kept {
		s.beta[k] = b.AtVec(i)
	}
	return s
}

// within is how much of each kept column makes y.
func (s *solved) within(y column) *mat.VecDense {
	right := mat.NewVecDense(len(s.kept), nil)
	for i, k := range s.kept {
		right.SetVec(i, s.cols[k].dot(y)/s.size[k])
	}
	b := mat.NewVecDense(len(s.kept), nil)
	// Columns alike are left out, so that what is left has a condition it can be solved at.
	_ = s.chol.SolveVecTo(b, right)
	for i, k := range s.kept {
		b.SetVec(i, b.AtVec(i)/s.size[k])
	}
	return b
}

// keep leaves out what is as good as a mixture of others: a row of Cholesky's factor at a time.
func (s *solved) keep() {
	var rows [][]float64
	for i, c := range s.cols {
		if s.size[i] == 0 {
			continue
		}
		row := make([]float64, 0, len(s.kept)+1)
		rest := 1.0
		for j, k := range s.kept {
			v := c.dot(s.cols[k]) / (s.size[i] * s.size[k])
			v = (v - floats.Dot(row, rows[j][:j])) / rows[j][j]
			row, rest = append(row, v), rest-v*v
		}
		if rest < alike {
			continue
		}
		rows, s.kept = append(rows, append(row, math.Sqrt(rest))), append(s.kept, i)
	}
	factor := mat.NewTriDense(max(1, len(rows)), mat.Upper, nil)
	for i, row := range rows {
		for j, v := range row {
			factor.SetTri(j, i, v)
		}
	}
	if len(rows) > 0 {
		s.chol.SetFromU(factor)
	}
}

// sure is the standard uncertainty of a column's share where the noise is 1; +Inf where it tells
// nothing of its own.
func (s *solved) sure(k int) float64 {
	for i, kept := range s.kept {
		if kept == k {
			return math.Sqrt(max(0, s.inverse().At(i, i))) / s.size[k]
		}
	}
	return math.Inf(1)
}

func (s *solved) inverse() *mat.SymDense {
	if s.cov == nil {
		s.cov = mat.NewSymDense(len(s.kept), nil)
		_ = s.chol.InverseTo(s.cov)
	}
	return s.cov
}

// residual takes out of y, which is as long as the row, all that the columns make of it.
func (s *solved) residual(y column) column {
	out := column{y.at, append([]float64(nil), y.v...)}
	if len(s.kept) == 0 {
		return out
	}
	b := s.within(y)
	for i, k := range s.kept {
		out.less(s.cols[k], b.AtVec(i))
	}
	return out
}
