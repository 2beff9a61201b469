package ontime

import (
	"math"

	"seamrail/motion/base/fault"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// Prediction is what a controller is expected to make of a take: what came of
// running its lines on a model of the firmware.
type Prediction struct {
	Exact    bool    // a step player: each step on its tick, nothing to foretell
	Rounds   int64   // of the take
	Ran      int64   // of them that were run; the others are as late as the last of these
	Blocks   int     // lines a round
	Longest  float64 // s, the greatest duration of a block asked for
	Planned  float64 // s from the beginning of the run-up to the end of the run-out
	Executed float64
	// RoundPlanned and RoundExecuted are those of the last round that was run; s.
	RoundPlanned, RoundExecuted float64
	RoundLate                   float64 // s that each round is later than the one before
	Late                        float64 // s that the last round ends late; early is below 0
	begun                       float64 // s that frame 0 of the first round is late
	// Unsure is how much, in s, each round that rests may be late or early besides,
	// by what is not known of the controller or its host.
	Unsure float64
	// Within is what all rounds together are held to, s.
	Within float64
	// Treads is how many times a round it steps and stands, where the path is slower
	// than the controller.
	Treads int
	// Countable is how many rounds the controller can tell the steps of apart, of an
	// axis that goes round and round; 0 = any number.
	Countable int64
	Axes      []Deviation
	Assumed   []Assumption
	Faults    fault.List // why the controller cannot follow, and what would fit
}

// Deviation is how far an axis is from its path at the worst captured frame of
// the rounds that were run.
type Deviation struct {
	Axis    string
	Unit    string  // "mm" or "deg"
	Worst   float64 // mm or degrees, executed less planned
	Seconds float64 // real s from frame 0
	Frame   int64   // captured frames from frame 0
	Wanted  float64 // mm or degrees
}

// What is promised of a controller, and the bound at which it is said not to
// follow: all rounds together within a millisecond, each captured frame within
// what a close look shows, or within two steps of a coarse axis, since a path
// is no nearer to whole steps than half of one and its blocks meet on another.
const (
	PromisedLate     = 0.001 // s
	PromisedDistance = 0.05  // mm or degrees
	coarseSteps      = 2
)

// score is 1 where what is promised is just kept.
func (p Prediction) score() float64 { return max(p.lateness(), p.straying()) }

// lateness is what all rounds together are later, or earlier, than planned, as a
// share of what is promised. A late beginning shifts them all and is told as
// straying.
func (p Prediction) lateness() float64 {
	return max(math.Abs(p.Late-p.begun), math.Abs(p.Late))/p.Within + p.doubt()
}

// doubt is by how much of what is promised all rounds together may be late by what is
// not known.
func (p Prediction) doubt() float64 { return p.Unsure * float64(p.Rounds) / p.Within }

// drift is what rounds are later from one to the next, all together, as a share of
// what is promised: what is only late at the seam, at rest, is not in it.
func (p Prediction) drift() float64 {
	return math.Abs(p.RoundLate) * float64(p.Rounds) / p.Within
}

// straying is the worst of all axes as a share of what is promised.
func (p Prediction) straying() float64 {
	worst := 0.0
	for _, d := range p.Axes {
		worst = max(worst, math.Abs(d.Worst)/d.Wanted)
	}
	return worst
}

// Follows tells whether the controller is expected to keep what is promised.
func (p Prediction) Follows() bool { return p.Exact || p.score() <= 1 && !p.uncountable() }

func (p Prediction) uncountable() bool { return p.Countable > 0 && p.Rounds > p.Countable }

// over is what is foretold for so many rounds of those that were run.
func (p Prediction) over(rounds int64) Prediction {
	more := float64(rounds - p.Rounds)
	p.Rounds = rounds
	p.Planned += more * p.RoundPlanned
	p.Late += more * p.RoundLate
	p.Executed += more * (p.RoundPlanned + p.RoundLate)
	return p
}

// exactly is the prediction of a step player.
func exactly(t *trajectory.Trajectory, rounds int64) Prediction {
	all := t.TakeTime(rounds).Float()
	period := t.Period().Float()
	p := Prediction{Exact: true, Within: within(t), Rounds: rounds, Ran: rounds, Planned: all, Executed: all, RoundPlanned: period, RoundExecuted: period}
	for i := range t.AxisCount() {
		p.Axes = append(p.Axes, deviationOf(t.Axis(i)))
	}
	return p
}

func deviationOf(a rig.Axis) Deviation {
	return Deviation{Axis: a.Name, Unit: a.Unit(), Wanted: max(PromisedDistance, coarseSteps/a.StepsPerUnit.Float())}
}

// ideal is every axis at the captured frames of a round.
type ideal struct {
	sec []float64
	pos [][]float64
}

// maxIdeal bounds the frames of a round that are looked at: 50 s at 120 a
// second.
const maxIdeal = 6000

func idealOf(t *trajectory.Trajectory) *ideal {
	c := t.Captured()
	x := &ideal{}
	stride := max(1, (c+maxIdeal-1)/maxIdeal)
	clock := t.Clock()
	for k := int64(0); k < c; k += stride {
		sec := clock.FrameTime(k).Float()
		pos := make([]float64, t.AxisCount())
		for i := range pos {
			pos[i] = t.State(i, sec).Pos
		}
		x.sec, x.pos = append(x.sec, sec), append(x.pos, pos)
	}
	return x
}
