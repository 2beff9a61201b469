package retime

import (
	"math"

	"seamrail/motion/track"
)

const (
	// widths is how many averaging widths are tried, each a fixed share longer
	// than the one before, from narrow to wide shares of the least time.
	widths = 24
	narrow = 1. / 256
	wide   = 1. / 4
	// coarse samples compare widths, fine ones fix the pace.
	coarse = 2 * cells
	fine   = 16 * cells
	// between is the share by which a peak between two fine samples may be
	// greater than at either; four times as many samples find less.
	between = 5e-4
)

// New returns the schedule of a path under the limits of its axes.
//
// The least time without jerk is made smooth by averaging s over a width of
// time, which makes acceleration continuous and limits jerk to the jumps of
// acceleration over the width (for one axis on a straight line the result is the
// jerk-limited optimum wherever both limits are reached). The whole is then
// slowed evenly until every limit is kept. The same is done with the pace also
// bounded to what jerk allows where it is even, which is better where an axis
// comes to rest. Of both, and of several widths, the one that takes the least
// time is chosen. It is within the limits but, with jerk, not proven the
// quickest: Bound tells how far from it it can be at most.
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
	quickest := newProfile(g, z)
	best := newSmoother(p, limits, quickest).schedule()
	g.tighten()
	if z, err = g.fastest(); err != nil {
		return nil, err
	}
	if s := newSmoother(p, limits, newProfile(g, z)).schedule(); s.Seconds() < best.Seconds() {
		best = s
	}
	best.bound = quickest.seconds()
	return best, nil
}

type smoother struct {
	path    Path
	limits  []Limit
	profile *profile
	at      []track.State
}

func newSmoother(p Path, limits []Limit, f *profile) *smoother {
	return &smoother{p, limits, f, make([]track.State, len(limits))}
}

// schedule tries the widths.
func (s *smoother) schedule() *Schedule {
	least := s.profile.seconds()
	width, best := 0., math.Inf(1)
	for i := range widths {
		w := least * narrow * math.Pow(wide/narrow, float64(i)/(widths-1))
		if sec := s.natural(w) * s.slower(w, coarse); sec < best {
			width, best = w, sec
		}
	}
	return &Schedule{
		path: s.path, profile: s.profile, width: width, origin: s.origin(width),
		natural: s.natural(width),
		slower:  s.slower(width, fine) * (1 + between),
	}
}

// natural returns the duration of the profile averaged over w: averaging an open
// path starts earlier and ends later.
func (s *smoother) natural(w float64) float64 {
	if s.path.Closed() {
		return s.profile.seconds()
	}
	return s.profile.seconds() + w
}

// origin returns the time at which the averaged s is 0.
func (s *smoother) origin(w float64) float64 {
	low, high := -w/2, w/2
	if !s.path.Closed() {
		return low
	}
	for range 60 {
		mid := (low + high) / 2
		if s.profile.mean(mid, w).S < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// slower returns by how much the profile averaged over w must be slowed to keep
// every limit: speed goes with the inverse, acceleration with its square, jerk
// with its cube. It is at least 1 where a limit is reached, and less where
// averaging left room.
func (s *smoother) slower(w float64, samples int) float64 {
	var vel, acc, jerk float64
	step := s.natural(w) / float64(samples)
	for i := range samples {
		states(s.path, s.profile.mean(float64(i)*step-w/2, w), s.at)
		for k, l := range s.limits {
			vel = max(vel, math.Abs(s.at[k].Vel)/l.Speed)
			acc = max(acc, math.Abs(s.at[k].Acc)/l.Acc)
			if l.Jerk > 0 {
				jerk = max(jerk, math.Abs(s.at[k].Jerk)/l.Jerk)
			}
		}
	}
	return max(vel, math.Sqrt(acc), math.Cbrt(jerk))
}
