package optimal

import "math"

// mixture is a sum of shares of functions.
type mixture struct {
	parts  []function
	shares []float64
}

func (m mixture) sum(of func(function) float64) float64 {
	out := 0.0
	for i, f := range m.parts {
		out += m.shares[i] * of(f)
	}
	return out
}

func (m mixture) at(x float64) float64 {
	return m.sum(func(f function) float64 { return f.at(x) })
}

func (m mixture) slope(x float64) float64 {
	return m.sum(func(f function) float64 { return f.slope(x) })
}

func (m mixture) area(x float64) float64 {
	return m.sum(func(f function) float64 { return f.area(x) })
}

// apartPoints is how many places of half a move functions are told apart at.
const apartPoints = 512

// apart mixes functions into ones that are orthogonal and of size 1, so that
// few swings, whose functions look alike, do not stall the search (Gram and
// Schmidt, each step done twice: L. Giraud and others, Numer. Math.
// 101:87-100, 2005, DOI 10.1007/s00211-005-0615-4).
func apart(funcs []function) []function {
	values := make([][]float64, len(funcs))
	out := make([]function, len(funcs))
	for i, f := range funcs {
		m := mixture{funcs, make([]float64, len(funcs))}
		m.shares[i] = 1
		v := sampled(f)
		for range 2 {
			for j := range i {
				take(v, values[j], m.shares, out[j].(mixture).shares)
			}
		}
		size := math.Sqrt(dot(v, v))
		for k := range v {
			v[k] /= size
		}
		for k := range m.shares {
			m.shares[k] /= size
		}
		values[i], out[i] = v, m
	}
	return out
}

// take takes from v what it has of a unit vector w, and the same of the shares.
func take(v, w, shares, others []float64) {
	d := dot(v, w)
	for k := range v {
		v[k] -= d * w[k]
	}
	for k := range shares {
		shares[k] -= d * others[k]
	}
}

func sampled(f function) []float64 {
	out := make([]float64, apartPoints)
	for i := range out {
		out[i] = f.at(half * (float64(i) + 0.5) / apartPoints)
	}
	return out
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i] / apartPoints
	}
	return sum
}
