package reach_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/reach"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

const rail = `
shot = "test"
[clock]
capture = "120"
playback = "24"
loop = "6 s"
[rig]
rig = "bench"
[rig.axis.rail]
kind = "linear"
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "200 mm/s"
acceleration = "1000 mm/s2"
jerk = "20000 mm/s3"
belt = { pitch = "2 mm", teeth = 20 }
motor-steps = 200
microsteps = 16
[axis.rail]
move = "there-and-back"
from = "40 mm"
to = "280 mm"
law = "3-4-5"
dwell-far = "12 frames"
`

func decode(t testing.TB, over ...source.Override) (shot.Shot, rig.Rig) {
	t.Helper()
	s, err := shot.Decode("test.toml", []byte(rail), over)
	require.NoError(t, err)
	return s, *s.Rig
}

func TestLegAndTravelAreInverse(t *testing.T) {
	laws := law.All()
	rapid.Check(t, func(t *rapid.T) {
		l := laws[rapid.IntRange(0, len(laws)-1).Draw(t, "law")]
		lim := reach.Limits{
			Speed: rapid.Float64Range(1, 1e3).Draw(t, "v"),
			Acc:   rapid.Float64Range(1, 1e4).Draw(t, "a"),
		}
		if rapid.Bool().Draw(t, "jerk limited") {
			lim.Jerk = rapid.Float64Range(1, 1e6).Draw(t, "j")
		}
		d := rapid.Float64Range(0.1, 1e3).Draw(t, "d")
		sec, binding := reach.Leg(l, d, lim)
		if math.IsInf(sec, 1) {
			require.Zero(t, reach.Travel(l, 1, lim))
			return
		}
		require.NotEmpty(t, binding)
		require.InEpsilon(t, d, reach.Travel(l, sec, lim), 1e-12)
	})
}

// 240 mm under 3-4-5 at 200 mm/s, 1000 mm/s² and 20000 mm/s³: speed asks for
// 15/8*240/200 = 2.25 s a leg, acceleration for sqrt(5.7735*240/1000) = 1.177 s,
// jerk for cbrt(60*240/20000) = 0.896 s. Two legs are 4.5 s, 540 frames of 120,
// and the dwell of 12 more makes 552.
func TestShortestLoopIsTheHandbooks(t *testing.T) {
	s, r := decode(t)
	loop, ok := reach.ShortestLoop(s, r)
	require.True(t, ok)
	assert.Equal(t, int64(552), loop.Captured)
}

func TestFitsAreBuiltAndHold(t *testing.T) {
	s, r := decode(t)
	fits := reach.Fits(s, r)
	kinds := map[string]int{}
	for _, f := range fits {
		kinds[f.Kind]++
		p, err := plan.Build(f.Shot, r)
		require.NoError(t, err)
		assert.Empty(t, p.Breaches(), f.Text)
		assert.True(t, verify.Check(trajectory.New(p)).OK, f.Text)
	}
	assert.Equal(t, 1, kinds["loop"])
	assert.Equal(t, 1, kinds["travel"])
	assert.Contains(t, fits[0].Text, "552 frames")
}

func TestALawThatFitsIsFound(t *testing.T) {
	// In 552 frames 3-4-5 just fits; 4-5-6-7, faster in its middle, does not.
	s, r := decode(t, source.Override{Path: "clock.loop", Text: "552 frames", Origin: "test"},
		source.Override{Path: "axis.rail.law", Text: "4-5-6-7", Origin: "test"})
	var texts []string
	for _, f := range reach.Fits(s, r) {
		texts = append(texts, f.Text)
	}
	assert.Contains(t, texts, `law = "3-4-5" at this travel and loop`)
	assert.NotContains(t, texts, `law = "cycloidal" at this travel and loop`)
}

func TestAShotInsideItsLimitsNeedsNoFit(t *testing.T) {
	s, r := decode(t, source.Override{Path: "clock.loop", Text: "600 frames", Origin: "test"})
	assert.Empty(t, reach.Fits(s, r))
}

