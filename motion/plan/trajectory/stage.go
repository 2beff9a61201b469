package trajectory

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

// reversalMargin is the share of a step by which a turnaround must pass a
// step's threshold before the step is taken. Without it a turnaround that
// grazes a threshold would ask for two opposite pulses in no time; with it
// they are a millisecond apart at tabletop accelerations, and the carriage is
// never further than 33/64 of a step from where it should be, which no lens
// sees.
const reversalMargin = 1.0 / 64

const nanosPerSecond = 1e9

// curve is position, velocity and acceleration at a time; the same shape as
// track.Curve, so that ramps serve too.
type curve interface {
	At(sec float64) (pos, vel, acc float64)
}

// stage is a stretch of time in which one axis moves one way along one smooth
// curve.
type stage struct {
	curve    curve
	from, to float64 // s, in the curve's own time
	dir      int     // -1, 0, +1
	last     bool    // the stage ends in a turnaround, not in more of the same
}

// stagesOf cuts one round of an axis into stages, shared by all rounds.
func stagesOf(tr *track.Track) []stage {
	var out []stage
	breaks := tr.Breaks()
	for _, span := range tr.Spans() {
		for _, part := range split(span, breaks) {
			out = append(out, stage{curve: tr.Cursor(part), from: part.From, to: part.To, dir: part.Dir})
		}
	}
	markTurns(out)
	return out
}

// split cuts a span at the breaks inside it, so that each part is smooth.
func split(span track.Span, breaks []float64) []track.Span {
	var out []track.Span
	from := span.From
	for _, b := range breaks {
		if b > from && b < span.To {
			out = append(out, track.Span{From: from, To: b, Dir: span.Dir})
			from = b
		}
	}
	return append(out, track.Span{From: from, To: span.To, Dir: span.Dir})
}

// markTurns sets last on each moving stage after which the next moving stage,
// round the loop, goes the other way.
func markTurns(stages []stage) {
	for i := range stages {
		if d := stages[i].dir; d != 0 {
			stages[i].last = nextDir(stages, i) != d
		}
	}
}

func nextDir(stages []stage, i int) int {
	for n := 1; n <= len(stages); n++ {
		if d := stages[(i+n)%len(stages)].dir; d != 0 {
			return d
		}
	}
	return 0
}

// seamTurn is the turnaround that decides which step the axis stands on as it
// comes round to frame 0: the last one before it.
type seamTurn struct {
	kind int     // +1 far, -1 near, 0 none: the axis turns one way for ever
	pos  float64 // units, where it is
}

// lastTurn returns the last turnaround of a round.
func lastTurn(stages []stage) seamTurn {
	for i := len(stages) - 1; i >= 0; i-- {
		if s := stages[i]; s.last {
			pos, _, _ := s.curve.At(s.to)
			return seamTurn{s.dir, pos}
		}
	}
	return seamTurn{}
}

// index returns the step the axis stands on at position y, in steps, on its
// way from the turnaround, at turn steps. A turnaround that passed a threshold
// by less than the margin did not take it, and neither may the way back.
func (t seamTurn) index(y, turn float64) int64 {
	switch {
	case t.kind > 0:
		return min(settle(turn, t.kind), settle(y, 0))
	case t.kind < 0:
		return max(settle(turn, t.kind), settle(y, 0))
	}
	return settle(y, 0)
}

// settle returns the step index at position y, in steps, for a turnaround of
// the given kind. Away from turnarounds it is the rounded position.
func settle(y float64, kind int) int64 {
	switch {
	case kind > 0:
		return int64(math.Ceil(y - 0.5 - reversalMargin))
	case kind < 0:
		return int64(math.Floor(y + 0.5 + reversalMargin))
	}
	return int64(math.Floor(y + 0.5))
}

// origin is an exact amount split into the whole part, kept as an integer, and
// the rest, small enough for a float to hold to the last digit that matters.
type origin struct {
	whole int64
	rest  float64
}

func originOf(r exact.Rat) origin {
	floor := r.Floor()
	return origin{floor.Whole(), r.Sub(floor).Float()}
}

// rampCurve lets a ramp be solved like a track.
type rampCurve struct {
	at func(sec float64) track.State
}

func (c rampCurve) At(sec float64) (pos, vel, acc float64) {
	s := c.at(sec)
	return s.Pos, s.Vel, s.Acc
}
