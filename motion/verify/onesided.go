package verify

import "math"

// One side of the seam is looked at through ever smaller windows: the first is
// windowFrames of a frame wide, all samples together, each next one half of that.
// A motion may change its formula anywhere, also closer to the seam than the first
// window is wide, and then only a window that ends before tells what is at the seam.
const (
	windowFrames = 0.5
	windows      = 18 // the last is a 260 000th of a frame
)

// side is one side of the seam: how far the axis is from where it is at the seam, so
// many seconds away from it.
type side func(sec float64) float64

// estimate is a derivative at the seam as measured, and how far off that may be.
type estimate struct{ value, err float64 }

// derivative measures the d-th derivative at the seam from one side. How far off a
// window is comes of three things: a jump of the next derivative, by up to higher, in
// the window, where it might as well be at the seam; what differs from the windows
// next to it, which what is beyond them moves; and rounding, of positions of the given
// size. The window with the least of all is believed (a step of differences is chosen
// so: P. E. Gill, W. Murray, M. A. Saunders and M. H. Wright, SIAM J. Sci. Stat.
// Comput. 4:310-321, 1983, DOI 10.1137/0904025).
func derivative(x side, frame, size, higher float64, d int) estimate {
	h := frame * windowFrames / (stencil - 1)
	best := estimate{err: math.Inf(1)}
	before := difference(x, h, d)
	here := before
	for range windows {
		after := difference(x, h/2, d)
		err := math.Max(math.Abs(here-before), math.Abs(here-after)) +
			higher*h*(stencil-1) + seamNoise(size, h, d)
		if err < best.err {
			best = estimate{here, err}
		}
		before, here, h = here, after, h/2
	}
	return best
}

func difference(x side, h float64, d int) float64 {
	var at [stencil]float64
	for k := range at {
		at[k] = x(float64(k) * h)
	}
	return oneSided(at, h, d)
}