// From 20 deg, 30 deg a round, stops at 90: two rounds fit, three do not. The
// run-out after the second needs travel too, and 80 deg leaves it some.
func TestFewerRoundsFitBetweenStops(t *testing.T) {
	s, r := decode(t, source.Override{Path: "axis.rail.to", Text: "60 mm", Origin: "test"})
	table := rig.Axis{Name: "table", Kind: rig.Rotary, Letter: "A", Min: -90, Max: 90, MaxSpeed: 180, MaxAcc: 720,
		StepsPerUnit: exact.Int(160)}
	uniform, err := law.Named("uniform")
	require.NoError(t, err)
	r.Axes = append(r.Axes, table)
	s.Rounds = 40
	s.Axes = append(s.Axes, shot.AxisMove{Name: "table", Does: move.Turn{Law: uniform, Turns: exact.New(1, 12),
		Start: unit.Quantity{Value: exact.Int(20), Dim: unit.Angle}}})
	var found []shot.Shot
	for _, f := range reach.Fits(s, r) {
		if f.Kind == "rounds" {
			found = append(found, f.Shot)
		}
	}
	require.Len(t, found, 1)
	assert.Equal(t, 2, found[0].Rounds)
}

// A whole turn in 1.2 s at 180 deg/s: 300 deg/s is asked on average, so half a
// turn is the largest part that fits, and only at constant speed.
func TestATurnThatFitsIsAWholePart(t *testing.T) {
	s, r := decode(t, source.Override{Path: "axis.rail.to", Text: "60 mm", Origin: "test"})
	r.Axes = append(r.Axes, rig.Axis{Name: "table", Kind: rig.Rotary, Letter: "A", Endless: true,
		MaxSpeed: 180, MaxAcc: 720, StepsPerUnit: exact.Int(160)})
	uniform, err := law.Named("uniform")
	require.NoError(t, err)
	s.Axes = append(s.Axes, shot.AxisMove{Name: "table", Does: move.Turn{Law: uniform, Turns: exact.Int(-1),
		Start: unit.Quantity{Dim: unit.Angle}}})
	var texts []string
	for _, f := range reach.Fits(s, r) {
		texts = append(texts, f.Text)
	}
	assert.Contains(t, texts, `turns = "-1/2" in this loop`)
	assert.Contains(t, texts, "a loop of 240 frames (10 s on screen) at this travel")
}

func TestTableHoldsAndIsTheShortest(t *testing.T) {
	s, r := decode(t)
	goes, ok := reach.ShuttleOf(s.Axes[0])
	require.True(t, ok)
	table := reach.NewTable(s, r, goes, []float64{20, 240})
	require.Len(t, table.Cells, len(law.All()))
	for _, row := range table.Cells {
		for _, c := range row {
			checkCell(t, s, r, c)
		}
	}
}

// checkCell wants the cell's loop inside the limits and one frame less outside.
func checkCell(t *testing.T, s shot.Shot, r rig.Rig, c reach.Cell) {
	if !c.Possible {
		assert.Contains(t, []string{"uniform", "trapezoidal", "harmonic"}, c.Law)
		return
	}
	l, err := law.Named(c.Law)
	require.NoError(t, err)
	s.Axes = []shot.AxisMove{sample.Ways(s.Axes[0], func(w *move.Ways) {
		w.Out, w.Back, w.To.Value = l, l, exact.FromFloat(40+c.Travel)
	})}
	breaches := func(n int64) int {
		s.Loop, err = s.Clock.LoopFrames(n)
		require.NoError(t, err)
		p, err := plan.Build(s, r)
		require.NoError(t, err)
		return len(p.Breaches())
	}
	assert.Zero(t, breaches(c.Loop.Screen), "%s %v", c.Law, c.Travel)
	assert.NotZero(t, breaches(c.Loop.Screen-1), "%s %v", c.Law, c.Travel)
}

func BenchmarkFits(b *testing.B) {
	s, r := decode(b)
	for b.Loop() {
		reach.Fits(s, r)
	}
}
