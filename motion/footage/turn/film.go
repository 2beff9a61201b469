package turn

import (
	"context"
	"math"

	"gonum.org/v1/gonum/dsp/fourier"

	"seamrail/motion/footage/alike"
)

// film are sketches made equally bright and of equal contrast: each less its mean, over the
// root of the sum of its squares. Flicker and exposure are gone from what is left.
type film struct {
	of    *alike.Sketches
	means []float32
	gain  []float32 // 0 of a frame without any contrast
}

func newFilm(s *alike.Sketches) film {
	f := film{s, make([]float32, s.Len()), make([]float32, s.Len())}
	for k := range f.gain {
		sum := 0.0
		for _, v := range s.At(k) {
			d := float64(v) - s.Means[k]
			sum += d * d
		}
		f.means[k] = float32(s.Means[k])
		if sum > 0 {
			f.gain[k] = float32(1 / math.Sqrt(sum))
		}
	}
	return f
}

// apart is the squared distance of two frames, 0 to 4. It is summed from differences: of
// nearly like frames a product of both would leave nothing but rounding.
func (f film) apart(i, j int) float64 {
	a, b := f.of.At(i), f.of.At(j)
	ga, gb := f.gain[i], f.gain[j]
	level := f.means[i]*ga - f.means[j]*gb
	sum := 0.0
	for len(a) >= lane && len(b) >= lane {
		sum += float64(lanes((*[lane]float32)(a), (*[lane]float32)(b), ga, gb, level))
		a, b = a[lane:], b[lane:]
	}
	for k, v := range a {
		d := b[k]*gb - v*ga + level
		sum += float64(d * d)
	}
	return sum
}

// lane is how many squares are summed in single precision before they go to double.
const lane = 16

// lanes are so many, in four sums that do not wait for each other.
func lanes(a, b *[lane]float32, ga, gb, level float32) float32 {
	var s0, s1, s2, s3 float32
	for k := 0; k < lane; k += 4 {
		d0, d1 := b[k]*gb-a[k]*ga+level, b[k+1]*gb-a[k+1]*ga+level
		d2, d3 := b[k+2]*gb-a[k+2]*ga+level, b[k+3]*gb-a[k+3]*ga+level
		s0, s1, s2, s3 = s0+d0*d0, s1+d1*d1, s2+d2*d2, s3+d3*d3
	}
	return (s0 + s1) + (s2 + s3)
}

// course is how unlike frames are over their distance: the mean squared distance of all pairs
// of one lag, by lag.
type course struct {
	unlike  []float64
	typical float64 // of all lags
}

// keptStarts is the least share of the frames that a lag must leave to begin with.
const keptStarts = 1.0 / 12

// course sums over all pairs by way of the autocorrelation of each cell, which is the inverse
// transform of its squared spectrum (Wiener and Khinchin; the sum of squared differences from
// it as in A. de Cheveigné and H. Kawahara, YIN, J. Acoust. Soc. Am. 111:1917-1930, 2002,
// DOI 10.1121/1.1458024, section II).
func (f film) course(ctx context.Context) (course, error) {
	n := f.of.Len()
	size := roomy(2 * n)
	fft := fourier.NewFFT(size)
	row, power := make([]float64, size), make([]complex128, size/2+1)
	var spectrum []complex128
	for cell := range len(f.of.At(0)) {
		if err := ctx.Err(); err != nil {
			return course{}, err
		}
		for k := range n {
			row[k] = float64((f.of.At(k)[cell] - f.means[k]) * f.gain[k])
		}
		spectrum = fft.Coefficients(spectrum, row)
		for k, v := range spectrum {
			power[k] += complex(real(v)*real(v)+imag(v)*imag(v), 0)
		}
	}
	return f.differences(fft.Sequence(nil, power)), nil
}

// roomy is the least number from n on that is a power of two, or three or five of one: such
// transforms are quick.
func roomy(n int) int {
	best := 0
	for _, size := range []int{1, 3, 5} {
		for size < n {
			size *= 2
		}
		if best == 0 || size < best {
			best = size
		}
	}
	return best
}

// differences turns products, summed and size times too great, into mean squared distances.
func (f film) differences(products []float64) course {
	n := f.of.Len()
	energy := make([]float64, n+1) // of all frames before
	for k, g := range f.gain {
		energy[k+1] = energy[k]
		if g > 0 {
			energy[k+1]++
		}
	}
	c := course{unlike: make([]float64, n-int(math.Ceil(keptStarts*float64(n))))}
	for lag := range c.unlike {
		both := energy[n-lag] + energy[n] - energy[lag]
		c.unlike[lag] = max(0, both-2*products[lag]/float64(len(products))) / float64(n-lag)
		c.typical += c.unlike[lag] / float64(len(c.unlike))
	}
	return c
}
