package align

import (
	"math"

	"seamrail/motion/footage"
)

// The spectrum of a picture is looked at from a ring of finest waves, which are grain, down to
// one of coarsest, which are the window: in shares of the finest that there is.
const (
	fineShare   = 0.8
	coarseShare = 0.05
)

// polar is how strong the waves of a spectrum are, by their direction, half a turn over the
// square, and by the logarithm of their length: a picture that is turned and scaled has them
// shifted. What is fine is lifted (as Reddy and Chatterji do), since pictures are coarse most.
func polar(s *spectrum) *spectrum {
	strong := func(x, y float64) float64 {
		ix, iy := math.Floor(x), math.Floor(y)
		size := func(x, y float64) float64 {
			c := s[(int(y)&(side-1))*side+int(x)&(side-1)]
			return math.Log1p(math.Hypot(real(c), imag(c)) * liftOf(math.Hypot(x, y)))
		}
		tx, ty := x-ix, y-iy
		return (size(ix, iy)*(1-tx)+size(ix+1, iy)*tx)*(1-ty) + (size(ix, iy+1)*(1-tx)+size(ix+1, iy+1)*tx)*ty
	}
	return spectrumOf(whole, faded, func(u, v float64) (float64, bool) {
		direction := math.Pi * (u + (side-1)/2.0) / side
		r := radiusAt(v)
		sin, cos := math.Sincos(direction)
		return strong(r*cos, r*sin), true
	})
}

// logStep is how much longer a wave is a step further.
var logStep = math.Log(fineShare/coarseShare) / side

func radiusAt(v float64) float64 {
	return side / 2 * math.Sqrt(fineShare*coarseShare) * math.Exp(v*logStep)
}

func liftOf(radius float64) float64 {
	x := math.Cos(math.Pi / 2 * math.Min(radius/(side/2), 1))
	return (1 - x*x) * (2 - x*x)
}

// turned are the likely turns and scales from one picture to the other, without a shift: of
// each turn the one by half a turn more too, which a spectrum does not tell apart.
func turned(from, to *spectrum, count int) []footage.Pose {
	var out []footage.Pose
	for _, p := range shifts(polar(from), polar(to), count) {
		turn, scale := p.x*180/side, math.Exp(-p.y*logStep)
		for _, half := range []float64{0, 180} {
			pose := footage.Same()
			pose.Turn, pose.Scale = math.Remainder(turn+half, 360), scale
			out = append(out, pose)
		}
	}
	return out
}
