package preview

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// ray is a point of the lens' opening and an instant of the exposure.
type ray struct {
	x, y  float64 // within the circle of radius 1
	share float64 // 0..1 of the shutter time
}

// rays returns n rays: points spread evenly over the opening by the golden
// angle, and as many instants spread evenly over the exposure, dealt to them so
// that neither follows the other.
// Source: H. Vogel, "A better way to construct the sunflower head", Mathematical
// Biosciences 44:179-189, 1979, DOI 10.1016/0025-5564(79)90080-4.
func rays(n int) []ray {
	out := make([]ray, n)
	step := stride(n)
	for i := range out {
		s, c := math.Sincos(float64(i) * math.Pi * (3 - math.Sqrt(5)))
		r := math.Sqrt((float64(i) + 0.5) / float64(n))
		out[i] = ray{r * c, r * s, (float64(i*step%n) + 0.5) / float64(n)}
	}
	if n == 1 {
		out[0].x, out[0].y = 0, 0
	}
	return out
}

// stride is a number near 0.755 n without a divisor in common with n, so that
// its multiples visit every instant once. 0.755 is the inverse of the plastic
// number, whose multiples stay as far apart as those of the golden ratio and
// run along with none of them.
func stride(n int) int {
	for s := max(1, int(0.7549*float64(n))); ; s++ {
		if gcd(s, n) == 1 {
			return s
		}
	}
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Each frame is the mean of as many pictures as its widest smear or blur has
// half pixels: no step is then left to see at an edge that is soft by a pixel.
// Beyond maxExposures what is smeared is too faint for its steps to be seen.
const (
	perPixel     = 2.0
	maxExposures = 48
)

// looks is at how many instants of the loop the widest smear is looked for: a
// preview moves little from one to the next.
const looks = 48

// exposures is how many pictures make a frame of this loop.
func (f *Finder) exposures() int {
	widest := 0.0
	n := f.motion.Captured()
	for i := range min(n, looks) {
		begin := f.motion.FrameSeconds(i * n / min(n, looks)).Float()
		first, last := f.eye(begin, ray{}), f.eye(begin, ray{share: 1})
		for _, p := range f.set.corners {
			widest = math.Max(widest, f.extent(&first, &last, first.turned(p), last.turned(p)))
		}
		for _, p := range f.set.fixed {
			widest = math.Max(widest, f.extent(&first, &last, p, p))
		}
	}
	return int(math.Min(math.Max(1, math.Ceil(perPixel*widest)), maxExposures))
}

// extent is over how many px a point is spread that goes from p to q meanwhile, 0
// outside the picture.
func (f *Finder) extent(first, last *eye, p, q r3.Vec) float64 {
	a, b := first.local(p), last.local(q)
	if a.Z < nearest || b.Z < nearest {
		return 0
	}
	from, to := first.spot(a), last.spot(b)
	blur := first.blur(a.Z, f.iris)
	in := func(v float32, size int) bool { return float64(v) > -blur && float64(v) < float64(size)+blur }
	if !in(from.X, f.wide) || !in(from.Y, f.high) {
		return 0
	}
	return math.Max(math.Hypot(float64(to.X-from.X), float64(to.Y-from.Y)), blur)
}
