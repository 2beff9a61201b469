package plan_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/fault"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

const panRig = `[rig.axis.pan]
kind = "rotary"
letter = "B"
travel = ["-60 deg", "60 deg"]
speed = "90 deg/s"
acceleration = "400 deg/s2"
gear = "36:1"
motor-steps = 200
microsteps = 8
`

const across = bench + panRig + `
[axis.rail]
move = "through"
from = "80 mm"
to = "320 mm"
[axis.table]
move = "turn"
turns = "1/6"
[axis.pan]
move = "aim"
follow = "rail"
as = "pan"
point = ["200 mm", "400 mm"]
`

func must(t testing.TB, text string) *plan.Plan {
	t.Helper()
	p, err := build(t, text)
	require.NoError(t, err)
	return p
}

// Across 240 mm in 6 s shown at a fifth, 1.2 s: 200 mm/s. From 200 to rest and
// back to 200 the other way within half of 3000 mm/s2 and 100000 mm/s3 and
// 400 mm/s, by way of 240 mm and what the two changes of direction overshoot.
func TestAPassIsCutAndComesBack(t *testing.T) {
	p := must(t, across)
	require.Empty(t, p.Breaches())
	rail, table, pan := &p.Axes[0], &p.Axes[1], &p.Axes[2]
	assert.Equal(t, int64(144), p.Loop.Captured)
	assert.Positive(t, p.Back)
	assert.Equal(t, 144+p.Back, p.RoundFrames())
	assert.InDelta(t, 240, rail.Cut, 1e-12)
	assert.InDelta(t, 200, rail.Track.At(0).Vel, 1e-9)
	end := p.Loop.Real().Float()
	assert.InDelta(t, 320, rail.Track.At(end).Pos, 1e-9)
	assert.InDelta(t, 200, rail.Track.Before(end).Vel, 1e-9)
	assert.Zero(t, rail.Track.Advance().Sign())

	// The table is where it should be at the seam, and goes on by whole faces.
	assert.InDelta(t, 60, table.Track.At(end).Pos, 1e-9)
	assert.Zero(t, table.Cut)
	assert.True(t, table.Track.Advance().Quo(table.Gain).IsInt())

	// The pan keeps the point centred on the way back as well.
	for _, u := range []float64{0, 0.2, 0.5, 0.9} {
		sec := u * p.Period()
		x := rail.Track.At(sec).Pos
		assert.InDelta(t, math.Atan2(x-200, 400)*180/math.Pi, pan.Track.At(sec).Pos, 2e-9)
	}
	v := verify.Check(trajectory.New(p))
	assert.True(t, v.OK, "%+v", v.Failed())
	assert.Contains(t, v.Seam[0].Words, "cut back by 240 mm, by design")
}

// Half the limits would need as much room as a run-up at full limits has not,
// so all of the limits are used where there is little room.
func TestARunUpUsesMoreOfTheLimitsWhereThereIsLittleRoom(t *testing.T) {
	wide, tight := must(t, across), must(t, strings.NewReplacer(`"80 mm"`, `"13 mm"`, `"320 mm"`, `"253 mm"`).Replace(across))
	assert.Empty(t, tight.Breaches())
	_, _, acc, _ := peaks(wide.Axes[0].RunUp)
	assert.LessOrEqual(t, acc, 0.5*3000*(1+1e-9))
	lo, _, acc, _ := peaks(tight.Axes[0].RunUp)
	assert.Greater(t, acc, 0.5*3000)
	assert.GreaterOrEqual(t, lo, 0.0)

	none := must(t, strings.NewReplacer(`"80 mm"`, `"1 mm"`, `"320 mm"`, `"241 mm"`).Replace(across))
	require.NotEmpty(t, none.Breaches())
	var phases []string
	for _, b := range none.Breaches() {
		assert.Equal(t, plan.Position, b.Quantity)
		phases = append(phases, b.Phase)
	}
	assert.Contains(t, phases, "return")
}

func peaks(r *plan.Ramp) (lo, hi, acc, speed float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i := range 2001 {
		s := r.At(r.Length() * float64(i) / 2000)
		lo, hi = min(lo, s.Pos), max(hi, s.Pos)
		acc, speed = max(acc, math.Abs(s.Acc)), max(speed, math.Abs(s.Vel))
	}
	return lo, hi, acc, speed
}

