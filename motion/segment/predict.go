package segment

import (
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/fault"
	"seamrail/motion/lookahead"
	"seamrail/motion/rig"
	"seamrail/motion/trajectory"
)

// Prediction is what a controller is expected to make of a take.
type Prediction struct {
	Exact    bool    // a step player: each step on its tick, nothing to foretell
	Rounds   int64   // of the take
	Blocks   int     // lines a round
	Longest  float64 // s, the greatest duration of a block asked for
	Planned  float64 // s from the beginning of the run-up to the end of the run-out
	Executed float64
	// RoundPlanned and RoundExecuted are those of a round that follows on
	// another, or of the only one; s.
	RoundPlanned, RoundExecuted float64
	RoundLate                   float64 // s that each round is later than the one before
	Late                        float64 // s that the last round ends late; early is below 0
	begun                       float64 // s that frame 0 of the first round is late
	Starved                     float64 // s for which the controller has nothing to do in mid-take
	// RestsLate is what the rests of a round may add to it besides, s, where each
	// line waits for the answer to the one before: a dwell is answered when it
	// is over, and how soon the host sends the next is not known beforehand.
	RestsLate float64
	Axes      []Deviation
	Faults    fault.List // why the controller cannot follow, and what would fit
}

// Deviation is how far an axis is from its path at the worst captured frame of
// the rounds modelled.
type Deviation struct {
	Axis    string
	Unit    string  // "mm" or "deg"
	Worst   float64 // mm or degrees, executed less planned
	Seconds float64 // real s from frame 0
	Frame   int64   // captured frames from frame 0
	Wanted  float64 // mm or degrees
}

// What is wanted of a controller: all rounds within a millisecond, a frame within
// a step or what a close look shows.
const (
	wantedLate     = 0.001
	wantedDistance = 0.05 // mm or degrees
)

// tolerated is how many times what is wanted an axis may be off a frame before
// the controller is said not to follow: the picture is off its place by a hair
// then, the same hair in every round, while a round that is late shifts all
// that come after.
const tolerated = 3

// score is 1 where what is wanted is just reached.
func (p Prediction) score() float64 { return max(p.lateness(), p.straying()) }

// lateness is what all rounds together are later, or earlier, than planned, as a
// share of what is wanted. A late beginning shifts them all and is told as
// straying.
func (p Prediction) lateness() float64 {
	return math.Abs(p.RoundLate) * float64(p.Rounds) / wantedLate
}

// straying is the worst of all axes as a share of what is wanted.
func (p Prediction) straying() float64 {
	worst := 0.0
	for _, d := range p.Axes {
		worst = max(worst, math.Abs(d.Worst)/d.Wanted)
	}
	return worst
}

// Follows tells whether the controller is expected to be on time, and on the
// path within three times what is wanted.
func (p Prediction) Follows() bool {
	return p.Exact || p.lateness() <= 1 && p.straying() <= tolerated
}

// exactly is the prediction of a step player.
func exactly(t *trajectory.Trajectory, rounds int64) Prediction {
	k := t.Plan().Loop.Clock.FrameTime(t.Plan().RunUp + t.Plan().RunOut)
	all := k.Add(exact.Int(rounds).Mul(t.Period())).Float()
	period := t.Period().Float()
	p := Prediction{Exact: true, Rounds: rounds, Planned: all, Executed: all, RoundPlanned: period, RoundExecuted: period}
	for i := range t.AxisCount() {
		p.Axes = append(p.Axes, Deviation{Axis: t.Axis(i).Name, Unit: t.Axis(i).Unit(), Wanted: allowed(t.Axis(i))})
	}
	return p
}

func allowed(a rig.Axis) float64 { return max(wantedDistance, 1/a.StepsPerUnit.Float()) }

// ideal is every axis at the captured frames of a round.
type ideal struct {
	sec []float64
	pos [][]float64
}

// mostIdeal bounds the frames of a round that are looked at: 50 s at 120 a
// second.
const mostIdeal = 6000

func idealOf(t *trajectory.Trajectory) *ideal {
	c := t.Captured()
	x := &ideal{}
	stride := max(1, (c+mostIdeal-1)/mostIdeal)
	clock := t.Plan().Loop.Clock
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

// predict runs the script through the model.
func (m *machine) predict(s *script, rounds int64, x *ideal) Prediction {
	run := m.planner.Run(s.moves)
	n := len(s.rounds) - 1
	period := m.t.Period().Float()
	up := m.t.Plan().Loop.Clock.FrameTime(m.t.Plan().RunUp).Float()
	p := Prediction{Rounds: rounds, Blocks: s.rounds[1] - s.rounds[0], Starved: run.Starve, RoundPlanned: period}
	begin := beginOf(run)
	late := func(r int) float64 { return endOf(run, s.rounds[r]) - begin - up - float64(r)*period }
	p.begun = late(0)
	last := late(n)
	p.RoundLate = last - late(n-1)
	p.Late = last + float64(rounds-int64(n))*p.RoundLate
	p.RoundExecuted = period + p.RoundLate
	k := m.t.Plan().Loop.Clock.FrameTime(m.t.Plan().RunUp + m.t.Plan().RunOut)
	p.Planned = k.Add(exact.Int(rounds).Mul(m.t.Period())).Float()
	p.Executed = endOf(run, len(s.moves)) - begin + float64(rounds-int64(n))*(period+p.RoundLate)
	p.Axes = m.stray(s, run, x, n, begin+up)
	return p
}

// beginOf is when the motion begins: the camera does not count the wait for the
// first lines.
func beginOf(run *lookahead.Motion) float64 {
	if len(run.Pieces) == 0 {
		return 0
	}
	return run.Pieces[0].Start
}

// endOf is when the first moves have been run.
func endOf(run *lookahead.Motion, moves int) float64 {
	if moves == 0 {
		return 0
	}
	return run.Ends[moves-1]
}

// stray compares what is run with the path at each captured frame.
func (m *machine) stray(s *script, run *lookahead.Motion, x *ideal, rounds int, up float64) []Deviation {
	out := make([]Deviation, len(m.axes))
	at := make([]int64, len(m.axes)) // steps of each axis at the start of move k
	copy(at, s.rest)
	per, gain := make([]float64, len(m.axes)), make([]float64, len(m.axes))
	for i, a := range m.axes {
		out[i] = Deviation{Axis: a.Name, Unit: a.Unit(), Wanted: allowed(a)}
		per[i], gain[i] = a.StepsPerUnit.Float(), m.advance[i].Float()
	}
	cursor, k := run.Cursor(), 0
	period := m.t.Period().Float()
	capture := m.t.Plan().Loop.Clock.Capture.Float()
	for r := range rounds {
		for f, sec := range x.sec {
			sec += float64(r) * period
			move, share := cursor.At(sec + up)
			for ; k < move; k++ {
				for i, steps := range s.moves[k].Steps {
					at[i] += steps
				}
			}
			for i := range out {
				here := float64(at[i])
				if steps := s.moves[move].Steps; steps != nil {
					here += share * float64(steps[i])
				}
				e := here/per[i] - x.pos[f][i] - float64(r)*gain[i]
				if math.Abs(e) > math.Abs(out[i].Worst) {
					out[i].Worst, out[i].Seconds = e, sec
					out[i].Frame = int64(math.Round(sec * capture))
				}
			}
		}
	}
	return out
}
