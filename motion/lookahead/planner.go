// Package lookahead foretells what a controller that plans ahead makes of the
// straight moves it is told.
//
// Such a controller runs each move as a trapezoid of speed: it gathers speed at
// its acceleration setting up to the nominal speed it was told, and slows down
// in time for the next move. It knows no more moves than its ring holds and is
// never faster than it can stop within them. The planning is the textbook one
// of open firmware: greatest speeds at the junctions of moves, a pass over the
// ring from its end, a profile for the move in hand.
package lookahead

import (
	"math"

	"seamrail/motion/rig"
	"seamrail/motion/word"
)

// Axis is one axis as the controller's planner knows it.
type Axis struct {
	Acceleration float64 // units/s2
	Speed        float64 // units/s
	Weight       float64 // mm that a unit counts as along the path
	StepsPerUnit float64
}

// Planner is a controller that plans ahead.
type Planner struct {
	Axes      []Axis
	Blocks    int     // places of its ring, of which one stays empty
	Deviation float64 // mm by which a corner is rounded at speed
	Slowest   float64 // steps/s of the busiest axis it does not go below; 0 = none
	// Pace is how much longer than told a stretch takes at so many steps/s of
	// the busiest axis: 0.001 is a thousandth. Nil means not at all.
	Pace func(rate float64) float64
	Link Link
}

// What a rig file that is silent means: what its decoder fills in.
const (
	defaultBlocks    = 16
	defaultDeviation = 0.01 // mm
)

// Of returns the planner of a rig's controller for the given axes.
func Of(c rig.Controller, axes []rig.Axis) Planner {
	p := Planner{Blocks: c.Blocks, Deviation: c.JunctionDeviation, Slowest: c.SlowestStepRate, Link: linkOf(c)}
	if p.Blocks <= 0 {
		p.Blocks = defaultBlocks
	}
	if p.Deviation <= 0 {
		p.Deviation = defaultDeviation
	}
	if e := c.RateError; e != 0 {
		p.Pace = func(float64) float64 { return e }
	}
	for _, a := range axes {
		p.Axes = append(p.Axes, axisOf(c, a))
	}
	return p
}

func axisOf(c rig.Controller, a rig.Axis) Axis {
	out := Axis{a.Settings.Acceleration, a.Settings.Speed, word.Weight(c, a), a.StepsPerUnit.Float()}
	if out.Acceleration <= 0 {
		out.Acceleration = a.MaxAcc
	}
	if out.Speed <= 0 {
		out.Speed = a.MaxSpeed
	}
	return out
}

// along returns the greatest value along direction dir, in mm, that keeps each
// axis below its own, given by limit in its unit.
func (p *Planner) along(dir []float64, limit func(Axis) float64) float64 {
	most := math.Inf(1)
	for i, share := range dir {
		if share != 0 {
			a := p.Axes[i]
			most = min(most, limit(a)*a.Weight/math.Abs(share))
		}
	}
	return most
}

func acceleration(a Axis) float64 { return a.Acceleration }

func speed(a Axis) float64 { return a.Speed }
