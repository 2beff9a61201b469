package verify

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// asked counts how often a motion is asked for a place.
type asked struct {
	cosine
	times *int
}

func (a asked) Position(i int, sec float64) float64 {
	*a.times++
	return a.cosine.Position(i, sec)
}

// TestHowOftenAMotionIsLookedAt: sixteen times a frame, 4096 times a loop at the least
// and 400 000 at the most, and a few times beyond the seam, which differences need.
// Seldomer would miss a peak, oftener would take an hour over a long loop.
func TestHowOftenAMotionIsLookedAt(t *testing.T) {
	for _, x := range []struct{ frames, want int64 }{
		{1, 4096}, {256, 4096}, {300, 4800}, {25_000, 400_000}, {1_000_000, 400_000},
	} {
		a := asked{sound(), new(int)}
		a.frames = x.frames
		measure(context.Background(), a, 0)
		assert.GreaterOrEqual(t, *a.times, int(x.want)+3, "%d frames", x.frames)
		assert.LessOrEqual(t, *a.times, int(x.want)+4, "%d frames", x.frames)
	}
}

// winding is a table that turns evenly, so many degrees a round of 2 s from where it
// starts, for ever.
type winding struct {
	cosine
	start, gain float64
}

func (w winding) Advance(int) exact.Rat { return exact.FromFloat(w.gain) }
func (w winding) Position(_ int, sec float64) float64 {
	return w.start + w.gain*sec/2
}

func turned(start, gain float64) winding {
	w := winding{cosine: sound(), start: start, gain: gain}
	w.axis.Rotary, w.axis.Endless = true, true
	w.axis.MaxSpeed, w.axis.MaxAcc, w.axis.MaxJerk = math.Abs(gain)/2, 1e-3, 1
	return w
}

// TestATurnGoesOnOverTheSeam: what is looked at beyond the seam is the next round, so
// that an even turn has its own speed there and no acceleration, either way round.
func TestATurnGoesOnOverTheSeam(t *testing.T) {
	for _, gain := range []float64{180, -180, 7.5} {
		w := turned(20, gain)
		for _, f := range checkLimits(w, 0, measure(context.Background(), w, 0)) {
			assert.True(t, f.OK, "%g deg a round: %s %s", gain, f.Check, f.Text)
		}
		w.axis.MaxSpeed *= 1 - 1e-5
		f := checkLimits(w, 0, measure(context.Background(), w, 0))[1]
		assert.False(t, f.OK, "%s: it is a hundred-thousandth too fast", f.Text)
	}
}

// TestTravelOfATurnEitherWay: from 20 degrees three rounds of 60 reach 200, and three
// of -60 reach -160.
func TestTravelOfATurnEitherWay(t *testing.T) {
	for _, x := range []struct {
		gain, lo, hi float64
		says         string
	}{
		{60, 0, 200, "from 20 deg to 200 deg within 0 deg to 200 deg"},
		{60, 0, 199.9, "from 20 deg to 200 deg leaves the travel 0 deg to 199.9 deg"},
		{60, 20.1, 200, "from 20 deg to 200 deg leaves the travel 20.1 deg to 200 deg"},
		{-60, -160, 20, "from -160 deg to 20 deg within -160 deg to 20 deg"},
		{-60, -159.9, 30, "from -160 deg to 20 deg leaves the travel -159.9 deg to 30 deg"},
		{-60, -170, 19.9, "from -160 deg to 20 deg leaves the travel -170 deg to 19.9 deg"},
	} {
		w := turned(20, x.gain)
		w.axis.Endless, w.axis.Min, w.axis.Max = false, x.lo, x.hi
		assert.Equal(t, x.says, checkLimits(w, 0, measure(context.Background(), w, 0))[0].Text)
	}
	w := turned(20, 60)
	assert.Equal(t, "from 20 deg to 200 deg, endless", checkLimits(w, 0, measure(context.Background(), w, 0))[0].Text)
}

// TestEdgeOfTheTravel: a millionth of the travel is rounding at either end, and three
// are not. The travel is 80 mm of a rail that is told from 20 to 100.
func TestEdgeOfTheTravel(t *testing.T) {
	a := sound().axis
	a.Min, a.Max = 20, 100
	for _, x := range []struct {
		lo, hi float64
		ok     bool
	}{
		{20, 100, true}, {20 - 79e-6, 100, true}, {20 - 81e-6, 100, false},
		{20, 100 + 79e-6, true}, {20, 100 + 81e-6, false}, {20 - 81e-6, 100 + 81e-6, false},
	} {
		assert.Equal(t, x.ok, checkTravel(a, peaks{lo: x.lo, hi: x.hi}, 0).OK, "%v", x)
	}
}

