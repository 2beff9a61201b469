package light

import (
	"math"

	"seamrail/motion/base/exact"
)

// Flicker is what a rippling light does to a film.
type Flicker struct {
	Ripple exact.Rat // Hz of the light
	Beat   exact.Rat // Hz at which captured frames brighten and darken; 0 = they stand still
	Left   float64   // share of the light that ripples in an exposure, whether it beats or not
	Depth  float64   // share, 0..1: (brightest - darkest)/(brightest + darkest) of the frames
	Clean  bool      // the exposure holds a whole number of ripples
}

// RippleOf returns the ripple of a lamp on the mains of the given frequency:
// twice it, as both half waves light the lamp.
func RippleOf(mains exact.Rat) exact.Rat { return mains.Mul(exact.Int(2)) }

// Beating returns what a light that ripples at ripple Hz, by depth of its mean
// (0..1, (max - min)/(max + min), the modulation of IEEE 1789-2015,
// DOI 10.1109/IEEESTD.2015.7118618, taken as a sine), does to frames captured
// at capture Hz with a shutter of sec > 0. An exposure averages the ripple:
// what is left is sinc(ripple*shutter) of it. The beat is the distance of the
// ripple from the nearest whole multiple of the capture rate (sampling,
// Shannon 1949); where it is 0 all frames see the same part of the ripple and
// nothing flickers.
func Beating(ripple, capture exact.Rat, sec, depth float64) Flicker {
	f := Flicker{Ripple: ripple}
	times := ripple.Quo(capture).Round()
	f.Beat = ripple.Sub(times.Mul(capture)).Abs()
	left := math.Abs(sinc(ripple.Float() * sec))
	f.Clean, f.Left = left < cleanShare, depth*left
	if f.Beat.Sign() != 0 {
		f.Depth = f.Left
	}
	return f
}

// cleanShare is what an exposure may leave of a ripple and count as clean: a
// camera shows 1/100 s where it keeps time to a few parts in ten thousand, and
// a thousandth of a full ripple is below one level of an eight-bit picture.
const cleanShare = 1e-3

// CleanShutters returns the exposure times, in seconds, that hold a whole
// number of ripples, shortest first, up to longest; at most 64.
func CleanShutters(ripple exact.Rat, longest float64) []exact.Rat {
	var out []exact.Rat
	for n := int64(1); n <= 64; n++ {
		t := exact.Int(n).Quo(ripple)
		if t.Float() > longest*(1+markSlack) {
			break
		}
		out = append(out, t)
	}
	return out
}

// NearestClean returns the clean exposure nearest to sec in stops, and whether
// one is no longer than longest.
func NearestClean(ripple exact.Rat, sec, longest float64) (exact.Rat, bool) {
	var best exact.Rat
	off := math.Inf(1)
	for _, t := range CleanShutters(ripple, longest) {
		if d := math.Abs(math.Log2(t.Float() / sec)); d < off {
			best, off = t, d
		}
	}
	return best, !math.IsInf(off, 1)
}

// sinc is sin(pi x)/(pi x).
func sinc(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Sin(math.Pi*x) / (math.Pi * x)
}
