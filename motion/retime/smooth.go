package retime

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
	// coarse samples compare widths, fine ones fix the pace: at least so many,
	// and perRise in the time in which the quickest axis reaches its
	// acceleration, but no more than most, a twentieth of a second's work.
	coarse  = 2 * cells
	fine    = 16 * cells
	perRise = 64
	most    = 128 * cells
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
		if sec := s.natural(w) * s.slower(w, coarse); sec < s.best.sec {
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
		slower: s.slower(w, s.samples(s.best.sec)) * (1 + between),
		bound:  bound,
	}
}

// samples returns how many samples of sec seconds leave nothing between them.
func (s *smoother) samples(sec float64) int {
	rises := 0.
	for _, l := range s.limits {
		rises = max(rises, l.jerk()/l.Acc*sec)
	}
	return int(min(max(fine, perRise*rises), most))
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
// with its cube. It is less than 1 where averaging left room, but not on a path
// with holds, which keep their own seconds.
func (s *smoother) slower(w float64, samples int) float64 {
	var p peaks
	step := s.natural(w) / float64(samples)
	for i := range samples {
		s.look(&p, float64(i)*step-w/2, w)
	}
	if samples > coarse {
		s.lookAtJumps(&p, w)
	}
	slower := max(p.speed, math.Sqrt(p.acc), math.Cbrt(p.jerk))
	if s.holds {
		slower = max(1, slower)
	}
	return slower
}

// peaks are the greatest values so far, as shares of the limits.
type peaks struct{ speed, acc, jerk float64 }

func (s *smoother) look(p *peaks, t, w float64) {
	states(s.path, s.profile.mean(t, w), s.at)
	for k, l := range s.limits {
		p.speed = max(p.speed, math.Abs(s.at[k].Vel)/l.Speed)
		p.acc = max(p.acc, math.Abs(s.at[k].Acc)/l.Acc)
		if l.Jerk > 0 {
			p.jerk = max(p.jerk, math.Abs(s.at[k].Jerk)/l.Jerk)
		}
	}
}

// lookAtJumps looks at both sides of every instant at which jerk jumps: where an
// end of what is averaged passes from one cell to the next.
func (s *smoother) lookAtJumps(p *peaks, w float64) {
	aside := s.profile.seconds() * 1e-9
	for _, k := range s.profile.knots {
		for _, end := range [2]float64{-w / 2, w / 2} {
			s.look(p, k.t+end-aside, w)
			s.look(p, k.t+end+aside, w)
		}
	}
}
