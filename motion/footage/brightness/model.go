package brightness

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// model is a level, a slope and tones, fitted to a series by least squares.
type model struct {
	slope, slopeDoubt float64 // stops a frame
	tones             []tone  // with their amplitudes
	rest              []float64
	left              float64 // root mean square of the rest, for what was fitted
}

// ridge holds what a tone at half the rate leaves open: its sine is nothing there. It is a
// share of the sum of squares, too small to be seen in any other.
const ridge = 1e-9

// fit fits tones of given frequencies. Time runs from -1 to 1, for the sake of the numbers.
func fit(stops []float64, tones []tone) model {
	n := len(stops)
	columns := 2 + 2*len(tones)
	normal, right := mat.NewSymDense(columns, nil), mat.NewVecDense(columns, nil)
	row := make([]float64, columns)
	for k, v := range stops {
		fill(row, k, n, tones)
		for p := range row {
			right.SetVec(p, right.AtVec(p)+row[p]*v)
			for q := p; q < columns; q++ {
				normal.SetSym(p, q, normal.At(p, q)+row[p]*row[q])
			}
		}
	}
	for p := range row {
		normal.SetSym(p, p, normal.At(p, p)+ridge*float64(n))
	}
	var c mat.Cholesky
	var x mat.VecDense
	m := model{rest: make([]float64, n), left: math.Inf(1)}
	if !c.Factorize(normal) || c.SolveVecTo(&x, right) != nil {
		return m
	}
	m.read(stops, tones, &x)
	var inverse mat.SymDense
	if c.InverseTo(&inverse) == nil {
		m.slopeDoubt = m.left * math.Sqrt(inverse.At(1, 1)) * 2 / float64(n)
	}
	return m
}

// fill writes what frame k has of each unknown.
func fill(row []float64, k, n int, tones []tone) {
	row[0], row[1] = 1, 2*float64(k)/float64(n)-1
	for i, t := range tones {
		row[2+2*i+1], row[2+2*i] = math.Sincos(2 * math.Pi * t.frequency * float64(k))
	}
}

// read takes the solution over, and what it leaves.
func (m *model) read(stops []float64, tones []tone, x *mat.VecDense) {
	n := len(stops)
	m.slope = x.AtVec(1) * 2 / float64(n)
	for i, t := range tones {
		t.amplitude = math.Hypot(x.AtVec(2+2*i), x.AtVec(3+2*i))
		m.tones = append(m.tones, t)
	}
	row := make([]float64, x.Len())
	sum := 0.0
	for k, v := range stops {
		fill(row, k, n, tones)
		for p, r := range row {
			v -= r * x.AtVec(p)
		}
		m.rest[k] = v
		sum += v * v
	}
	m.left = math.Sqrt(sum / float64(max(1, n-x.Len()-len(tones))))
}