// Any pass the rig has room and speed for verifies: limits, seam, cut, steps of
// ten thousand rounds.
func TestPassesVerify(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		from := rapid.IntRange(60, 200).Draw(rt, "from")
		text := strings.NewReplacer(
			`"80 mm"`, fmt.Sprintf(`"%d mm"`, from),
			`"320 mm"`, fmt.Sprintf(`"%d mm"`, rapid.IntRange(from+20, 330).Draw(rt, "to")),
			`turns = "1/6"`, fmt.Sprintf(`turns = "%d/6"`, rapid.SampledFrom([]int{-2, -1, 1, 2}).Draw(rt, "faces")),
			`loop = "6 s"`, fmt.Sprintf(`loop = "%d frames"`, rapid.IntRange(200, 600).Draw(rt, "frames")),
			`move = "through"`, rapid.SampledFrom([]string{`move = "through"`,
				"move = \"through\"\nlaw = \"3-4-5\"\neven = \"1/2\"", "move = \"through\"\nlaw = \"cycloidal\"",
				"move = \"through\"\nlaw = \"4-5-6-7\"\neven = \"5/4\""}).Draw(rt, "law"),
		).Replace(across)
		p := must(t, text)
		require.Empty(rt, p.Breaches())
		v := verify.Check(trajectory.New(p))
		require.True(rt, v.OK, "%+v", v.Failed())
	})
}

// Steps of a whole take are where the take is, run-up, ways back and run-out
// included, and leave the rail on the step it began a round on.
func TestStepsOfATakeOfPasses(t *testing.T) {
	p := must(t, across)
	tr := trajectory.New(p)
	steps := tr.Steps(trajectory.StepOptions{Rounds: 3, Ramps: true})
	count := 0
	for s, ok := steps.Next(); ok; s, ok = steps.Next() {
		scale := p.Axes[s.Axis].Rig.StepsPerUnit.Float()
		at := tr.TakeState(s.Axis, 3, float64(s.Nanos)*1e-9).Pos * scale
		require.InDelta(t, float64(s.Position)-float64(s.Dir)/2, at, 0.02, "axis %d, step to %d, round %d", s.Axis, s.Position, s.Round)
		count++
	}
	assert.Greater(t, count, 3*2*240*80)
	assert.Equal(t, tr.StepIndex(0, 0), tr.StepIndex(0, 10_000))
}

// A rail beside a pass that is short of travel cannot turn on: it has to stop
// and come back to the same place at the same speed, the excursion of package
// quick.
func TestATurnBetweenStopsMakesAnExcursion(t *testing.T) {
	p := must(t, strings.Replace(across, `travel = "endless"`, `travel = ["-200 deg", "200 deg"]`, 1))
	table := &p.Axes[1]
	assert.True(t, table.Track.Advance().Equal(table.Gain))
	end := p.Loop.Real().Float()
	assert.InDelta(t, table.Track.At(end).Pos, table.Track.Before(p.Period()).Pos, 1e-9)
	assert.Greater(t, table.Extremes.Max.Value, 60.0, "it goes on a little before it stops")
}

func TestPassesThatCannotBe(t *testing.T) {
	for name, c := range map[string]struct{ old, new, want string }{
		"accelerates at the cut":  {`turns = "1/6"`, "turns = \"1/6\"\nlaw = \"harmonic\"", "must be at rest or at an even speed at the seam"},
		"follows nothing":         {`follow = "rail"`, `follow = "lift"`, "must be an axis of this shot"},
		"follows a table":         {`follow = "rail"`, `follow = "table"`, "must slide along a rail"},
		"quickest, but cut":       {`loop = "6 s"`, "loop = \"6 s\"\npace = \"quickest\"", "cannot be in a shot that passes through"},
		"an aim on a linear axis": {`[axis.pan]` + "\nmove = \"aim\"\nfollow = \"rail\"", "[axis.table2]\nmove = \"aim\"\nfollow = \"rail\"", "is not on the rig"},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Replace(across, c.old, c.new, 1)
			require.NotEqual(t, across, text)
			_, err := build(t, text)
			var list fault.List
			require.True(t, errors.As(err, &list), "%v", err)
			assert.Contains(t, list.Error(), c.want)
		})
	}
}

