package alike

import (
	"math"
	"slices"
)

const (
	// quietShare is the share of the steps from frame to frame that may be of noise alone: in
	// most takes the camera rests that long, at a turn or a dwell.
	quietShare = 0.05
	// noiseWeight is how much of the square of a quiet step a perfect seam scores: as much
	// again in the picture and in motion (see motionWeight); a quarter more than that leaves
	// the scatter of a sum of some thousand squares, 4 %, below the bound six times over.
	noiseWeight = 2.5
	// leastBound is half a level of eight bits: no screen shows less.
	leastBound = 0.5 / 255
)

// Bound is up to where a seam is not seen. It is a model: an eye that accepts each ordinary
// step of the take accepts one more of that size.
type Bound struct {
	Noise    float64 // root mean square of a step from frame to frame in which nothing moves
	Ordinary float64 // of the middle one
	Score    float64 // a seam that scores no more is not seen
}

// Bound tells what of these frames is an ordinary step. Fewer than two have none.
func (s *Sketches) Bound() Bound {
	one, two := s.steps(1), s.steps(2)
	if len(one) == 0 {
		return Bound{Score: leastBound}
	}
	noise := noise(one, two)
	b := Bound{Noise: math.Sqrt(noise), Ordinary: math.Sqrt(one[len(one)/2])}
	b.Score = max(leastBound, math.Sqrt(one[len(one)/2]+(noiseWeight-1)*noise))
	return b
}

// steps are the mean squares from each frame to that a lag later.
func (s *Sketches) steps(lag int) []float64 {
	if s.Len() <= lag {
		return nil
	}
	d := s.diagonal(len(s.levels)-1, lag)
	out := make([]float64, d.pairs())
	for i := range out {
		out[i], _ = d.look(i)
	}
	return out
}

// noise is the square of a step in which nothing moves. Over two frames even motion goes twice
// as far, and noise no further, so that of squared steps over one and two frames
//
//	one = moved + noise,  two = 4 moved + noise,  noise = (4 one - two) / 3
//
// and the middle one of those is taken, or the quietest step, if that is less. The steps over
// one frame are left sorted.
func noise(one, two []float64) float64 {
	var parts []float64
	for i, v := range two {
		parts = append(parts, max(0, 4*one[i]-v)/3)
	}
	slices.Sort(one)
	quiet := one[int(quietShare*float64(len(one)))]
	if len(parts) == 0 {
		return quiet
	}
	slices.Sort(parts)
	return min(quiet, parts[len(parts)/2])
}

// dissolve is over how many frames a seam is to be spread until what each of them has of it is
// within the bound: 0 where it is not seen as it is, and known is false where the footage has
// not that many frames before the first or from the last on, or the loop is not twice as long.
func (b Bound) dissolve(s Seam, frames int) (n int, known bool) {
	if s.Score <= b.Score {
		return 0, true
	}
	n = int(math.Ceil(s.Score / b.Score))
	beside := max(s.First, frames-s.Last())
	return n, n <= beside && 2*n <= s.Length
}
