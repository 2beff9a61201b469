package toppath

import (
	"math"
	"slices"

	"seamrail/motion/track"
)

// New returns the schedule of a path under the limits of its axes.
//
// The pace is the quickest under limits of speed and acceleration that also keeps
// to what jerk allows where the pace is even, or to some times that. It is made
// smooth by averaging s over a width of time, which makes acceleration continuous
// and limits jerk to the jumps of acceleration over the width; for one axis on a
// straight line the result is the jerk-limited optimum wherever both limits are
// reached. The whole is then slowed evenly until every limit is kept. Of all
// widths tried, the one that takes the least time is chosen. Along a closed path the
// pace is then looked for directly, jerk and all (see barrier), and the quicker of the
// two is taken: averaging smooths everywhere by as much as one place needs, and took up
// to 1.68 times as long as the best that was found from outside.
//
// It is within the limits but, with jerk, not proven the quickest: Bound tells how far
// from it it can be at most. Over the 24 random paths of one and two axes of
// testdata/reference/quickest_paces.tsv it takes 1.002 times the best found from outside
// in the median, 22 of them within 1.03, and 1.135 times at most: where a single axis all
// but rests half way, a quicker pace is known.
//
// Where every axis rests the pace is at most 1, so that a hold lasts as long as
// in the path's own seconds, but for what averaging takes off its ends.
func New(p Path, limits []Limit) (*Schedule, error) {
	if err := check(p, limits); err != nil {
		return nil, err
	}
	g, quickest, err := settle(p, limits)
	if err != nil {
		return nil, err
	}
	s := smoother{path: p, limits: limits, holds: slices.Contains(g.still, true), at: make([]track.State, len(limits))}
	s.best.sec = math.Inf(1)
	for loose := 1.; loose <= easiest; loose *= easier {
		g.bounds()
		g.tighten(loose)
		z, err := g.fastest()
		if err != nil {
			return nil, err
		}
		s.try(newProfile(g, z))
	}
	return s.direct(s.schedule(quickest.seconds())), nil
}

const (
	// cells is how many even steps a path is cut into at least, and maxCells at
	// most, which is eight to a key of a loop of as many keys as a track may
	// have.
	cells    = 256
	maxCells = 8 * cells
	// sameCells is the share of the least time that twice as many cells must
	// change it by no more than. It is then known to a few times that: where the
	// axis that rules turns round, a node is a little too slow or too quick.
	sameCells = 1e-3
)

// settle returns the grid of as many cells as it takes, and the quickest profile
// on it under limits of speed and acceleration.
func settle(p Path, limits []Limit) (*grid, *profile, error) {
	before := math.Inf(1)
	for n := cells; ; n *= 2 {
		g, err := newGrid(p, limits, n)
		if err != nil {
			return nil, nil, err
		}
		z, err := g.fastest()
		if err != nil {
			return nil, nil, err
		}
		f := newProfile(g, z)
		if sec := f.seconds(); n == maxCells || math.Abs(sec-before) <= sameCells*sec {
			return g, f, nil
		}
		before = f.seconds()
	}
}
