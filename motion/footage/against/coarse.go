package against

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/mat"
)

// place is where the plan may lie in the recording.
type place struct {
	frame float64 // of the recording: frame 0 of the plan
	rate  float64 // by what share the take goes slower than its plan
	left  float64 // what is left over, as a share of what moves
}

// The search by whole frames looks at every place at which plan and recording touch, so that
// nothing depends on a first guess. A take that runs slow or fast is looked for at rates so far
// apart that its ends are off by a few frames at the most, up to clocks that no crystal has.
const (
	rateFrames = 4.0  // by how many frames a take's end moves from one rate to the next
	mostRate   = 0.06 // the share by which a take may be slow or fast: a loop of another length
	mostRates  = 61   // of them; a long take is looked at up to a smaller share
	mostPlaces = 8    // that are looked at closely
	wellLaid   = 0.01 // what is left at the nominal rate, as a share, where no other is looked at
	mostLeft   = 4.0  // times the least that is left over: what leaves more is no place
	leastLeft  = 1e-4 // of what moves: less is not told apart by whole frames
)

// places are those at which the plan may lie, the best first, to a frame or so.
func places(t track, s series, weights []float64) []place {
	all := atRate(t, s, weights, 0)
	if slices.ContainsFunc(all, func(p place) bool { return p.left < wellLaid }) {
		return apart(sorted(all))
	}
	step := rateFrames / max(float64(s.n), 1)
	sides := min(int(mostRate/step), mostRates/2)
	for k := -sides; k <= sides; k++ {
		if k != 0 {
			all = append(all, atRate(t, s, weights, float64(k)*step)...)
		}
	}
	return apart(sorted(all))
}

// sorted has what leaves least first.
func sorted(all []place) []place {
	slices.SortStableFunc(all, func(a, b place) int { return cmp.Compare(a.left, b.left) })
	return all
}

// apart keeps the best of places beside each other.
func apart(all []place) (out []place) {
	for _, p := range all {
		if len(out) == mostPlaces || len(out) > 0 && p.left > mostLeft*out[0].left+leastLeft {
			break
		}
		near := slices.ContainsFunc(out, func(q place) bool { return math.Abs(p.frame-q.frame) <= 2*rateFrames })
		if !near {
			out = append(out, p)
		}
	}
	return out
}

// sums are, for each place, the sums that least squares need, each a correlation by the theorem
// of convolution (J. W. Cooley and J. W. Tukey, Math. Comp. 19:297-301, 1965,
// DOI 10.1090/S0025-5718-1965-0178586-1).
type sums struct {
	fft    *fourier.FFT
	size   int
	places int
}

// correlate is sum over i of a[i] b[i+q], for each q from 0.
func (s sums) correlate(a, b []complex128) []float64 {
	product := make([]complex128, len(a))
	for k := range a {
		product[k] = complex(real(a[k]), -imag(a[k])) * b[k]
	}
	out := s.fft.Sequence(nil, product)
	for k := range out {
		out[k] /= float64(s.size)
	}
	return out[:s.places]
}

func (s sums) spectrum(x []float64) []complex128 {
	padded := make([]float64, s.size)
	copy(padded, x)
	return s.fft.Coefficients(nil, padded)
}

// atRate are the places, at a rate, that leave less than those beside them.
func atRate(t track, s series, weights []float64, rate float64) (out []place) {
	low, high := -int(math.Ceil(t.last*(1+rate))), s.n+int(math.Ceil(-t.first*(1+rate)))
	f := sums{places: high - low + 1}
	f.size = 1
	for f.size < s.n+f.places {
		f.size *= 2
	}
	f.fft = fourier.NewFFT(f.size)
	left := f.left(t, s, weights, high, rate)
	for q := 1; q+1 < len(left); q++ {
		if left[q] <= left[q-1] && left[q] <= left[q+1] {
			out = append(out, place{frame: float64(high - q), rate: rate, left: left[q]})
		}
	}
	return out
}

// left is what is left over at each place, as a share of all that moves: place q lays frame 0 of
// the plan on frame high - q.
func (f sums) left(t track, s series, weights []float64, high int, rate float64) []float64 {
	ones := f.spectrum(weights)
	var pos [][]complex128  // of each axis
	var sp, spp [][]float64 // sums of positions, and of their products
	axis := make([][]float64, t.terms())
	for a := range t.terms() {
		axis[a] = make([]float64, s.n+f.places)
		middle := t.at(a, t.first) // near 0 least is lost in sums
		for i := range axis[a] {
			axis[a][i] = (t.at(a, float64(i-high)/(1+rate)) - middle) / max(t.travel[a], math.SmallestNonzeroFloat64)
		}
		pos = append(pos, f.spectrum(axis[a]))
		sp = append(sp, f.correlate(ones, pos[a]))
	}
	for a := range t.terms() {
		for b := range a + 1 {
			both := make([]float64, len(axis[a]))
			for i := range both {
				both[i] = axis[a][i] * axis[b][i]
			}
			spp = append(spp, f.correlate(ones, f.spectrum(both)))
		}
	}
	var syp [][]float64 // by way and axis
	var sy [ways]moment
	for k := range s.y {
		sy[k] = momentOf(s.y[k], weights)
		centred := make([]float64, s.n)
		for i, v := range s.y[k] {
			centred[i] = weights[i] * (v - sy[k].mean)
		}
		spectrum := f.spectrum(centred)
		for a := range t.terms() {
			syp = append(syp, f.correlate(spectrum, pos[a]))
		}
	}
	return leftOver(sy, sp, spp, syp)
}

// moment is the weight of a row, its mean, and the sum of squares about it.
type moment struct{ weight, mean, squares float64 }

func momentOf(y, weights []float64) (m moment) {
	for i, v := range y {
		m.weight, m.mean = m.weight+weights[i], m.mean+weights[i]*v
	}
	m.mean /= max(m.weight, 1)
	for i, v := range y {
		m.squares += weights[i] * (v - m.mean) * (v - m.mean)
	}
	return m
}

// ridge keeps places solvable at which axes stand or go the same way, as a share.
const ridge = 1e-9

// leftOver solves every place.
func leftOver(sy [ways]moment, sp, spp, syp [][]float64) []float64 {
	axes, all := len(sp), 0.0
	for _, m := range sy {
		all += m.squares
	}
	out := make([]float64, len(sp[0]))
	normal, right, beta := mat.NewSymDense(axes, nil), mat.NewVecDense(axes, nil), mat.NewVecDense(axes, nil)
	var chol mat.Cholesky
	for q := range out {
		n := 0
		for a := range axes {
			for b := range a + 1 {
				v := spp[n][q] - sp[a][q]*sp[b][q]/max(sy[0].weight, 1)
				if n++; a == b {
					v += ridge * max(sy[0].weight, 1)
				}
				normal.SetSym(a, b, v)
			}
		}
		out[q] = 1
		if all == 0 || !chol.Factorize(normal) {
			continue
		}
		rest := all
		for k := range ways {
			for a := range axes {
				right.SetVec(a, syp[k*axes+a][q])
			}
			_ = chol.SolveVecTo(beta, right) // a ridge keeps its condition in bounds
			rest -= mat.Dot(beta, right)
		}
		out[q] = max(0, rest) / all
	}
	return out
}
