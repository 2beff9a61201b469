package toppath

import (
	"math"

	"seamrail/motion/track"
)

const (
	// widths is how many averaging widths are tried, each a fixed share longer
	// than the one before, from narrow to wide shares of the least time.
	widths = 12
	narrow = 1. / 256
	wide   = 1. / 4
	// coarse samples a cell compare widths, fine ones fix the pace: at least so
	// many, and perRise in the time in which the quickest axis reaches its
	// acceleration, but no more than most, a twentieth of a second's work.
	coarse  = 2
	fine    = 16
	perRise = 64
	most    = 1 << 16
	// easier is what the pace is bounded to, times what jerk allows at an even
	// pace, in turn: a power of 4 doubles the pace.
	easiest, easier = 16, 4
	// between is the share of time that covers peaks between two fine samples.
	between = 1e-3
)

type smoother struct {
	path    Path
	limits  []Limit
	holds   bool // whether all rest anywhere
	profile *profile
	at      []track.State
	jerks   []float64 // of each sample
	best    candidate
}

// candidate is a profile averaged over a width, and about what it then takes.
type candidate struct {
	profile    *profile
	width, sec float64
}

// try tries all widths of a profile.
func (s *smoother) try(p *profile) {
	s.profile = p
	for i := range widths {
		w := p.seconds() * narrow * math.Pow(wide/narrow, float64(i)/(widths-1))
		if sec := s.natural(w) * s.slower(w, coarse*p.cells()); sec < s.best.sec {
			s.best = candidate{p, w, sec}
		}
	}
}

// schedule makes the best.
func (s *smoother) schedule(bound float64) *Schedule {
	s.profile = s.best.profile
	w := s.best.width
	return &Schedule{
		path: s.path, profile: s.profile, width: w, origin: s.origin(w), natural: s.natural(w),
		slower: s.closely(w, s.samples(s.best.sec)) * (1 + between),
		bound:  bound,
	}
}

// samples returns how many samples of sec seconds leave nothing between them.
func (s *smoother) samples(sec float64) int {
	rises := 0.
	for _, l := range s.limits {
		rises = max(rises, l.jerk()/l.Acc*sec)
	}
	return int(min(max(float64(fine*s.profile.cells()), perRise*rises), most))
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
