package trajectory_test

import (
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
)

// crossingTolerance is the bar of the step table: an error of a nanosecond
// before rounding.
const crossingTolerance = 1e-9

func named(t testing.TB, name string) law.Law {
	t.Helper()
	l, err := law.Named(name)
	require.NoError(t, err)
	return l
}

func loopOf(t testing.TB, capture int64, seconds int64) clock.Loop {
	t.Helper()
	c, err := clock.New(exact.Int(capture), exact.Int(capture), exact.Rat{})
	require.NoError(t, err)
	l, err := c.LoopFrames(capture * seconds)
	require.NoError(t, err)
	return l
}

func planOf(loop clock.Loop, spu exact.Rat, kind rig.Kind, tr *track.Track) *plan.Plan {
	a := rig.Axis{Name: "axis", Kind: kind, Letter: "X", Min: -1000, Max: 1000,
		MaxSpeed: 1e4, MaxAcc: 1e6, StepsPerUnit: spu}
	return &plan.Plan{Loop: loop, Rounds: 1, Rig: rig.Rig{Name: "test", Axes: []rig.Axis{a}},
		Axes: []plan.Axis{{Rig: a, Track: tr, Extremes: tr.Extremes()}}}
}

// roundingSteps is what float64 leaves of a position of some thousand steps.
const roundingSteps = 1e-8

// cosine is the 60 s loop of design section 10: 240 mm there and back under
// the harmonic law, x = 120 (1 - cos(2 pi t / 60)), at 80 steps a millimetre.
func cosine(t testing.TB) *trajectory.Trajectory {
	t.Helper()
	loop := loopOf(t, 24, 60)
	h := named(t, "harmonic")
	tr, err := track.ThereAndBack(loop.Real(), track.ThereAndBackSpec{
		From: 0, To: 240, Out: h, Back: h, Cycles: 1, OutShare: exact.New(1, 2)})
	require.NoError(t, err)
	return trajectory.New(planOf(loop, exact.Int(80), rig.Linear, tr))
}

// The closed form is textbook trigonometry: the carriage crosses y steps at
// t = 60/pi asin(sqrt(y / 19200)) on the way out and at 60 - t on the way back.
func TestCosineLoopAgainstClosedForm(t *testing.T) {
	tr := cosine(t)
	next := tr.StepsAlong(10)
	count, worst := 0, 0.0
	for s, ok := next(); ok; s, ok = next() {
		threshold := float64(s.Position) - float64(s.Dir)/2
		want := 60 / math.Pi * math.Asin(math.Sqrt(threshold/19200))
		if s.Dir < 0 {
			want = 60 - want
		}
		worst = math.Max(worst, math.Abs(s.Within-want))
		at := float64(s.Round)*60e9 + s.Within*1e9
		if math.Abs(at-float64(s.Nanos)) > 0.5+1e-3 {
			require.FailNow(t, "not rounded to the nearest nanosecond", "%+v", s)
		}
		count++
	}
	assert.Equal(t, 384_000, count)
	assert.Less(t, worst, crossingTolerance)
	t.Logf("worst error %.3g s", worst)
}

func TestStepsCloseForEveryLaw(t *testing.T) {
	for _, l := range law.All() {
		t.Run(l.Name(), func(t *testing.T) {
			loop := loopOf(t, 24, 2)
			tr, err := track.ThereAndBack(loop.Real(), track.ThereAndBackSpec{From: 40, To: 77.7,
				Out: l, Back: l, Cycles: 3, OutShare: exact.New(1, 3), DwellFar: exact.New(1, 24), Phase: exact.New(1, 7)})
			require.NoError(t, err)
			tj := trajectory.New(planOf(loop, exact.New(800, 9), rig.Linear, tr))
			followSteps(t, tj, 4)
		})
	}
}

