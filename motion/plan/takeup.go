package plan

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
)

// PlayOver is how many times its play an axis goes beyond a place to come back to it: once
// takes it up where it is no more than stated, twice where it is worn.
const PlayOver = 2

// TakeUp is how an axis comes to a frame of a plan that is taken frame by frame.
type TakeUp struct {
	Side   int64 // +1 or -1: the way that it always comes; 0 = as it comes
	Beyond int64 // steps that it goes beyond a place to come back to it
}

// TakeUp is how axis i comes to the frames.
func (p *Plan) TakeUp(i int) TakeUp {
	c := p.course()
	t, _ := c.takeUp(c.axes[i])
	return t
}

// FrameSteps returns where axis i stands at frame n of a take frame by frame, in steps. Rounds
// are counted exactly, so that the steps of a loop sum to nothing, or to its turns.
func (p *Plan) FrameSteps(i int, n int64) int64 {
	return frameSteps(p.Loop.Clock.FrameTime, p.Loop.Captured, p.Axes[i], n)
}

func frameSteps(at func(int64) exact.Rat, captured int64, a Axis, n int64) int64 {
	gained := exact.Int(n / captured).Mul(a.Track.Advance()).Mul(a.Rig.StepsPerUnit)
	whole := gained.Floor()
	steps := a.Track.At(at(n%captured).Float()).Pos*a.Rig.StepsPerUnit.Float() + gained.Sub(whole).Float()
	return whole.Whole() + int64(math.Floor(steps+0.5))
}

// Beyond is how far, in units, an axis with play goes beyond a place to come back to it.
func Beyond(a rig.Axis) float64 {
	return exact.Int(StepsOf(a, PlayOver**a.Backlash)).Quo(a.StepsPerUnit).Float()
}

// StepsOf is a distance of an axis in steps, part steps up.
func StepsOf(a rig.Axis, units float64) int64 {
	return int64(math.Ceil(units * a.StepsPerUnit.Float()))
}

// takeUp is from which side an axis with play comes to the frames, and which ends of its
// travel it leaves for that. It is the side on which the axis goes on most, so that it
// goes back for the fewest frames, but where only the other keeps within the travel.
func (c course) takeUp(a Axis) (TakeUp, []limit) {
	play := a.Rig.Backlash
	if c.byFrame == nil || !c.byFrame.OneSide || play == nil || *play <= 0 {
		return TakeUp{}, nil
	}
	places, on, moves := c.places(a), int64(0), false
	for n, next := range places[1:] {
		moves = moves || next != places[n]
		on += sign(next - places[n])
	}
	if !moves {
		return TakeUp{}, nil
	}
	t := TakeUp{1, StepsOf(a.Rig, PlayOver**play)}
	if on < 0 {
		t.Side = -1
	}
	other := TakeUp{-t.Side, t.Beyond}
	ends, others := broken(c.beyond(a, t, places)), broken(c.beyond(a, other, places))
	if len(ends) > 0 && len(others) == 0 {
		return other, nil
	}
	return t, ends
}

func sign(d int64) int64 {
	switch {
	case d > 0:
		return 1
	case d < 0:
		return -1
	}
	return 0
}

// places are where an axis stands at the frames of a round and the first of the next, in steps.
func (c course) places(a Axis) []int64 {
	out := make([]int64, c.loop.Captured+1)
	for n := range out {
		out[n] = frameSteps(c.loop.Clock.FrameTime, c.loop.Captured, a, int64(n))
	}
	return out
}

// beyond are the ends of the travel against the furthest that an axis goes beyond its places.
func (c course) beyond(a Axis, t TakeUp, places []int64) []limit {
	lo, hi := track.Peak{Value: math.Inf(1)}, track.Peak{Value: math.Inf(-1)}
	for n, to := range places[1:] {
		if sign(to-places[n])*t.Side >= 0 {
			continue
		}
		over := exact.Int(to - t.Side*t.Beyond).Quo(a.Rig.StepsPerUnit).Float()
		at := track.Peak{Value: over, Time: c.loop.Clock.FrameTime(int64(n + 1)).Float()}
		if over < lo.Value {
			lo = at
		}
		if over > hi.Value {
			hi = at
		}
	}
	return travel(a, c.whole(lo, a, -1), c.whole(hi, a, 1))
}
