package ringdown

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// The fit: acceleration = offset + exp(-k t)(a cos w t + b sin w t), for which
// only k and w are sought; offset, a and b of given k and w are one linear
// least-squares solve (variable projection: G. H. Golub and V. Pereyra, SIAM
// J. Numer. Anal. 10:413-432, 1973, DOI 10.1137/0710036).

const (
	// maxSteps bounds the search; from a start off by a tenth it needs ten.
	maxSteps = 100
	// settled is the share by which a step must change k and w to go on. The
	// uncertainty of the best record is a million times that.
	settled = 1e-12
	// minExplained is how much of what moves in a record must be the swing,
	// counting what five unknowns explain of anything: noise cut to the right
	// length comes to half.
	minExplained = 0.7
	// minSamples is how many samples a swing must have. Two are enough in
	// theory, but a swing faster than half the rate looks like a slower one.
	minSamples = 4
)

type fit struct {
	times, values []float64
	// linear solution of the last look
	offset, a, b float64
	rest         float64 // sum of squares left over
}

// look solves for offset, a and b, and returns what is left over.
func (f *fit) look(k, w float64) float64 {
	normal := mat.NewSymDense(3, nil)
	right := mat.NewVecDense(3, nil)
	for i, t := range f.times {
		e := math.Exp(-k * t)
		sin, cos := math.Sincos(w * t)
		row := [3]float64{1, e * cos, e * sin}
		for p := range row {
			right.SetVec(p, right.AtVec(p)+row[p]*f.values[i])
			for q := p; q < 3; q++ {
				normal.SetSym(p, q, normal.At(p, q)+row[p]*row[q])
			}
		}
	}
	var c mat.Cholesky
	var x mat.VecDense
	if !c.Factorize(normal) || c.SolveVecTo(&x, right) != nil {
		f.rest = math.Inf(1)
		return f.rest
	}
	f.offset, f.a, f.b = x.AtVec(0), x.AtVec(1), x.AtVec(2)
	f.rest = 0
	for i, t := range f.times {
		d := f.values[i] - f.model(k, w, t)
		f.rest += d * d
	}
	return f.rest
}

func (f *fit) model(k, w, t float64) float64 {
	sin, cos := math.Sincos(w * t)
	return f.offset + math.Exp(-k*t)*(f.a*cos+f.b*sin)
}

// gradient holds the derivatives of the model with respect to k, w, offset, a
// and b.
func (f *fit) gradient(k, w, t float64) [5]float64 {
	e := math.Exp(-k * t)
	sin, cos := math.Sincos(w * t)
	return [5]float64{-t * e * (f.a*cos + f.b*sin), t * e * (f.b*cos - f.a*sin), 1, e * cos, e * sin}
}

// normal returns J'J and J'r of all five unknowns.
func (f *fit) normal(k, w float64) (*mat.SymDense, *mat.VecDense) {
	n, g := mat.NewSymDense(5, nil), mat.NewVecDense(5, nil)
	for i, t := range f.times {
		row := f.gradient(k, w, t)
		d := f.values[i] - f.model(k, w, t)
		for p := range row {
			g.SetVec(p, g.AtVec(p)+row[p]*d)
			for q := p; q < 5; q++ {
				n.SetSym(p, q, n.At(p, q)+row[p]*row[q])
			}
		}
	}
	return n, g
}

// search improves k and w by damped Gauss-Newton steps (D. Marquardt, J. SIAM
// 11:431-441, 1963, DOI 10.1137/0111030), the linear unknowns solved anew
// after each.
func (f *fit) search(k, w float64) (float64, float64, error) {
	best, brake := f.look(k, w), 1e-3
	for range maxSteps {
		n, g := f.normal(k, w)
		for i := range 5 {
			n.SetSym(i, i, n.At(i, i)*(1+brake))
		}
		var c mat.Cholesky
		var x mat.VecDense
		if !c.Factorize(n) || c.SolveVecTo(&x, g) != nil {
			return 0, 0, errors.New("the record does not settle on one swing")
		}
		dk, dw := x.AtVec(0), x.AtVec(1)
		if here := f.look(k+dk, w+dw); here <= best {
			best, brake = here, brake/10
			k, w = k+dk, w+dw
		} else {
			brake *= 10
		}
		if math.Hypot(dk, dw) <= settled*w || brake > 1e12 {
			break
		}
	}
	f.look(k, w)
	return k, w, nil
}

// covariance is that of k and w: the noise left over times the inverse of J'J
// (Numerical Recipes, section 15.5).
func (f *fit) covariance(k, w float64) (kk, ww, kw float64) {
	n, _ := f.normal(k, w)
	var c mat.Cholesky
	var inverse mat.SymDense
	if !c.Factorize(n) || c.InverseTo(&inverse) != nil {
		return 0, 0, 0
	}
	noise := f.rest / float64(len(f.times)-5)
	return noise * inverse.At(0, 0), noise * inverse.At(1, 1), noise * inverse.At(0, 1)
}

// FromRecord returns the spring whose free swing a column of the record shows
// after its greatest knock. Other knocks after it, and what it dies away into,
// are left out. Standard uncertainties take what is left over as noise that
// differs from sample to sample.
//
// It fails if the column does not exist, if it shows no swing that lasts, if
// much of what moves is something else, or if the spring is out of bounds.
func FromRecord(r Record, column int) (Measured, error) {
	if column < 0 || column >= len(r.Series) {
		return Measured{}, fmt.Errorf("the record has no column %d; it has %d", column+1, len(r.Series))
	}
	win, err := window(r.Times, r.Series[column])
	if err != nil {
		return Measured{}, err
	}
	f := &fit{values: win.values}
	for _, t := range win.times {
		f.times = append(f.times, t-win.times[0])
	}
	k, w, err := f.search(win.decay, 2*math.Pi*win.frequency)
	if err != nil {
		return Measured{}, err
	}
	step := (win.last - win.times[0]) / float64(win.samples-1)
	if n := 2 * math.Pi / (w * step); n < minSamples {
		return Measured{}, fmt.Errorf("the record has %.1f samples a swing; below %d it may be a faster swing in disguise; record faster, or read peaks off", n, minSamples)
	}
	m := f.measured(k, w)
	m.From, m.To = win.times[0], win.times[len(win.times)-1]
	switch {
	case !(k > 0) || !(w > 0):
		return m, errors.New("the record shows no swing that fades")
	case m.Explained < minExplained:
		return m, fmt.Errorf("one swing explains only %.0f %% of what moves in the record; knock once, in the direction that the axis moves, and let it come to rest", 100*m.Explained)
	}
	return m, m.Spring.Check()
}

func (f *fit) measured(k, w float64) Measured {
	kk, ww, kw := f.covariance(k, w)
	natural := math.Hypot(k, w)
	var m Measured
	m.Spring.Frequency, m.Spring.Damping = natural/(2*math.Pi), k/natural
	m.FrequencySure = math.Sqrt(max(0, k*k*kk+w*w*ww+2*k*w*kw)) / (natural * 2 * math.Pi)
	m.DampingSure = math.Sqrt(max(0, w*w*kk+k*k*ww-2*k*w*kw)) * w / (natural * natural * natural)
	n := float64(len(f.times))
	m.Samples, m.Explained = len(f.times), max(0, 1-f.rest/(n-5)/(squares(f.values)/(n-1)))
	return m
}

// squares is the sum of squares about the mean.
func squares(x []float64) float64 {
	mean, sum := 0.0, 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return sum
}