// TestRoundingIsNoBreach: what rounding alone may add is no more than a limit lets
// pass, and what is more than that and a millionth is.
func TestRoundingIsNoBreach(t *testing.T) {
	for _, x := range []struct {
		value, noise float64
		ok           bool
	}{
		{100, 0, true}, {100.00009, 0, true}, {100.00011, 0, false},
		{100.9, 1, true}, {101.0002, 1, false}, {99.5, 1, true},
	} {
		assert.Equal(t, x.ok, checkPeak(sound().axis, "speed", x.value, 100, x.noise, dims(sound().axis)[1]).OK, "%v", x)
	}
}

// rough is a motion at one speed whose places are as rough as those of a table that has
// come far, each rounded to a float64 of that size.
type rough struct {
	winding
	far float64
}

func (r rough) Position(i int, sec float64) float64 { return r.far + r.winding.Position(i, sec) }

// TestFarFromNothingIsNoFaster: a table that counts from a million degrees away has the
// speed, acceleration and jerk that it has at home, which is none of the last two. A
// loop of 2 s is looked at every half millisecond, and a place of a million degrees is
// rounded to a ten-thousand-millionth: half a degree/s3 is what that makes of jerk.
func TestFarFromNothingIsNoFaster(t *testing.T) {
	for _, far := range []float64{0, 1e6, -1e6, 1e9} {
		for _, gain := range []float64{180, 7.3, -33.3} {
			r := rough{turned(0, gain), far}
			r.axis.MaxAcc, r.axis.MaxJerk = 1e-12, 1e-12
			for _, f := range checkLimits(r, 0, measure(context.Background(), r, 0)) {
				assert.True(t, f.OK, "from %g deg: %s %s", far, f.Check, f.Text)
			}
		}
	}
}

// TestWhatRoundingMayHide: at 100 mm a place is rounded to some 1.4e-14 mm, and so a
// difference of eight of them over half a millisecond cubed hides some mm/s3 at most:
// far below any limit of a jerk. It is no excuse for more.
func TestWhatRoundingMayHide(t *testing.T) {
	p := measure(context.Background(), sound(), 0)
	for d, most := range []float64{1e-12, 1e-9, 2e-6, 1e-2} {
		assert.Less(t, p.noise[d], most, "derivative %d", d)
		assert.Positive(t, p.noise[d])
	}
}

// spaced is the cosine with its frames where they are put.
type spaced struct {
	cosine
	at map[int64]exact.Rat
}

func (s spaced) FrameSeconds(k int64) exact.Rat {
	if at, ok := s.at[k]; ok {
		return at
	}
	return s.cosine.FrameSeconds(k)
}

// TestFramesThatAreNotEven: two at once, one before the other, one late.
func TestFramesThatAreNotEven(t *testing.T) {
	for _, x := range []struct {
		frame int64
		at    exact.Rat
		says  string
	}{
		{7, exact.New(6, 24), "frame 7 does not come after frame 6"},
		{7, exact.New(5, 24), "frame 7 does not come after frame 6"},
		{7, exact.New(71, 240), "frame 7 does not come as long after frame 6 as frame 1 after frame 0"},
		{0, exact.New(-1, 240), "frame 0 is not on the seam"},
	} {
		f := checkFrames(context.Background(), spaced{sound(), map[int64]exact.Rat{x.frame: x.at}})
		assert.False(t, f.OK)
		assert.Equal(t, x.says, f.Text)
	}
}

// stepped is the cosine with steps of its own.
type stepped struct {
	cosine
	steps []trace.Step
	index map[int64]int64 // by round
}

func (s stepped) StepIndex(_ int, round int64) int64 { return s.index[round] }
func (s stepped) StepsAlong(int64) func() (trace.Step, bool) {
	n := -1
	return func() (trace.Step, bool) {
		n++
		if n >= len(s.steps) {
			return trace.Step{}, false
		}
		return s.steps[n], true
	}
}

