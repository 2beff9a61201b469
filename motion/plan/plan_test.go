package plan_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/track"
	"seamrail/motion/verify"
)

const bench = `
shot = "test"
[clock]
capture = "120"
playback = "24"
loop = "6 s"
[rig]
rig = "bench"
[rig.controller]
step-rate = "40000 steps/s"
[rig.axis.rail]
kind = "linear"
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
jerk = "100000 mm/s3"
belt = { pitch = "2 mm", teeth = 20 }
motor-steps = 200
microsteps = 16
[rig.axis.table]
kind = "rotary"
letter = "A"
travel = "endless"
speed = "180 deg/s"
acceleration = "720 deg/s2"
gear = "1:1"
motor-steps = 200
microsteps = 16
`

const lantern = bench + `
[axis.rail]
move = "there-and-back"
from = "40 mm"
to = "100 mm"
law = "3-4-5"
[axis.table]
move = "turn"
turns = "1/6"
law = "uniform"
`

func build(t testing.TB, text string, over ...source.Override) (*plan.Plan, error) {
	t.Helper()
	s, err := shot.Decode("test.toml", []byte(text), over)
	require.NoError(t, err)
	require.NotNil(t, s.Rig)
	return plan.Build(s, *s.Rig)
}

func mustBuild(t testing.TB, text string, over ...source.Override) *plan.Plan {
	t.Helper()
	p, err := build(t, text, over...)
	require.NoError(t, err)
	return p
}

// 60 mm in 0.6 s under 3-4-5: v = 15/8 D/T, a = 10/sqrt 3 D/T², j = 60 D/T³
// (Norton, Design of Machinery, cam chapter).
func TestPeaksAreTheHandbooks(t *testing.T) {
	p := mustBuild(t, lantern)
	e := p.Axes[0].Extremes
	assert.InDelta(t, 187.5, math.Abs(e.Speed.Value), 1e-9)
	assert.InDelta(t, 10/math.Sqrt(3)*60/0.36, math.Abs(e.Acc.Value), 1e-9)
	assert.InDelta(t, 60*60/0.216, math.Abs(e.Jerk.Value), 1e-6)
	assert.Empty(t, p.Breaches())
	assert.Equal(t, int64(144), p.Loop.Captured)
}

func TestRunUpReachesTheSeamsStateWithinLimits(t *testing.T) {
	p := mustBuild(t, lantern)
	require.Nil(t, p.Axes[0].RunUp)
	up, out := p.Axes[1].RunUp, p.Axes[1].RunOut
	require.NotNil(t, up)
	require.NotNil(t, out)
	assert.Equal(t, track.State{Pos: up.At(0).Pos, Jerk: up.At(0).Jerk}, up.At(0))
	assert.InDelta(t, 50, up.At(up.Length()).Vel, 1e-9)
	assert.InDelta(t, 0, up.At(up.Length()).Pos, 1e-9)
	assert.InDelta(t, 60, out.At(0).Pos, 1e-9)
	assert.InDelta(t, 50, out.At(0).Vel, 1e-9)
	assert.InDelta(t, 0, out.At(out.Length()).Vel, 1e-9)
	// The quickest change by 50 deg/s at half of 720 deg/s², which rises in a
	// twentieth of a second, takes 50/360 + 1/20 s: 22.7 frames of 120.
	assert.Equal(t, int64(23), p.RunUp)
	for _, r := range []*plan.Ramp{up, out} {
		agreesWithItself(t, r)
	}
}

// A rail that passes the seam at speed ramps in its own time, not in the slow
// table's, and so strays less beyond its ends.
func TestEachAxisRampsInItsOwnTime(t *testing.T) {
	p := mustBuild(t, lantern, source.Override{Path: "axis.rail.phase", Text: "1/8", Origin: "test"})
	rail, table := p.Axes[0], p.Axes[1]
	require.NotNil(t, rail.RunUp)
	require.NotNil(t, table.RunUp)
	assert.Less(t, rail.RunUp.Length(), table.RunUp.Length())
	assert.InDelta(t, table.RunUp.Length(), float64(p.RunUp)/120, 1e-12)
	tj := trajectory.New(p)
	assert.Equal(t, tj.TakeState(0, 3, -10).Pos, tj.TakeState(0, 3, -rail.RunUp.Length()).Pos)
	index := int64(math.Floor(tj.TakeState(0, 3, -10).Pos*80 + 0.5))
	next := tj.Steps(trajectory.StepOptions{Rounds: 3, Ramps: true})
	for s, ok := next.Next(); ok; s, ok = next.Next() {
		if s.Axis == 0 {
			require.Equal(t, index+int64(s.Dir), s.Position)
			index = s.Position
		}
	}
	assert.InDelta(t, tj.TakeState(0, 3, 60).Pos*80, float64(index), 0.52)
}

