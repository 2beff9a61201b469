package alike

import (
	"math"
	"slices"
)

const (
	// quietShare is the share of the steps from frame to frame that are taken for noise
	// alone: in most takes the camera rests that long, at a turn or a dwell.
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
	Noise    float64 // root mean square of the quietest steps from frame to frame
	Ordinary float64 // of the middle one
	Score    float64 // a seam that scores no more is not seen
}

// Bound tells what of these frames is an ordinary step. Fewer than two have none.
func (s *Sketches) Bound() Bound {
	steps := s.steps()
	if len(steps) == 0 {
		return Bound{Score: leastBound}
	}
	slices.Sort(steps)
	b := Bound{Noise: steps[int(quietShare*float64(len(steps)))], Ordinary: steps[len(steps)/2]}
	moved := b.Ordinary*b.Ordinary - b.Noise*b.Noise
	b.Score = max(leastBound, math.Sqrt(moved+noiseWeight*b.Noise*b.Noise))
	return b
}

// steps are the root mean squares from each frame to the next.
func (s *Sketches) steps() []float64 {
	if s.Len() < 2 {
		return nil
	}
	d := s.diagonal(len(s.levels)-1, 1)
	out := make([]float64, d.pairs())
	for i := range out {
		p, _ := d.look(i)
		out[i] = math.Sqrt(p)
	}
	return out
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
