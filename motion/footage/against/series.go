package against

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"seamrail/motion/footage"
)

// The ways in which a picture moves.
const (
	right = iota
	down
	turned
	grown
	ways
)

// series is a take as numbers: what the picture did, in pixels, way by way.
type series struct {
	n     int
	arm   float64 // px: how far points of the picture are from its middle, root mean square
	y     [ways][]float64
	known []bool
	doubt []float64 // px: what poses say of their own uncertainty
	rough []float64 // how much noisier each frame is than the usual one, by that
	// places is where each frame of the recording is among these, where some are missing or there
	// twice; nil where each is in its own. absent is how many are missing.
	places []float64
	absent int
}

// usualSize is taken for a picture whose size nobody says, px.
const usualWidth, usualHeight = 1920, 1080

// newSeries takes a course for what it says of its frames. A point anywhere in a picture of W by
// H pixels is sqrt((W*W+H*H)/12) from the middle, root mean square: the variance of a rectangle.
func newSeries(c footage.Course) series {
	w, h := float64(c.About.Width), float64(c.About.Height)
	if w <= 0 || h <= 0 {
		w, h = usualWidth, usualHeight
	}
	s := series{n: len(c.Frames), arm: math.Sqrt((w*w + h*h) / 12)}
	for k := range s.y {
		s.y[k] = make([]float64, s.n)
	}
	s.known = make([]bool, s.n)
	s.doubt, s.rough = make([]float64, s.n), make([]float64, s.n)
	for i, f := range c.Frames {
		p := f.FromFirst
		row := [ways]float64{p.X, p.Y, p.Turn * math.Pi / 180 * s.arm, math.Log(p.Scale) * s.arm}
		s.known[i] = p.Known && !slices.ContainsFunc(row[:], notNumber)
		if !s.known[i] {
			continue
		}
		for k, v := range row {
			s.y[k][i] = v
		}
		d := effect{p.Doubt.X, p.Doubt.Y, p.Doubt.Turn * math.Pi / 180 * s.arm, p.Doubt.Scale / p.Scale * s.arm}
		if size := d.size(); !notNumber(size) {
			s.doubt[i] = size
		}
	}
	s.roughen()
	s.unwind()
	return s
}

// A frame counts as at most so many times rougher or smoother than the usual one: what poses say of
// their own uncertainty is itself no better known.
const (
	roughest  = 8.0
	smoothest = 0.5
)

// roughen works out how rough frames are beside the usual one.
func (s *series) roughen() {
	var said []float64
	for i, k := range s.known {
		if k && s.doubt[i] > 0 {
			said = append(said, s.doubt[i])
		}
	}
	usual := middle(said)
	for i, d := range s.doubt {
		s.rough[i] = 1
		if d > 0 && usual > 0 {
			s.rough[i] = min(max(d/usual, smoothest), roughest)
		}
	}
}

// smooth is a row with each frame by how rough it is.
func (s *series) smooth(r []float64) []float64 {
	out := make([]float64, len(r))
	floats.DivTo(out, r, s.rough)
	return out
}

func notNumber(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }

// unwind makes turns go on past half a turn, as they do where a picture turns round and round.
func (s series) unwind() {
	round, last := 2*math.Pi*s.arm, 0.0
	for i, v := range s.y[turned] {
		if s.known[i] {
			s.y[turned][i] = v - round*math.Round((v-last)/round)
			last = s.y[turned][i]
		}
	}
}

// count is how many frames are known.
func (s series) count() (n int) {
	for _, k := range s.known {
		if k {
			n++
		}
	}
	return n
}

// normal is what makes a median of sizes a standard deviation where chance is normal (P. J.
// Huber, Robust Statistics, Wiley 1981, DOI 10.1002/0471725250, section 5.1).
const normal = 1.4826

// leastNoise is what is never undercut, px: poses are no better than a two-hundredth of a pixel,
// whatever they say, and a residual of 0 would make every rounding a finding.
const leastNoise = 0.005

// scale is the robust size of residuals where frames count.
func scale(r []float64, counts []bool) float64 {
	var sizes []float64
	for i, v := range r {
		if counts[i] {
			sizes = append(sizes, math.Abs(v))
		}
	}
	return max(leastNoise, normal*middle(sizes))
}

// noise is the standard deviation of what differs from frame to frame by chance, by the
// differences between neighbours: what a motion leaves over goes on for longer, and cancels.
func noise(r []float64, counts []bool) float64 {
	var d []float64
	for i := 1; i < len(r); i++ {
		if counts[i] && counts[i-1] {
			d = append(d, math.Abs(r[i]-r[i-1]))
		}
	}
	return max(leastNoise, normal*middle(d)/math.Sqrt2)
}

func middle(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	slices.Sort(x)
	return stat.Quantile(0.5, stat.Empirical, x, nil)
}
