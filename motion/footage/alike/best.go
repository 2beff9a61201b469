package alike

import (
	"context"
	"fmt"
)

const (
	// usualTop is how many loops are found where it is not told.
	usualTop = 10
	// mostTop bounds how many are asked for: nobody looks at more.
	mostTop = 200
	// alikeShare is up to how much more than the best of a run its others score, where the
	// best is seen already.
	alikeShare = 1.1
)

// Range is which loops are looked at.
type Range struct {
	Min, Max int // frames of the loop, both included
	Multiple int // which they are a whole multiple of; 0 and 1 are any
	Top      int // how many are wanted, 200 at most; 0 is 10
	// Apart is how many frames two loops must differ, in where they begin or in how long
	// they are, to be told apart: a loop is not told beside a better one that is nearer.
	Apart int
	// Tell, if not nil, is called now and then with the share that is done, 0 to 1.
	Tell func(share float64)
}

// Run are loops of one length that are as good as each other: those that begin with frames
// From to To. Its seam is that of the best of them.
type Run struct {
	Seam
	From, To int
	// Unseen tells that the seam is within the bound.
	Unseen bool
	// Dissolve is over how many frames the seam would have to be dissolved not to be seen,
	// 0 for one that is not seen anyway. Fits tells whether the footage and the loop have
	// room for it.
	Dissolve int
	Fits     bool
}

// Found are the best loops of some footage.
type Found struct {
	Runs  []Run // best first
	Bound Bound
	Pairs int // how many were asked about
	Exact int // how many of them had to be compared cell by cell
}

// Any tells whether there is a loop whose seam is not seen.
func (f Found) Any() bool { return len(f.Runs) > 0 && f.Runs[0].Unseen }

// Best finds the loops with the least scores among all pairs of frames whose distance is in
// the range. Pairs are taken best first, and of one score the earlier, then the shorter. Each
// that is not near a run that was found begins one: from it on along its diagonal, both ways,
// as long as the score is within the bound or, if the best is not, within a tenth more. Near is
// a pair that differs by at most r.Apart frames in length and begins at most that far from one
// of the run.
//
// It fails if the range is none, if no loop of the range is shorter than the footage, or with
// the error of ctx.
func Best(ctx context.Context, s *Sketches, r Range) (Found, error) {
	r, err := r.checked(s.Len())
	if err != nil {
		return Found{}, err
	}
	q := newSearch(s, r)
	if err := q.coarse(ctx); err != nil {
		return Found{}, err
	}
	for len(q.runs) < r.Top {
		more, err := q.next(ctx)
		if err != nil {
			return Found{}, err
		}
		if !more {
			break
		}
	}
	q.tell(1)
	return Found{q.runs, q.bound, q.pairs, q.exact}, nil
}

func (r Range) checked(frames int) (Range, error) {
	r.Multiple = max(1, r.Multiple)
	if r.Top == 0 {
		r.Top = usualTop
	}
	lengths := r.lengths(frames)
	switch {
	case r.Min < 1 || r.Max < r.Min:
		return r, fmt.Errorf("a loop of %d to %d frames is none; the least must be 1 or more, and no more than the greatest", r.Min, r.Max)
	case r.Top < 0 || r.Top > mostTop:
		return r, fmt.Errorf("%d loops cannot be asked for; 1 to %d can", r.Top, mostTop)
	case r.Apart < 0:
		return r, fmt.Errorf("loops cannot be %d frames apart; 0 or more can", r.Apart)
	case r.Min >= frames:
		return r, fmt.Errorf("footage of %d frames holds no loop of %d or more; a loop of at most %d fits, as the frame after it is needed", frames, r.Min, max(0, frames-1))
	case len(lengths) == 0:
		return r, fmt.Errorf("no loop of %d to %d frames in footage of %d is a multiple of %d", r.Min, r.Max, frames, r.Multiple)
	}
	return r, nil
}

// lengths are all that the range and the footage have, shortest first.
func (r Range) lengths(frames int) (out []int) {
	k := max(1, r.Multiple)
	for n := (max(r.Min, 1) + k - 1) / k * k; n <= min(r.Max, frames-1); n += k {
		out = append(out, n)
	}
	return out
}
