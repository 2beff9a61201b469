package pace

import (
	"math"

	"seamrail/motion/footage/against"
)

// fine is how many places of a frame are kept of a plan. Between them it goes by cubics, which
// miss a move of twelve frames by less than a ten-thousandth of it.
const fine = 8

// track is a plan as a table, each axis as a share of its travel.
type track struct {
	against.Plan
	rate        float64
	first, last float64 // planned frames at which it begins and ends
	moving      []axis
}

// axis is one that moves.
type axis struct {
	name    string
	turning bool
	travel  float64 // mm or degrees
	likely  *against.Gain
	gained  float64 // what a round takes it on by, as a share of the travel
	round   float64 // how much of its travel it goes through in the first round, as a share
	table   []float64
}

// stands is how little of its travel an axis that stands may go in a frame: a plan stands exactly,
// but for how numbers are rounded.
const stands = 1e-8

func newTrack(p against.Plan) track {
	t := track{Plan: p, rate: p.CaptureRate.Float(), first: -float64(p.RunUp), last: float64(p.Loop*int64(p.Rounds) + p.RunOut)}
	for _, a := range p.Axes {
		m := axis{name: a.Name, turning: a.Turning, likely: a.Likely}
		if a.Gain != nil {
			m.likely = a.Gain
		}
		n := int(t.last-t.first)*fine + 1
		lo, hi := math.Inf(1), math.Inf(-1)
		for k := range n {
			x := a.Shown((t.first + float64(k)/fine) / t.rate)
			m.table = append(m.table, x)
			lo, hi = min(lo, x), max(hi, x)
		}
		if m.travel = hi - lo; !(m.travel > stands*max(1, math.Abs(lo))) {
			continue
		}
		for k := range m.table {
			m.table[k] = (m.table[k] - lo) / m.travel
		}
		m.gained, m.round = t.gained(m), t.reach(m)
		t.moving = append(t.moving, m)
	}
	return t
}

// gained is how far on an axis is a round later. The last round may end in another way.
func (t track) gained(a axis) float64 {
	if t.Rounds > 1 {
		return t.at(a, float64(t.Loop)) - t.at(a, 0)
	}
	return t.at(a, float64(t.Loop)-1.0/fine) - t.at(a, 0)
}

// reach is from where to where an axis goes in the first round.
func (t track) reach(a axis) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for x := 0.0; x <= float64(t.Loop); x += 1.0 / fine {
		v := t.at(a, x)
		lo, hi = min(lo, v), max(hi, v)
	}
	return hi - lo
}

// at is where an axis is at a planned frame, whole or not; outside of the take it stands.
func (t track) at(a axis, frame float64) float64 {
	x := (min(max(frame, t.first), t.last) - t.first) * fine
	k := min(int(x), len(a.table)-2)
	u := x - float64(k)
	p0, p1 := a.table[max(k-1, 0)], a.table[k]
	p2, p3 := a.table[k+1], a.table[min(k+2, len(a.table)-1)]
	// The cubic through two values with the slopes of their neighbours.
	return p1 + u/2*(p2-p0+u*(2*p0-5*p1+4*p2-p3+u*(3*(p1-p2)+p3-p0)))
}

// rests tells whether no axis goes anywhere from one planned frame to another.
func (t track) rests(from, to float64) bool {
	for _, a := range t.moving {
		for x := from; x < to; x += 1.0 / fine {
			if math.Abs(t.at(a, min(x+1.0/fine, to))-t.at(a, x)) > stands {
				return false
			}
		}
	}
	return true
}

// edge is where rest ends or begins.
type edge struct {
	frame float64 // planned
	sets  bool    // it sets out; else it comes to rest
}

// leastRest is how long a rest must be to have edges, in frames: what stands for less is a turn.
const leastRest = 2

// edges are those of the whole take: all axes rest on one side. The take begins and ends at rest.
func (t track) edges() (out []edge) {
	from, resting := math.Inf(-1), true
	for k := range int(t.last-t.first) * fine {
		x := t.first + float64(k)/fine
		still := t.rests(x, x+1.0/fine)
		switch {
		case resting && !still && x-from >= leastRest:
			if !math.IsInf(from, -1) {
				out = append(out, edge{from, false})
			}
			out = append(out, edge{x, true})
			resting = false
		case still && !resting:
			from, resting = x, true
		case resting && !still:
			resting = false
		}
	}
	if !resting {
		from = t.last
	}
	return append(out, edge{from, false})
}
