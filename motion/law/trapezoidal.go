package law

import (
	"fmt"
	"math"
)

// trapezoidal accelerates evenly for ramp of the time, holds its speed, and
// slows evenly for ramp of the time.
type trapezoidal struct{ ramp, v, a float64 }

// Trapezoidal returns the law of trapezoidal velocity. ramp is the share of
// the time spent accelerating, and again slowing: in (0, 1/2]. At 1/2 the
// velocity is a triangle.
func Trapezoidal(ramp float64) (Law, error) {
	if err := checkShare("ramp", ramp, "the time"); err != nil {
		return nil, err
	}
	return newTrapezoidal(ramp), nil
}

func newTrapezoidal(ramp float64) trapezoidal {
	ramp = mirrorable(ramp)
	v := 1 / (1 - ramp)
	return trapezoidal{ramp: ramp, v: v, a: v / ramp}
}

func (trapezoidal) Name() string { return "trapezoidal" }

func (trapezoidal) Takes() []Takes { return []Takes{{RampKey, 0.5}} }

func (trapezoidal) Make(s Spec) (Law, error) { return Trapezoidal(s.Ramp) }

func (l trapezoidal) At(u float64) Point {
	w, far := fold(u)
	if before(w, l.ramp, far) {
		return unfold(Point{S: l.a / 2 * w * w, V: l.a * w, A: l.a}, far)
	}
	return unfold(Point{S: l.v * (w - l.ramp/2), V: l.v}, far)
}

func (l trapezoidal) Peaks() Peaks {
	return Peaks{
		V: l.v, AtV: l.ramp,
		A: l.a, AtA: 0,
		J: math.Inf(1), AtJ: l.ramp,
	}
}

// Breaks returns the ends of the ramps.
func (l trapezoidal) Breaks() []float64 { return mirrored(l.ramp) }

// Inverse solves the square or the straight piece that s lies in.
func (l trapezoidal) Inverse(s float64) float64 {
	s = clamp(s)
	if s > 0.5 {
		return 1 - l.inverseHalf(1-s)
	}
	return l.inverseHalf(s)
}

func (l trapezoidal) inverseHalf(s float64) float64 {
	if s < l.v*l.ramp/2 {
		return math.Sqrt(2 * s / l.a)
	}
	return min(s/l.v+l.ramp/2, 0.5)
}

// checkShare refuses a share outside (0, 1/2], NaN included.
func checkShare(what string, share float64, of string) error {
	if share > 0 && share <= 0.5 && share >= minShare {
		return nil
	}
	return fmt.Errorf("%s %v must be a share of %s from %v to 0.5; 0.25 would fit", what, share, of, minShare)
}

// minShare keeps the peak factors, which grow as its inverse and its inverse
// square, far from overflow, and a ramp longer than a tick of any clock.
const minShare = 1e-6

// mirrorable rounds a break so that 1 minus it is exact, which puts the two
// halves' breaks where At looks for them. It moves by 2^-54 at most.
func mirrorable(b float64) float64 { return 1 - (1 - b) }

// mirrored returns breaks of the first half followed by those of the second.
// A zero, a break at the very middle and a repeat count once or not at all.
func mirrored(first ...float64) []float64 {
	var out []float64
	for _, b := range first {
		if b > 0 && (len(out) == 0 || out[len(out)-1] != b) {
			out = append(out, b)
		}
	}
	for i := len(out) - 1; i >= 0; i-- {
		if out[i] < 0.5 {
			out = append(out, 1-out[i])
		}
	}
	return out
}