// TestStepsOneByOne: each goes on from the one before, by one, and not back in time.
// The rail starts at 40 mm, its step 3200.
func TestStepsOneByOne(t *testing.T) {
	step := func(ns, to int64, dir int8) trace.Step {
		return trace.Step{Nanos: ns, Position: to, Dir: dir}
	}
	for _, x := range []struct {
		steps []trace.Step
		bad   string
	}{
		{[]trace.Step{step(10, 3201, 1), step(20, 3202, 1), step(20, 3201, -1)}, ""},
		{[]trace.Step{step(10, 3202, 1)}, "step to 3202 from 3200 at 10 ns is not one step"},
		{[]trace.Step{step(10, 3202, 2)}, "step to 3202 from 3200 at 10 ns is not one step"},
		{[]trace.Step{step(10, 3198, -2)}, "step to 3198 from 3200 at 10 ns is not one step"},
		{[]trace.Step{step(10, 3200, 0)}, "step to 3200 from 3200 at 10 ns is not one step"},
		{[]trace.Step{step(10, 3199, 1)}, "step to 3199 from 3200 at 10 ns is not one step"},
		{[]trace.Step{step(10, 3201, 1), step(9, 3202, 1)}, "a step at 9 ns follows one at 10 ns"},
	} {
		s := stepped{cosine: sound(), steps: x.steps, index: map[int64]int64{0: 3200, manyRounds: 3200}}
		f := findingOf(t, s, "step times")
		if x.bad != "" {
			assert.False(t, f.OK)
			assert.Equal(t, x.bad, f.Text)
		} else {
			assert.NotContains(t, f.Text, "not one step")
			assert.NotContains(t, f.Text, "follows")
		}
	}
}

// TestEdgeOfWhereStepsStart: half a step, a sixty-fourth and a thousandth, 0.516625, is as
// far as the carriage stands from where the motion is at the seam.
func TestEdgeOfWhereStepsStart(t *testing.T) {
	for _, x := range []struct {
		off     float64 // steps
		advance exact.Rat
		forward int64
		ok      bool
	}{
		{0.516, exact.Rat{}, 0, true}, {0.517, exact.Rat{}, 0, false}, {-0.516, exact.Rat{}, 0, true}, {-0.517, exact.Rat{}, 0, false},
		{0, exact.Rat{}, 1, false},
		{0, exact.New(1, 80), 1, true}, {0, exact.New(1, 80), 2, false}, {0, exact.New(1, 80), 0, false},
		// Of a gain of a step and a third the first round has one or two.
		{0, exact.New(4, 240), 1, true}, {0, exact.New(4, 240), 2, true}, {0, exact.New(4, 240), 3, false}, {0, exact.New(4, 240), 0, false},
		{0.52, exact.New(4, 240), 1, false}, {-0.51, exact.New(4, 240), 1, true},
	} {
		c := sound()
		c.advance = x.advance
		// 80 steps a mm: the position at the seam is 40 mm, off from a step by so much.
		w := winding{cosine: c, start: 40 + x.off/80}
		s := stepped{cosine: c, index: map[int64]int64{0: 3200}}
		walk := stepWalk{forward: x.forward}
		f := walk.closes(standing{s, w}, 0, c.Advance(0).Mul(exact.Int(80)))
		assert.Equal(t, x.ok, f.OK, "%+v", x)
		if x.advance.Sign() != 0 && !x.advance.Mul(exact.Int(80)).IsInt() {
			assert.Equal(t, fmt.Sprintf("net %d in the first round of exactly 4/3; the remainder is carried", x.forward), f.Text)
		}
	}
}

// standing has the steps of one and the places of the other.
type standing struct {
	stepped
	w winding
}

func (s standing) Position(i int, sec float64) float64 { return s.w.Position(i, sec) }

// TestStepsAfterTenThousandRounds: a gain that comes out whole by then is met exactly,
// one that does not within a step.
func TestStepsAfterTenThousandRounds(t *testing.T) {
	for _, x := range []struct {
		gain exact.Rat // steps a round
		got  int64     // after 10 000
		ok   bool
	}{
		{exact.Int(2), 20_000, true}, {exact.Int(2), 20_001, false}, {exact.Int(2), 19_999, false},
		{exact.New(1, 8), 1250, true}, {exact.New(1, 8), 1251, false},
		{exact.New(1, 3), 3333, true}, {exact.New(1, 3), 3334, true}, {exact.New(1, 3), 3335, false}, {exact.New(1, 3), 3332, false},
	} {
		s := stepped{cosine: sound(), index: map[int64]int64{0: 3200, 10_000: 3200 + x.got}}
		assert.Equal(t, x.ok, checkRounds(s, 0, x.gain).OK, "%+v", x)
	}
}
