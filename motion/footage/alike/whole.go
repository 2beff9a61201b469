package alike

import (
	"context"
	"math"
	"slices"
)

// Whole is how a recording goes on from its last frame to its first, played as it is. There is no
// frame behind the last that the first could be held against, so that it is held against where the
// last two lead, and the last against where the first two come from: the picture is taken to change
// by the same again from frame to frame, which is a model, and the take itself tells how good it is.
type Whole struct {
	Jump  float64 // root mean square over the cells by which it does not go on so, 0 to 1
	Usual float64 // the same within the take, which 19 frames of 20 stay within
	Light float64 // by how much brighter the first is than it should be, as a share of white
	Bound float64 // a jump that is no more is not seen
	// Twice tells that it is seen, but would not be without the last frame: that shows the first
	// once more.
	Twice bool
}

const (
	// leastWhole is how many frames tell what is usual.
	leastWhole = 12
	// besideSeam is how many frames at either end tell what is usual there: where a take is
	// fast, less is foretold.
	besideSeam = 3
	// slack is by how much more a seam may jump: by the scatter of what frames beside it do.
	slack = 1.15
	// usualShare is that of the frames of a take that are foretold as well.
	usualShare = 0.95
)

// Unseen tells that the jump is within the bound.
func (w Whole) Unseen() bool { return w.Jump <= w.Bound }

// AsAWhole measures the seam of all of it; false where it is too short to tell. It fails with the
// error of ctx.
func (s *Sketches) AsAWhole(ctx context.Context) (Whole, bool, error) {
	n := s.Len()
	if n < leastWhole {
		return Whole{}, false, nil
	}
	var usual []float64
	for k := 1; k+1 < n; k++ {
		off, _ := s.foretold(k-1, k, k+1)
		if usual = append(usual, off); k%slab == 0 && ctx.Err() != nil {
			return Whole{}, false, ctx.Err()
		}
	}
	beside := slices.Concat(usual[:besideSeam], usual[len(usual)-besideSeam:])
	slices.Sort(usual)
	w := Whole{Usual: usual[int(usualShare*float64(len(usual)-1))]}
	w.Jump, w.Light = s.onward(n - 1)
	w.Bound = max(leastBound, slack*max(w.Usual, slices.Max(beside)))
	if !w.Unseen() {
		without, _ := s.onward(n - 2)
		w.Twice = without <= w.Bound
	}
	return w, true, nil
}

// onward is by how much it does not go on from a last frame to the first.
func (s *Sketches) onward(last int) (jump, lighter float64) {
	ahead, brighter := s.foretold(last-1, last, 0)
	back, darker := s.foretold(1, 0, last)
	return math.Sqrt((ahead*ahead + back*back) / 2), (brighter - darker) / 2
}

// foretold is by how much frame next is not where two frames before it lead, and by how much
// brighter it is.
func (s *Sketches) foretold(before, last, next int) (off, lighter float64) {
	a, b, c := s.At(before), s.At(last), s.At(next)
	squares, sum := 0.0, 0.0
	for i := range c {
		d := float64(c[i] - (2*b[i] - a[i]))
		squares, sum = squares+d*d, sum+d
	}
	return math.Sqrt(squares / float64(len(c))), sum / float64(len(c))
}
