package ringdown

import (
	"errors"
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/stat"
)

const (
	// deadTime is how many swings after the knock the fit begins: a knock lasts
	// some of the first, and faster swings die in it.
	deadTime = 0.5
	// faded is the share of its first height at which the swing counts as over,
	// and noisy how many times the noise.
	faded = 0.01
	noisy = 3
	// again is by how much the swing must grow from one turn to the next to be
	// another knock.
	again = 1.6
	// minSwings is how many swings say how fast they fade.
	minSwings = 2
	// maxFitted bounds what is fitted: more samples are thinned.
	maxFitted = 20_000
)

// cutout is the part of a record that is one free swing, with a first guess.
type cutout struct {
	times, values    []float64
	frequency, decay float64 // Hz, damped; and 1/s
	samples          int     // in it, before any were thinned out
	last             float64 // s, of the last of them
}

// window finds the free swing after the greatest knock.
func window(times, values []float64) (cutout, error) {
	rest := median(values)
	size := func(i int) float64 { return math.Abs(values[i] - rest) }
	knock := 0
	for i := range values {
		if size(i) > size(knock) {
			knock = i
		}
	}
	if size(knock) == 0 || len(values)-knock < minRows {
		return cutout{}, errors.New("the record shows no knock with a swing after it")
	}
	f := strongest(times[knock:], values[knock:])
	if f <= 0 {
		return cutout{}, errors.New("the record shows no swing")
	}
	from, to := span(times, size, knock, f)
	if to-from < minRows || (times[to-1]-times[from])*f < minSwings {
		return cutout{}, errors.New("the swing dies before it can be measured: fewer than two swings, or fewer than 16 samples of them, stand out")
	}
	every := 1 + (to-from)/maxFitted
	c := cutout{frequency: f, samples: to - from, last: times[to-1]}
	for i := from; i < to; i += every {
		c.times, c.values = append(c.times, times[i]), append(c.values, values[i])
	}
	c.decay = decay(times[from:to], size, from, f)
	return c, nil
}

// strongest is the frequency of greatest amplitude, of a record made even by
// straight lines between samples, with a window of one cosine (F. J. Harris,
// Proc. IEEE 66:51-83, 1978, DOI 10.1109/PROC.1978.10837) and a parabola
// through the top.
func strongest(times, values []float64) float64 {
	n := len(times)
	step := (times[n-1] - times[0]) / float64(n-1)
	even := make([]float64, n)
	mean, j := 0.0, 0
	for i := range even {
		t := times[0] + step*float64(i)
		for j+2 < n && times[j+1] < t {
			j++
		}
		share := min(max((t-times[j])/(times[j+1]-times[j]), 0), 1)
		even[i] = values[j] + share*(values[j+1]-values[j])
		mean += even[i] / float64(n)
	}
	for i := range even {
		even[i] = (even[i] - mean) * (1 + math.Cos(math.Pi*float64(i)/float64(n))) / 2
	}
	spectrum := fourier.NewFFT(n).Coefficients(nil, even)
	best := 0
	for i := 1; i < len(spectrum); i++ {
		if cmplx.Abs(spectrum[i]) > cmplx.Abs(spectrum[best]) || best == 0 {
			best = i
		}
	}
	return (float64(best) + bent(spectrum, best)) / (step * float64(n))
}

// bent is how far from bin i the top of a parabola through it and its
// neighbours is.
func bent(spectrum []complex128, i int) float64 {
	if i < 1 || i+1 >= len(spectrum) {
		return 0
	}
	a, b, c := cmplx.Abs(spectrum[i-1]), cmplx.Abs(spectrum[i]), cmplx.Abs(spectrum[i+1])
	if d := a - 2*b + c; d != 0 {
		return min(max((a-c)/(2*d), -0.5), 0.5)
	}
	return 0
}

// span is from a little after the knock until the swing is over or there is
// another knock, by the greatest size in each swing.
func span(times []float64, size func(int) float64, knock int, f float64) (from, to int) {
	n := len(times)
	for from = knock; from < n && times[from] < times[knock]+deadTime/f; {
		from++
	}
	floor := min(quiet(n, size), jitter(size, from, n))
	first, before := 0.0, math.Inf(1)
	to = from
	for i := from; i < n; {
		top, j := tallest(times, size, i, 0, f)
		if first == 0 {
			first = top
		}
		if top > again*before || top < faded*first || top < noisy*floor {
			break
		}
		before, to, i = top, j, j
	}
	return from, to
}

// tallest is the greatest size in the swing that begins at times[i], and where
// the next begins. The sizes are counted from so far before the times.
func tallest(times []float64, size func(int) float64, i, from int, f float64) (top float64, next int) {
	for next = i; next < len(times) && (next == i || times[next] < times[i]+1/f); next++ {
		top = max(top, size(from+next))
	}
	return top, next
}

// quiet is the noise: the usual size in the last tenth of the record.
func quiet(n int, size func(int) float64) float64 {
	var tail []float64
	for i := n - max(minRows, n/10); i < n; i++ {
		tail = append(tail, size(max(0, i)))
	}
	return median(tail)
}

// jitter is how much samples differ from their neighbours' mean: noise, where
// a record ends before the swing does.
func jitter(size func(int) float64, from, n int) float64 {
	var second []float64
	for i := from + 1; i+1 < n; i++ {
		second = append(second, math.Abs(size(i-1)-2*size(i)+size(i+1))/2)
	}
	if len(second) == 0 {
		return 0
	}
	return median(second)
}

// decay is a first guess of how fast the swing fades, 1/s: the slope of the
// logarithm of the greatest size in each swing.
func decay(times []float64, size func(int) float64, from int, f float64) float64 {
	var n, logs []float64
	for i := 0; i < len(times); {
		top, j := tallest(times, size, i, from, f)
		if top > 0 {
			n, logs = append(n, times[i]), append(logs, math.Log(top))
		}
		i = j
	}
	const slight = 1e-3 // of critical: where the tops say nothing
	if len(n) < 2 {
		return slight * 2 * math.Pi * f
	}
	_, b := stat.LinearRegression(n, logs, nil, false)
	return max(-b, slight*2*math.Pi*f)
}
