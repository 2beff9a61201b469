package pace

import (
	"math"
	"slices"

	"seamrail/motion/footage/alike"
)

// film is a recording of which frames are compared.
type film struct {
	of   *alike.Sketches
	size []float64 // sum of squares of each sketch
}

func newFilm(s *alike.Sketches) film {
	f := film{of: s, size: make([]float64, s.Len())}
	for k := range f.size {
		f.size[k] = dot(s.At(k), s.At(k))
	}
	return f
}

func dot(a, b []float32) (sum float64) {
	b = b[:len(a)]
	for i, v := range a {
		sum += float64(v) * float64(b[i])
	}
	return sum
}

// apart is the mean square by which two frames differ, once one is as bright as the other: of two
// sketches a and b with an angle between them it is |a| |b| sin^2. Flicker and exposure do not
// show in it.
func (f film) apart(i, j int) float64 {
	both := f.size[i] * f.size[j]
	if both == 0 {
		return 0
	}
	ab := dot(f.of.At(i), f.of.At(j))
	return max(0, (both-ab*ab)/math.Sqrt(both)) / float64(len(f.of.At(i)))
}

// change is how much the picture changes from one frame to another, as squares.
type change struct {
	from, to []int
	y, log   []float64
	smooth   []float64 // the middle one of those around
	quiet    float64   // below this nothing is told from nothing
	frames   int
}

// lags are over how many frames changes are looked at: over one where it is fast, over more where
// it is so slow that a frame's change is lost in noise. Each step is three times the one before, so
// that its motion is as clear as nine of those.
var lags = [...]int{1, 3, 9}

const (
	// around is over how many frames to either side a change is smoothed to weigh it: fewer than
	// any move has, and more than a frame that is alone.
	around = 2
	// quietShare is the share of the changes that may be of frames that came twice, and a tenth of
	// what is above them is less than any noise that is new in each frame.
	quietShare, quietPart = 0.1, 0.1
	// leastChange keeps a film without any noise from having no logarithm: a thousandth of a level
	// of eight bits, squared.
	leastChange = 1.5e-11
	// farShare is the share of the greatest changes' size from which on two frames have so little
	// in common that going farther changes little.
	farShare = 0.3
)

func newChange(f film) change {
	c := change{frames: f.of.Len()}
	var far float64
	for _, lag := range lags {
		y := make([]float64, max(0, c.frames-lag))
		for k := range y {
			y[k] = f.apart(k, k+lag)
		}
		sorted := slices.Clone(y)
		slices.Sort(sorted)
		if lag == 1 {
			c.quiet = max(leastChange, quietPart*sorted[int(quietShare*float64(len(sorted)))])
		}
		if n := len(sorted); n > 0 {
			far = max(far, farShare*sorted[n-1-n/20])
		}
	}
	for _, lag := range lags {
		c.add(f, lag, far)
	}
	return c
}

// add takes the changes over a lag, without those beyond far where a shorter lag tells as much.
func (c *change) add(f film, lag int, far float64) {
	y := make([]float64, max(0, c.frames-lag))
	for k := range y {
		y[k] = max(f.apart(k, k+lag), c.quiet)
	}
	for k, v := range y {
		smooth := middle(y[max(0, k-around):min(len(y), k+around+1)])
		if lag > 1 && smooth > far {
			continue
		}
		c.from, c.to = append(c.from, k), append(c.to, k+lag)
		c.y, c.log, c.smooth = append(c.y, v), append(c.log, math.Log(v)), append(c.smooth, smooth)
	}
}

// middle is the median of some values, which stay as they are; 0 of none.
func middle(of []float64) float64 {
	if len(of) == 0 {
		return 0
	}
	s := slices.Clone(of)
	slices.Sort(s)
	return (s[(len(s)-1)/2] + s[len(s)/2]) / 2
}
