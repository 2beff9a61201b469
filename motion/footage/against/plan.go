package against

import (
	"errors"
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

// Plan is what a take was to do.
type Plan struct {
	CaptureRate   exact.Rat // frames a second
	Loop          int64     // captured frames of a round
	Rounds        int       // at least 1
	RunUp, RunOut int64     // captured frames before frame 0 and after the last round
	Axes          []Axis
	// PerScreen is how many captured frames one frame of the timeline uses, on which the shot is
	// delivered: 5 where every fifth is shown, 1/2 where each is shown twice. 0 where nobody knows.
	PerScreen exact.Rat
	// PxPerMM is the picture's scale where the product stands; 0 where nobody knows it.
	PxPerMM float64
	// PxShare is by what share PxPerMM may be out: its standard uncertainty.
	PxShare float64
	// Bends says that the picture may move more in one place than in another, as it does where
	// the product comes nearer: squares and products of positions are fitted too.
	Bends bool
}

// Axis is one axis of a plan.
type Axis struct {
	Name    string
	Turning bool // it goes in degrees, else in mm
	// At is where it is, mm or degrees, so many real seconds after frame 0; below 0 in the
	// run-up. It is asked for nothing outside of run-up and run-out: there the axis stands.
	At func(seconds float64) float64
	// Seen is the same in the measure that the picture moves in, where that is known to be another,
	// such as a tangent or a logarithm of distances: with a slope of 1 where the scale of Gain and
	// PxPerMM is meant. nil where nobody knows. All that is told in mm or degrees is told by it.
	Seen func(seconds float64) float64
	// Across says that it moves the product across the view, so that its size in the picture is
	// that of PxPerMM.
	Across bool
	// Gain is how it shows in the picture; nil where nobody knows.
	Gain *Gain
}

// Gain is how the picture moves for each mm or degree of an axis.
type Gain struct {
	X, Y  float64 // px to the right and down
	Turn  float64 // degrees, clockwise as it is seen
	Scale float64 // the logarithm of how much it grows
	Share float64 // by what share it may be out: the standard uncertainty
}

// maxRounds bounds what a plan asks for: a night of loops of a second.
const maxRounds = 100_000

// Check tells what is wrong with a plan.
func (p Plan) Check() error {
	switch {
	case p.CaptureRate.Sign() <= 0:
		return fmt.Errorf("a capture rate of %s frames a second; it must be above 0", p.CaptureRate.Decimal(3))
	case p.Loop < 1 || p.Loop > clock.MaxFrames:
		return fmt.Errorf("a loop of %d captured frames; it must have from 1 to %d", p.Loop, clock.MaxFrames)
	case p.Rounds < 1 || p.Rounds > maxRounds || p.RunUp < 0 || p.RunOut < 0 || p.frames() > clock.MaxFrames:
		return fmt.Errorf("%d rounds with a run-up of %d and a run-out of %d frames; a take has a round or more, and from 1 to %d frames", p.Rounds, p.RunUp, p.RunOut, clock.MaxFrames)
	case len(p.Axes) == 0:
		return errors.New("the plan has no axis; with nothing that moves there is nothing to lay a take over")
	case !(p.PxPerMM >= 0) || math.IsInf(p.PxPerMM, 0) || !(p.PxShare >= 0):
		return fmt.Errorf("%g px a mm, known to a share of %g; neither may be below 0", p.PxPerMM, p.PxShare)
	}
	for _, a := range p.Axes {
		if a.At == nil {
			return fmt.Errorf("axis %s has no motion; it wants where it is at each time", a.Name)
		}
	}
	return nil
}

// frames are those of a take, run-up and run-out with it.
func (p Plan) frames() int64 { return p.RunUp + p.end() + p.RunOut }

// end is the planned frame at which the last round ends.
func (p Plan) end() int64 { return p.Loop * int64(p.Rounds) }

// track is a plan in planned frames.
type track struct {
	Plan
	rate        float64
	first, last float64   // planned frames at which it begins and ends
	travel      []float64 // of each term
	middle      []float64 // of each axis
	products    [][2]int  // the terms after the axes: which two they are the product of
}

func newTrack(p Plan) track {
	t := track{Plan: p, rate: p.CaptureRate.Float(), first: -float64(p.RunUp), last: float64(p.end() + p.RunOut)}
	for a := range p.Axes {
		lo, hi := t.reach(a)
		t.travel, t.middle = append(t.travel, hi-lo), append(t.middle, (lo+hi)/2)
	}
	for a := range p.Axes {
		for b := range a + 1 {
			if p.Bends && t.travel[a] > 0 && t.travel[b] > 0 {
				t.products = append(t.products, [2]int{a, b})
			}
		}
	}
	for k := range t.products {
		lo, hi := t.reach(len(p.Axes) + k)
		t.travel = append(t.travel, hi-lo)
	}
	return t
}

// reach is the least and the greatest of a term over the take.
func (t track) reach(term int) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for k := t.first; k <= t.last; k++ {
		x := t.at(term, k)
		lo, hi = min(lo, x), max(hi, x)
	}
	return lo, hi
}

// terms are what the picture moves in proportion to: axes, and products of them.
func (t track) terms() int { return len(t.Axes) + len(t.products) }

// at is where a term is at a planned frame, whole or not; outside of the take it stands.
func (t track) at(term int, frame float64) float64 {
	sec := min(max(frame, t.first), t.last) / t.rate
	if term < len(t.Axes) {
		return t.Axes[term].Shown(sec)
	}
	p := t.products[term-len(t.Axes)]
	x, y := t.Axes[p[0]].Shown(sec)-t.middle[p[0]], t.Axes[p[1]].Shown(sec)-t.middle[p[1]]
	return x * y / t.travel[p[0]] // of the size of a position
}

// beside is half of what a speed is taken over, in frames: short beside any move, and long
// beside what numbers are rounded to.
const beside = 1.0 / 16

// speed is that of a term, units a frame.
func (t track) speed(term int, frame float64) float64 {
	return (t.at(term, frame+beside) - t.at(term, frame-beside)) / (2 * beside)
}

// Shown is where it is as the picture shows it: Seen, or At where nobody knows that.
func (a Axis) Shown(seconds float64) float64 {
	if a.Seen != nil {
		return a.Seen(seconds)
	}
	return a.At(seconds)
}

// unit is what an axis goes in.
func (a Axis) unit() string {
	if a.Turning {
		return "degrees"
	}
	return "mm"
}