// followSteps walks the steps of an axis and checks that each is one step,
// in time order, on its crossing, and that they sum to the exact gain.
func followSteps(t require.TestingT, tj *trajectory.Trajectory, rounds int64) {
	spu := tj.Axis(0).StepsPerUnit.Float()
	index, last := tj.StepIndex(0, 0), int64(math.MinInt64)
	start := index
	next := tj.StepsAlong(rounds)
	gain := tj.StepsPerRound(0)
	for s, ok := next(); ok; s, ok = next() {
		if s.Position != index+int64(s.Dir) || s.Nanos < last {
			require.FailNow(t, "not one step, or not in order", "%+v after %d at %d ns", s, index, last)
		}
		at := tj.State(0, s.Within)
		miss := math.Abs(at.Pos*spu + float64(s.Round)*gain.Float() - float64(s.Position) + float64(s.Dir)/2)
		if miss > roundingSteps+crossingTolerance*math.Abs(at.Vel*spu) {
			require.FailNow(t, "not on its crossing", "%+v misses by %g steps", s, miss)
		}
		index, last = s.Position, s.Nanos
	}
	require.Equal(t, tj.StepIndex(0, rounds), index)
	off := exact.Int(index - start).Sub(gain.Mul(exact.Int(rounds))).Abs()
	require.True(t, off.Less(exact.Int(1)), "off by %s", off)
	if gain.IsInt() {
		require.Zero(t, off.Sign())
	}
}

func TestStepsCloseWhateverTheMove(t *testing.T) {
	laws := law.All()
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.Float64Range(-50, 50).Draw(t, "from")
		travel := rapid.Float64Range(0.01, 30).Draw(t, "travel")
		l := laws[rapid.IntRange(0, len(laws)-1).Draw(t, "law")]
		period := exact.New(rapid.Int64Range(1, 300).Draw(t, "frames"), 24)
		tr, err := track.ThereAndBack(period, track.ThereAndBackSpec{From: from, To: from + travel,
			Out: l, Back: l, Cycles: rapid.IntRange(1, 4).Draw(t, "cycles"), OutShare: exact.New(rapid.Int64Range(1, 9).Draw(t, "share"), 10),
			Phase: exact.New(rapid.Int64Range(0, 99).Draw(t, "phase"), 100)})
		require.NoError(t, err)
		c, err := clock.New(exact.Int(24), exact.Int(24), exact.Rat{})
		require.NoError(t, err)
		loop, err := c.LoopFrames(period.Mul(exact.Int(24)).Whole())
		require.NoError(t, err)
		followSteps(t, trajectory.New(planOf(loop, exact.Int(80), rig.Linear, tr)), 3)
	})
}

// A seventh of a turn of a 3200-step table is no whole number of steps. The
// remainder must be carried, so that ten thousand rounds are exactly
// 10000 * 3200 / 7 = 4571428 4/7 steps, rounded once.
func TestSeventhOfATurnDoesNotDrift(t *testing.T) {
	loop := loopOf(t, 24, 2)
	tr, err := track.Turn(loop.Real(), track.TurnSpec{Turns: exact.New(1, 7), Law: named(t, "uniform")})
	require.NoError(t, err)
	tj := trajectory.New(planOf(loop, exact.New(3200, 360), rig.Rotary, tr))
	assert.Equal(t, "3200/7", tj.StepsPerRound(0).String())
	assert.Equal(t, int64(4571429), tj.StepIndex(0, 10_000))
	assert.Equal(t, int64(32_000_000), tj.StepIndex(0, 70_000))
	followSteps(t, tj, 21)
}

func TestMemoryDoesNotGrowWithRounds(t *testing.T) {
	tr := cosine(t)
	grown := func(rounds int64) uint64 {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		next := tr.StepsAlong(rounds)
		for _, ok := next(); ok; _, ok = next() {
		}
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	two := grown(2)
	// What a round costs beyond the first two is bookkeeping in exact
	// rationals, not steps: under a hundredth of the 38400 steps' own size.
	perRound := (float64(grown(12)) - float64(two)) / 10
	assert.Less(t, perRound, 38400*40.0/100)
}

func BenchmarkStepsSolved(b *testing.B) { benchmarkSteps(b, 1) }

func BenchmarkStepsFound(b *testing.B) { benchmarkSteps(b, 10) }

func benchmarkSteps(b *testing.B, rounds int64) {
	tr := cosine(b)
	steps := 0
	b.ReportAllocs()
	for b.Loop() {
		next := tr.Steps(trajectory.StepOptions{Rounds: rounds})
		for _, ok := next.Next(); ok; _, ok = next.Next() {
			steps++
		}
	}
	b.ReportMetric(float64(steps)/b.Elapsed().Seconds()/1e6, "Msteps/s")
}

func BenchmarkFrames(b *testing.B) {
	tr := cosine(b)
	for b.Loop() {
		for k := range tr.Captured() {
			tr.Frame(k)
		}
	}
}
