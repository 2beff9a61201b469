package toppath

import "math"

// peaks are the greatest values so far, as shares of the limits.
type peaks struct{ speed, acc, jerk float64 }

// slower is by how much all must be slowed to bring the peaks down to 1: speed
// goes with the inverse, acceleration with its square, jerk with its cube.
func (p peaks) slower() float64 { return max(p.speed, math.Sqrt(p.acc), math.Cbrt(p.jerk)) }

// slower returns by how much the profile averaged over w must be slowed to keep
// every limit, as far as even samples tell.
func (s *smoother) slower(w float64, samples int) float64 {
	var p peaks
	s.lookAll(&p, w, samples)
	return s.enough(p)
}

// closely is slower with a closer look where peaks fall between samples.
func (s *smoother) closely(w float64, samples int) float64 {
	var p peaks
	step := s.lookAll(&p, w, samples)
	s.lookBetween(&p, step, w)
	s.lookAtJumps(&p, w)
	return s.enough(p)
}

// enough is less than 1 where averaging left room, but not on a path with holds,
// which keep their own seconds.
func (s *smoother) enough(p peaks) float64 {
	if s.holds {
		return max(1, p.slower())
	}
	return p.slower()
}

// lookAll looks at even samples, keeps the jerk of each, and returns the time
// between them.
func (s *smoother) lookAll(p *peaks, w float64, samples int) float64 {
	step := s.natural(w) / float64(samples)
	s.jerks = s.jerks[:0]
	for i := range samples {
		s.jerks = append(s.jerks, s.look(p, float64(i)*step-w/2, w))
	}
	return step
}

// look takes in the peaks at t, and returns that of jerk there.
func (s *smoother) look(p *peaks, t, w float64) float64 {
	return s.lookAtPace(p, s.profile.mean(t, w))
}

// lookAtPace takes in the peaks at a pace, and returns that of jerk there.
func (s *smoother) lookAtPace(p *peaks, pace PathState) float64 {
	states(s.path, pace, s.at)
	jerk := 0.
	for k, l := range s.limits {
		p.speed = max(p.speed, math.Abs(s.at[k].Vel)/l.Speed)
		p.acc = max(p.acc, math.Abs(s.at[k].Acc)/l.Acc)
		if l.Jerk > 0 {
			jerk = max(jerk, math.Abs(s.at[k].Jerk)/l.Jerk)
		}
	}
	p.jerk = max(p.jerk, jerk)
	return jerk
}

// lookBetween looks more closely at both sides of each sample in which jerk is
// greatest for its neighbours, and nearly so for all: the path's own jerk may
// jump at its keys.
func (s *smoother) lookBetween(p *peaks, step, w float64) {
	const (
		nearly = 0.9
		parts  = 8
	)
	high, n := nearly*p.jerk, len(s.jerks)
	for i, jerk := range s.jerks {
		if jerk < high || jerk < s.jerks[(i+n-1)%n] || jerk < s.jerks[(i+1)%n] {
			continue
		}
		for k := 1 - parts; k < parts; k++ {
			s.look(p, (float64(i)+float64(k)/parts)*step-w/2, w)
		}
	}
}

// lookAtJumps looks at both sides of every instant at which the jerk of the pace
// jumps: where an end of what is averaged passes from one cell to the next.
func (s *smoother) lookAtJumps(p *peaks, w float64) {
	aside := s.profile.seconds() * 1e-9
	for _, k := range s.profile.knots {
		for _, end := range [2]float64{-w / 2, w / 2} {
			s.look(p, k.t+end-aside, w)
			s.look(p, k.t+end+aside, w)
		}
	}
}
