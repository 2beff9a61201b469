package toppath

import (
	"math"
	"slices"
)

// maxDirect bounds the cells of a pace that is looked for directly.
const maxDirect = 1024

// direct returns the schedule that the barrier finds along a closed path, slowed evenly
// until every limit is kept between the places at which it held them; the one that is
// given where it finds nothing quicker, or the path is open.
func (s *smoother) direct(given *Schedule) *Schedule {
	if !s.path.Closed() {
		return given
	}
	b := newBarrier(s.path, s.limits, min(s.profile.cells(), maxDirect))
	if !b.moves {
		return given
	}
	c := b.least()
	if c == nil {
		return given
	}
	out := &Schedule{path: s.path, curve: newSpline(c, b.h), slower: 1}
	out.natural = out.curve.total
	out.slower = max(1, s.along(out))
	if given.Seconds() <= out.Seconds() {
		out = given
	}
	out.bound = min(given.bound, s.whateverTheJerk(), out.Seconds())
	return out
}

// whateverTheJerk is the least time that the barrier finds without any limit of jerk,
// less what it ends short of the least by: that problem is convex, so that there is no
// other least.
func (s *smoother) whateverTheJerk() float64 {
	limits := slices.Clone(s.limits)
	for i := range limits {
		limits[i].Jerk = 0
	}
	b := newBarrier(s.path, limits, min(s.profile.cells(), maxDirect))
	c := b.least()
	if c == nil {
		return math.Inf(1)
	}
	return newSpline(c, b.h).total * (1 - gap)
}

// looksInCell is how often a cell is looked at for peaks between places.
const looksInCell = 16

// along returns by how much a schedule must be slowed to keep every limit, from a close
// look at each of its cells and at both sides of where the path's jerk jumps, and a
// closer one about those that ask for the most.
func (s *smoother) along(k *Schedule) float64 {
	var looks []asked
	look := func(t float64) { looks = append(looks, asked{t, s.asks(k, t)}) }
	for i, b := range k.curve.bends {
		end := k.curve.total
		if i+1 < len(k.curve.bends) {
			end = k.curve.bends[i+1].t
		}
		for n := range looksInCell + 1 {
			look(b.t + (end-b.t)*(inside+(1-2*inside)*float64(n)/looksInCell))
		}
	}
	cells := looks
	if own, ok := s.path.(breaker); ok {
		for _, b := range own.Breaks() {
			t := k.When(b)
			look(t - inside*k.natural)
			look(t + inside*k.natural)
		}
	}
	most := 0.
	for _, l := range looks {
		if most = max(most, l.slower); math.IsNaN(l.slower) {
			return math.Inf(1)
		}
	}
	return max(most*(1+between), s.closer(k, cells, nearlyMost*most)*(1+closest))
}

// asked is by how much one place of a schedule asks to go slower.
type asked struct{ t, slower float64 }

func (s *smoother) asks(k *Schedule, t float64) float64 {
	var p peaks
	s.lookAtPace(&p, k.At(t))
	return p.slower()
}

const (
	// nearlyMost is the share of what is asked for most from which on it is looked
	// closer: nothing rises by a hundredth of its time between two places of a cell.
	nearlyMost = 0.99
	// looksBetween is how many closer looks there are between two places.
	looksBetween = 16
	// closest is the share of time that covers peaks between these: a curve that
	// passes between two places by so much as between leaves a 256th of that.
	closest = between / (looksBetween * looksBetween)
)

// closer is what is asked for most between two places of which either asks for so much.
func (s *smoother) closer(k *Schedule, looks []asked, high float64) float64 {
	most := 0.
	for i := 1; i < len(looks); i++ {
		a, b := looks[i-1], looks[i]
		if a.slower < high && b.slower < high {
			continue
		}
		for n := 1; n < looksBetween; n++ {
			most = max(most, s.asks(k, a.t+(b.t-a.t)*float64(n)/looksBetween))
		}
	}
	return most
}

// breaker is a path that knows where its jerk may jump.
type breaker interface{ Breaks() []float64 }

// Breaks returns where the formula of any track changes.
func (l Loop) Breaks() []float64 {
	var out []float64
	for _, t := range l {
		out = append(out, t.Breaks()...)
	}
	return out
}