// agreesWithItself compares each derivative with the difference quotient of
// the one below.
func agreesWithItself(t *testing.T, r *plan.Ramp) {
	const h = 1e-5
	for _, u := range []float64{0.1, 0.3, 0.5, 0.77, 0.9} {
		sec := u * r.Length()
		a, b, s := r.At(sec-h), r.At(sec+h), r.At(sec)
		assert.InDelta(t, s.Vel, (b.Pos-a.Pos)/(2*h), 1e-5)
		assert.InDelta(t, s.Acc, (b.Vel-a.Vel)/(2*h), 1e-4)
		assert.InDelta(t, s.Jerk, (b.Acc-a.Acc)/(2*h), 1e-3)
	}
}

func TestBreachesNameTheQuantity(t *testing.T) {
	cases := []struct{ key, value, quantity string }{
		{"axis.rail.to", "400.5 mm", plan.Position},
		{"axis.rail.from", "-1 mm", plan.Position},
		{"axis.rail.to", "180 mm", plan.Speed},
		{"axis.rail.law", "uniform", plan.Acceleration},
		{"axis.rail.law", "trapezoidal", plan.Jerk},
		{"axis.table.turns", "2", plan.Speed},
		{"rig.controller.step-rate", "10000 steps/s", plan.StepRate},
	}
	for _, c := range cases {
		p := mustBuild(t, lantern, source.Override{Path: c.key, Text: c.value, Origin: "test"})
		var found []string
		for _, b := range p.Breaches() {
			found = append(found, b.Quantity)
			assert.NotEmpty(t, p.Fault(b).String())
		}
		assert.Contains(t, found, c.quantity, "%s = %s", c.key, c.value)
	}
}

// A table between stops that turns a twelfth each round goes on where it was:
// from 20 deg, three rounds of 30 deg reach 110, beyond the stop at 90.
func TestTravelCountsEveryRound(t *testing.T) {
	stops := strings.Replace(lantern, `travel = "endless"`, `travel = ["-90 deg", "90 deg"]`, 1)
	over := func(rounds string) []source.Override {
		return []source.Override{{Path: "axis.table.turns", Text: "1/12", Origin: "test"},
			{Path: "axis.table.start", Text: "20 deg", Origin: "test"},
			{Path: "take.rounds", Text: rounds, Origin: "test"}}
	}
	assert.Empty(t, mustBuild(t, stops, over("2")...).Breaches())
	breaches := mustBuild(t, stops, over("3")...).Breaches()
	require.NotEmpty(t, breaches)
	assert.Equal(t, plan.Position, breaches[0].Quantity)
	assert.InDelta(t, 110, breaches[0].Value, 1e-9)
	p := mustBuild(t, stops, over("3")...)
	assert.NotEmpty(t, verify.Check(trajectory.New(p)).Failed())
}

func TestBuildReportsEveryFaultWithItsLine(t *testing.T) {
	_, err := build(t, bench+"[axis.boom]\nmove = \"hold\"\nat = \"3 mm\"\n[axis.table]\nmove = \"hold\"\nat = \"3 mm\"\n")
	var list fault.List
	require.True(t, errors.As(err, &list))
	require.Len(t, list, 2)
	assert.Contains(t, err.Error(), "rail, table")
	assert.Contains(t, err.Error(), "3 mm")
	assert.Positive(t, list[0].Line)
}

func TestHashIsOfTheMotionNotItsWords(t *testing.T) {
	a := mustBuild(t, lantern)
	b := mustBuild(t, lantern, source.Override{Path: "shot", Text: "another title", Origin: "test"})
	c := mustBuild(t, lantern, source.Override{Path: "axis.rail.to", Text: "100.001 mm", Origin: "test"})
	assert.Len(t, a.Hash(), 16)
	assert.Equal(t, a.Hash(), b.Hash())
	assert.NotEqual(t, a.Hash(), c.Hash())
}

func BenchmarkPlan(b *testing.B) {
	s, err := shot.Decode("test.toml", []byte(lantern), nil)
	require.NoError(b, err)
	for b.Loop() {
		p, err := plan.Build(s, *s.Rig)
		if err != nil || len(p.Breaches()) > 0 {
			b.Fatal("the lantern has a plan")
		}
	}
}
