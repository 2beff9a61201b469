package drive

import (
	"math"
	"slices"
	"time"

	"seamrail/motion/base/root"
)

// Sighting is where the axes were at one instant, and where the plan has them then. The
// instant is the one, of those that a report may be of, at which the plan is nearest.
type Sighting struct {
	Round    int64     // from 0; -1 in the run-up
	Frame    float64   // captured, within the round, with what has gone by of it
	Back     bool      // on the way back of a loop that is cut
	Reported bool      // At is what the controller says, not the plan
	At, Plan []float64 // mm or degrees
	Off      []float64 // by how much At is off the plan; nil in ramps, of which nothing is promised
	InRound  []float64 // At, without what the rounds before have turned an axis on by
}

const (
	// sightCuts and sightApart are how finely the instant is looked for: to a hundredth of
	// a millisecond, in which nothing here moves a step.
	sightCuts  = 40
	sightApart = 1e-5
	// nearBy is what an instant away from the middle of all weighs, in tolerances of rest a
	// second: of two at which the plan is as near, the nearer one is meant.
	nearBy = 1
)

// sees notes a report of where the axes were at some time between two, in s from frame 0.
func (p *pass) sees(at []float64, from, to float64) {
	sec := p.nearest(at, from, to)
	p.sighted = p.sighting(sec)
	p.sighted.Reported, p.sighted.At = true, slices.Clone(at)
	p.sighted.InRound = p.inRound(at, p.sighted.Round)
	if p.filmed(from, to) {
		p.sighted.Off = minus(at, p.sighted.Plan)
	}
}

// sighting is where the plan has the axes at an instant, in s from frame 0.
func (p *pass) sighting(sec float64) Sighting {
	round, in := p.within(sec)
	t := p.Trajectory
	s := Sighting{Round: round, Frame: in * t.Clock().Capture.Float(), Plan: make([]float64, len(p.axes))}
	s.Back = t.RoundFrames() > t.Captured() && s.Frame >= float64(t.Captured())
	for i := range p.axes {
		s.Plan[i] = p.planAt(i, p.ofRounds(), sec)
	}
	s.At = s.Plan
	s.InRound = p.inRound(s.At, round)
	return s
}

// within is the round of an instant, and how many s of it have gone by.
func (p *pass) within(sec float64) (round int64, in float64) {
	if sec < 0 {
		return -1, 0
	}
	round = int64(sec / p.period)
	if p.total > 0 {
		round = min(round, p.total-1)
	}
	return round, min(max(sec-float64(round)*p.period, 0), p.period)
}

// inRound are places without what the rounds before have turned the axes on by.
func (e *engine) inRound(at []float64, round int64) []float64 {
	out := slices.Clone(at)
	for i := range out {
		out[i] -= float64(max(round, 0)) * e.Trajectory.Advance(i).Float()
	}
	return out
}

// nearest is the instant between two, in s from frame 0, at which the plan is nearest to
// where the axes were.
func (p *pass) nearest(at []float64, from, to float64) float64 {
	middle := (from + to) / 2
	near := func(sec float64) float64 { // greatest where it is nearest
		sum := math.Pow(nearBy*(sec-middle), 2)
		for i, x := range at {
			sum += math.Pow((x-p.planAt(i, p.ofRounds(), sec))/p.mayRest(i), 2)
		}
		return -sum
	}
	n := min(max(looks, int((to-from)/lookEvery)), maxLooks)
	step := (to - from) / float64(n-1)
	best, most := from, math.Inf(-1)
	for k := range n {
		if sec := from + step*float64(k); near(sec) > most {
			best, most = sec, near(sec)
		}
	}
	return root.Golden(max(best-step, from), min(best+step, to), sightCuts, sightApart, near)
}

// open is between which times a report is of that was asked for at one instant and came
// now, in s from frame 0. While a hold is slowed down to, and after it, nobody knows by how
// much the motion went on meanwhile, or fell behind.
func (p *pass) open(asked time.Time) (from, to float64) {
	to = p.sec()
	if !p.pausedAt.IsZero() {
		from = to - max(p.pausedAt.Sub(asked).Seconds(), 0)
		return from, max(to+p.m.slowing().Seconds(), p.drains())
	}
	loose := 0.0
	if p.holds > 0 {
		loose = float64(p.holds) * p.m.slowing().Seconds()
	}
	return to - p.now.Sub(asked).Seconds() - loose, to + loose
}

// drains is up to when, in s from frame 0, a controller moves on that cannot be held.
func (p *pass) drains() float64 {
	if p.controller.Kind.PlaysSteps() || p.controller.Hold != 0 {
		return p.sec()
	}
	return p.until
}

// sighting is where the axes stand between the frame that was come to last and the next one.
func (b *byFrame) sighting() Sighting {
	at, told := b.m.position()
	if !told {
		at = b.at
	}
	from, to := b.s.Places(b.on), b.s.Places(min(b.on+1, b.s.Frames()-1))
	share, most := 0.0, 0.0
	for i := range at {
		if way := math.Abs(to[i] - from[i]); way > most {
			most, share = way, min(max((at[i]-from[i])/(to[i]-from[i]), 0), 1)
		}
	}
	plan := slices.Clone(from)
	for i := range plan {
		plan[i] += share * (to[i] - from[i])
	}
	c := b.Trajectory.Captured()
	s := Sighting{Round: b.on / c, Frame: float64(b.on%c) + share, Reported: told, At: slices.Clone(at), Plan: plan, Off: minus(at, plan)}
	s.InRound = b.inRound(s.At, s.Round)
	return s
}
