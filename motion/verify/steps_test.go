package verify

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// TestEdgeOfACrossing: a step may be off by what its axis moves in a nanosecond, and
// by a thousandth; no more.
func TestEdgeOfACrossing(t *testing.T) {
	for _, x := range []struct {
		off, fastest float64
		ok           bool
	}{
		{0.00099, 0, true}, {0.001, 0, true}, {0.00102, 0, false},
		{0.0049, 4e6, true}, {0.0051, 4e6, false},
		{0.9, 4e6, false},
	} {
		w := stepWalk{positionOff: x.off, fastest: x.fastest}
		assert.Equal(t, x.ok, w.order(sound(), 0).OK, "%+v", x)
	}
}

// TestEdgeOfTheStepRate: two times written in nanoseconds may be one nearer than they
// are, and none two.
func TestEdgeOfTheStepRate(t *testing.T) {
	for _, x := range []struct {
		nanos float64
		limit float64
		ok    bool
	}{
		{25_000, 40_000, true}, {24_999.1, 40_000, true}, {24_999, 40_000, true}, {24_998, 40_000, false},
		{499.1, 2e6, true}, {498, 2e6, false},
		{0, 40_000, false}, {0, 0.9e9, false}, // two at once
	} {
		w := stepWalk{closest: x.nanos * 1e-9}
		assert.Equal(t, x.ok, w.rate(AxisSteps{}, x.limit).OK, "%+v", x)
	}
}

// TestOneRoundIsFollowed: the steps of one round close it; those of two would be twice
// its gain.
func TestOneRoundIsFollowed(t *testing.T) {
	a := roundsAsked{stepped{cosine: sound(), index: map[int64]int64{0: 3200, manyRounds: 3200}}, new([]int64)}
	checkSteps(context.Background(), a, []peaks{{}})
	assert.Equal(t, []int64{1}, *a.rounds)
}

// roundsAsked notes of how many rounds it is asked for the steps.
type roundsAsked struct {
	stepped
	rounds *[]int64
}

func (a roundsAsked) StepsAlong(rounds int64) func() (trace.Step, bool) {
	*a.rounds = append(*a.rounds, rounds)
	return a.stepped.StepsAlong(rounds)
}

// TestAStepIsHeldToItsOwnSide: going up to 3201 it crosses 3200.5, and going down from
// there as well. A step that is written a nanosecond outside of the round is held to the
// end of it, for nobody may ask where the motion is beyond.
func TestAStepIsHeldToItsOwnSide(t *testing.T) {
	for _, x := range []struct {
		nanos, to int64
		dir       int8
		off       float64 // steps
	}{
		{0, 3201, 1, 0.5}, {0, 3199, -1, 0.5}, {-1, 3201, 1, 0.5}, {2_000_000_001, 3201, 1, 0.5},
		// At 1 s the cosine is at 100 mm, 8000 steps.
		{1_000_000_000, 8001, 1, 0.5}, {1_000_000_000, 8003, 1, 2.5}, {1_000_000_000, 7998, -1, 1.5}, {1_000_000_000, 8001, -1, 1.5},
	} {
		w := stepWalk{index: x.to - int64(x.dir), scale: 80, period: 2}
		w.follow(within{sound()}, trace.Step{Nanos: x.nanos, Position: x.to, Dir: x.dir})
		assert.InDelta(t, x.off, w.positionOff, 1e-6, "%+v", x)
		assert.Empty(t, w.bad)
	}
}

// within is the cosine, far away from itself wherever nobody may ask.
type within struct{ cosine }

func (w within) Position(i int, sec float64) float64 {
	if sec < 0 || sec > 2 {
		return 1e9
	}
	return w.cosine.Position(i, sec)
}

