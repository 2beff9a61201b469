package retime

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
// widths tried, the one that takes the least time is chosen. It is within the
// limits but, with jerk, not proven the quickest: Bound tells how far from it it
// can be at most.
//
// Where every axis rests the pace is at most 1, so that a hold lasts as long as
// in the path's own seconds, but for what averaging takes off its ends.
func New(p Path, limits []Limit) (*Schedule, error) {
	if err := check(p, limits); err != nil {
		return nil, err
	}
	g, err := newGrid(p, limits, cells)
	if err != nil {
		return nil, err
	}
	z, err := g.fastest()
	if err != nil {
		return nil, err
	}
	s := smoother{path: p, limits: limits, holds: slices.Contains(g.still, true), at: make([]track.State, len(limits))}
	s.best.sec = math.Inf(1)
	bound := newProfile(g, z).seconds()
	for loose := 1.; loose <= easiest; loose *= easier {
		g.bounds()
		g.tighten(loose)
		if z, err = g.fastest(); err != nil {
			return nil, err
		}
		s.try(newProfile(g, z))
	}
	return s.schedule(bound), nil
}