const keyed = bench + panRig + `
[axis.rail]
move = "keys"
keys = [
  { at = "0 s", pos = "40 mm" },
  { at = "2 s", pos = "180 mm" },
  { at = "4 s", pos = "90 mm" },
]
[axis.pan]
move = "aim"
follow = "rail"
as = "pan"
point = ["120 mm", "300 mm"]
`

// Quickest: the same way, within limits, in whole frames, and no frame could be
// left out by going along it evenly faster.
func TestQuickestGoesTheSameWayAsFastAsTheRigCan(t *testing.T) {
	slow, fast := must(t, keyed), must(t, strings.Replace(keyed, `loop = "6 s"`, "loop = \"6 s\"\npace = \"quickest\"", 1))
	require.Empty(t, fast.Breaches())
	assert.Less(t, fast.Loop.Captured, slow.Loop.Captured)
	assert.Positive(t, fast.Bound)
	assert.GreaterOrEqual(t, fast.Period(), fast.Bound*(1-0.005), "the bound is known to a few thousandths")
	assert.Less(t, fast.Period(), 1.5*fast.Bound)
	assert.Zero(t, slow.Bound)
	assert.InDelta(t, slow.Axes[0].Extremes.Max.Value, fast.Axes[0].Extremes.Max.Value, 1e-5)
	assert.InDelta(t, slow.Axes[0].Extremes.Min.Value, fast.Axes[0].Extremes.Min.Value, 1e-5)
	for i := range 100 { // the pan stays on the path
		sec := fast.Period() * float64(i) / 100
		x := fast.Axes[0].Track.At(sec).Pos
		assert.InDelta(t, math.Atan2(x-120, 300)*180/math.Pi, fast.Axes[1].Track.At(sec).Pos, 2e-9)
	}
	v := verify.Check(trajectory.New(fast))
	assert.True(t, v.OK, "%+v", v.Failed())
	share := 0.0
	for _, a := range fast.Axes {
		share = max(share, math.Abs(a.Extremes.Speed.Value)/a.Rig.MaxSpeed, math.Abs(a.Extremes.Acc.Value)/a.Rig.MaxAcc)
		if a.Rig.MaxJerk > 0 {
			share = max(share, math.Abs(a.Extremes.Jerk.Value)/a.Rig.MaxJerk)
		}
	}
	assert.Greater(t, share, 0.8, "something is near its limit")
}

func TestQuickestNeedsSmoothMoves(t *testing.T) {
	text := strings.Replace(lantern, `loop = "6 s"`, "loop = \"6 s\"\npace = \"quickest\"", 1)
	_, err := build(t, strings.Replace(text, "3-4-5", "trapezoidal", 1))
	assert.ErrorContains(t, err, "axis rail jumps in acceleration")
	s, err := shot.Decode("f", []byte(text), nil)
	require.NoError(t, err)
	assert.True(t, s.Quickest)
}

// Whatever a rig can do, a pass has a plan that verifies, a plan that says which
// limit it breaks, or a named fault.
func TestPassesOnAnyRig(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		decade := func(name string, lo, hi int) string {
			return fmt.Sprintf("%.4f", math.Pow(10, float64(rapid.IntRange(10*lo, 10*hi).Draw(rt, name))/10))
		}
		text := strings.NewReplacer(
			`speed = "400 mm/s"`, `speed = "`+decade("speed", 0, 3)+` mm/s"`,
			`acceleration = "3000 mm/s2"`, `acceleration = "`+decade("acc", 1, 4)+` mm/s2"`,
			`jerk = "100000 mm/s3"`, `jerk = "`+decade("jerk", 0, 6)+` mm/s3"`,
			`acceleration = "720 deg/s2"`, `acceleration = "`+decade("table", 0, 4)+` deg/s2"`,
			`travel = "endless"`, rapid.SampledFrom([]string{`travel = "endless"`, `travel = ["-90 deg", "400 deg"]`}).Draw(rt, "travel"),
			`loop = "6 s"`, fmt.Sprintf(`loop = "%d frames"`, rapid.IntRange(5, 1000).Draw(rt, "frames")),
		).Replace(across)
		p, err := build(t, text)
		if err != nil {
			var list fault.List
			require.True(rt, errors.As(err, &list), "%v", err)
			require.NotEmpty(rt, list)
			return
		}
		if len(p.Breaches()) == 0 && p.Back < 20_000 { // the verifier takes a second for more
			v := verify.Check(trajectory.New(p))
			require.True(rt, v.OK, "%+v", v.Failed())
		}
	})
}
