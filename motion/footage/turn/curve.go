package turn

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// curve is a polynomial through how unlike frames are about a lag, in x from -1 to 1.
type curve struct {
	centre, reach float64
	c             [5]float64
}

// through fits a polynomial of degree 4 by least squares to values at lags a stride apart about
// a centre. Odd powers are needed, as frames differ by what turns into view, which is not the
// same forwards and back; over a whole turn they cancel.
func through(centre, stride int, values []float64) (curve, bool) {
	n := len(values)
	half := n / 2
	reach := float64(half * stride)
	a, b := mat.NewDense(n, 5, nil), mat.NewVecDense(n, values)
	for i := range n {
		x, power := float64((i-half)*stride)/reach, 1.0
		for k := range 5 {
			a.Set(i, k, power)
			power *= x
		}
	}
	var qr mat.QR
	qr.Factorize(a)
	var out mat.VecDense
	if qr.SolveVecTo(&out, false, b) != nil {
		return curve{}, false
	}
	f := curve{centre: float64(centre), reach: reach}
	for k := range f.c {
		f.c[k] = out.AtVec(k)
	}
	return f, true
}

func (f curve) value(x float64) float64 {
	return f.c[0] + x*(f.c[1]+x*(f.c[2]+x*(f.c[3]+x*f.c[4])))
}

func (f curve) slope(x float64) float64 {
	return f.c[1] + x*(2*f.c[2]+x*(3*f.c[3]+x*4*f.c[4]))
}

func (f curve) bend(x float64) float64 { return 2*f.c[2] + x*(6*f.c[3]+x*12*f.c[4]) }

// least is the lag at which the curve is least, what it is there, and how it bends a squared
// frame; false if that is at its ends.
func (f curve) least() (lag, value, bend float64, ok bool) {
	x := 0.0
	for i := -10; i <= 10; i++ {
		if f.value(float64(i)/10) < f.value(x) {
			x = float64(i) / 10
		}
	}
	for range 20 { // of Newton's; three do
		if f.bend(x) <= 0 {
			return 0, 0, 0, false
		}
		x -= f.slope(x) / f.bend(x)
		if math.Abs(x) > 1 {
			return 0, 0, 0, false
		}
	}
	return f.centre + x*f.reach, f.value(x), f.bend(x) / (f.reach * f.reach), true
}