// TestTheWorstStepCounts, and the closest two, wherever they are; what was wrong once
// stays so.
func TestTheWorstStepCounts(t *testing.T) {
	w := stepWalk{index: 8000, scale: 80, period: 2, closest: math.Inf(1)}
	const second = 1_000_000_000
	for _, s := range []trace.Step{
		{Nanos: second, Position: 8001, Dir: 1}, {Nanos: second + 300, Position: 8002, Dir: 1},
		{Nanos: second + 400, Position: 8001, Dir: -1}, {Nanos: second + 900, Position: 8000, Dir: -1},
	} {
		w.follow(sound(), s)
	}
	assert.InDelta(t, 1.5, w.positionOff, 1e-3)
	assert.InEpsilon(t, 100e-9, w.closest, 1e-9)
	assert.Equal(t, [2]int64{2, 2}, [2]int64{w.forward, w.backward})
	w.follow(sound(), trace.Step{Nanos: second + 2000, Position: 8002, Dir: 1})
	w.follow(sound(), trace.Step{Nanos: second + 3000, Position: 8003, Dir: 1})
	assert.Equal(t, "step to 8002 from 8000 at 1000002000 ns is not one step", w.bad)
	assert.InEpsilon(t, 100e-9, w.closest, 1e-9)
}

// TestRateOfTwoAtOnce is one a nanosecond, the grain of what is written, and that of one
// step alone is none.
func TestRateOfTwoAtOnce(t *testing.T) {
	at := func(steps ...trace.Step) AxisSteps {
		s := stepped{cosine: sound(), steps: steps, index: map[int64]int64{0: 3200, manyRounds: 3200}}
		all, _ := checkSteps(context.Background(), s, []peaks{{}})
		return all[0]
	}
	one, two := trace.Step{Nanos: 10, Position: 3201, Dir: 1}, trace.Step{Nanos: 10, Position: 3202, Dir: 1}
	assert.Zero(t, at(one).Rate)
	assert.InEpsilon(t, 1e9, at(one, two).Rate, 1e-9)
	two.Nanos = 25_010
	assert.InEpsilon(t, 40_000, at(one, two).Rate, 1e-9)
	assert.Equal(t, [2]int64{2, 0}, [2]int64{at(one, two).Forward, at(one, two).Backward})
}

// TestGainOfTheSteps: 60 mm a round of 80 steps each, and the third of a mm as exactly.
func TestGainOfTheSteps(t *testing.T) {
	for _, x := range []struct{ advance, steps exact.Rat }{
		{exact.Int(60), exact.Int(4800)}, {exact.New(-1, 3), exact.New(-80, 3)},
	} {
		c := sound()
		c.advance = x.advance
		all, _ := checkSteps(context.Background(), c, []peaks{{}})
		assert.Equal(t, x.steps.String(), all[0].Gain.String())
	}
}

// TestAGrainOfTheMotionsSpeed: what a step may be off follows from the peak of its own
// axis, in steps: half a step in a nanosecond is 6.25e6 mm/s at 80 steps each.
func TestAGrainOfTheMotionsSpeed(t *testing.T) {
	for _, x := range []struct {
		speed float64 // mm/s
		ok    bool
	}{{6.2e6, false}, {6.3e6, true}} {
		// At 1 s the rail is at 8000 steps, half a step from its crossing.
		s := stepped{cosine: sound(), index: map[int64]int64{0: 8000, manyRounds: 8000}}
		s.steps = []trace.Step{{Nanos: 1_000_000_000, Position: 8001, Dir: 1}}
		_, found := checkSteps(context.Background(), s, []peaks{{speed: x.speed}})
		assert.Equal(t, "step times", found[0].Check)
		assert.Equal(t, x.ok, found[0].OK, found[0].Text)
	}
}

// TestHowFarFromItsCrossing is said as it is, and no nearer than a thousand-millionth.
func TestHowFarFromItsCrossing(t *testing.T) {
	for off, says := range map[float64]string{
		0:      "5 steps in time order, each within 1e-09 step of its crossing",
		0.0005: "5 steps in time order, each within 0.0005 step of its crossing",
		0.25:   "a step is written 0.25 step away from its crossing",
	} {
		w := stepWalk{positionOff: off, forward: 3, backward: 2}
		assert.Equal(t, says, w.order(sound(), 0).Text)
	}
	w := stepWalk{bad: "it is bad"}
	assert.Equal(t, Finding{Axis: "rail", Check: "step times", Text: "it is bad"}, w.order(sound(), 0))
}

// TestWhatAThirdOfAStepLeaves: 3333 after ten thousand rounds are a third off, and that
// is said.
func TestWhatAThirdOfAStepLeaves(t *testing.T) {
	s := stepped{cosine: sound(), index: map[int64]int64{0: 3200, 10_000: 3200 + 3333}}
	assert.Equal(t, "after 10000 rounds 0.333 steps off", checkRounds(s, 0, exact.New(1, 3)).Text)
}
