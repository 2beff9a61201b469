package pull

import (
	"math"
	"slices"
)

// Marked is the distance that a lens of focal length f has engraved for a focus u, both in
// mm: from the subject to the sensor (common practice: rings are marked from the film
// plane, which a circle with a line across it shows on the camera). Of a thin lens that
// is u + f(1+m) = f(2 + m + 1/m): four focal lengths at 1:1, and never less.
// Source: the thin lens equation, as in motion/camera/optics (Hecht, Optics, section 5.2).
func Marked(f, u float64) float64 { return u + f*u/(u-f) }

// FocusOf is the focus u whose engraved distance is d, the farther of the two that have
// it: u = (d + sqrt(d² - 4 d f))/2. It is NaN where d is nearer than 4 f.
func FocusOf(f, d float64) float64 {
	square := 1 - 4*f/d
	if math.Abs(square) < lifeSize {
		square = 0
	}
	return d * (1 + math.Sqrt(square)) / 2
}

// lifeSize is how near a distance comes to the nearest there is and counts as it: what
// rounding takes from four focal lengths.
const lifeSize = 1e-14

// Tick is where the ring of a lens stands for a focus.
type Tick struct {
	Focus float64 // mm from the lens
	At    float64 // degrees of the ring, or mm around it
}

// Ring is the scale of a lens, in the order of At. Between ticks the ring is taken to
// draw the lens out evenly, as a helicoid does: its place goes with the magnification
// f/(u-f).
type Ring struct {
	Ticks []Tick
	// Around is how far, in mm, the ring is around, 0 where that is not known; Degrees
	// tells what At counts.
	Around  float64
	Degrees bool
}

// Known tells whether there is a scale.
func (r Ring) Known() bool { return len(r.Ticks) > 1 }

// At is where the ring of a lens of focal length f stands for a focus, and whether that is
// on its scale.
func (r Ring) At(f, u float64) (at float64, on bool) {
	if !r.Known() {
		return math.NaN(), false
	}
	drawn := func(t Tick) float64 { return f / (t.Focus - f) }
	x := f / (u - f)
	up := drawn(r.Ticks[1]) > drawn(r.Ticks[0])
	i, _ := slices.BinarySearchFunc(r.Ticks[1:len(r.Ticks)-1], x, func(t Tick, x float64) int {
		if (drawn(t) < x) == up {
			return -1
		}
		return 1
	})
	a, b := r.Ticks[i], r.Ticks[i+1]
	share := (x - drawn(a)) / (drawn(b) - drawn(a))
	return a.At + share*(b.At-a.At), share >= -onScale && share <= 1+onScale
}

// onScale is how far beyond the last tick of a scale a place still counts as at it.
const onScale = 1e-9

// MM is a place of the ring as a place on a tape round it, in mm, where that is known.
func (r Ring) MM(at float64) (float64, bool) {
	switch {
	case !r.Degrees:
		return at, true
	case r.Around > 0:
		return at / 360 * r.Around, true
	}
	return 0, false
}

// Difficulty is how hard it is to turn the ring of a lens of focal length f from one focus
// to another and stop where what is between near and far is sharp, in bits: log2(2D/W),
// where D is the way and W the width of what will do, both as the ring goes. A helicoid
// goes with f/(u-f), which leaves the two in proportion whatever the lens' scale.
// Source: P. M. Fitts on the human motor system, Journal of Experimental Psychology
// 47(6):381-391, 1954,
// DOI 10.1037/h0055392.
func Difficulty(f, from, to, near, far float64) float64 {
	drawn := func(u float64) float64 { return f / (u - f) } // 0 infinitely far
	return math.Log2(2 * math.Abs(drawn(to)-drawn(from)) / (drawn(near) - drawn(far)))
}
