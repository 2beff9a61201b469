package gcode_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// slow is a rail that goes so slowly that most of the way is below the step rate of a
// 16-bit timer, or below a millimetre a minute at its ends.
func slow(t *testing.T, r *rand.Rand, kind rig.ControllerKind) *trajectory.Trajectory {
	seconds, capture := 2*(30+r.Intn(150)), []string{"24", "2", "1/2"}[r.Intn(3)]
	law := []string{"3-4-5", "harmonic", "cycloidal"}[r.Intn(3)]
	text := fmt.Sprintf(`shot = "slow"
[clock]
capture = %q
playback = "24"
retime = "24"
loop = "%d frames"
[take]
rounds = %d
[rig]
file = "bench.toml"
[axis.rail]
from = "40 mm"
to = "%.2f mm"
law = %q
phase = %q
`, capture, seconds, 1+r.Intn(3), 40.5+4*r.Float64(), law, []string{"0", "1/4", "1/3"}[r.Intn(3)])
	s, err := shot.Decode("slow.toml", []byte(text), nil)
	require.NoError(t, err, text)
	b := sample.Bench(rig.InverseTime)
	b.Controller = kind.Defaults()
	b.Axes[0].Settings = rig.AxisSettings{Acceleration: 500 + 2000*r.Float64(), Speed: 400}
	p, err := plan.Build(s, b)
	require.NoError(t, err)
	return trajectory.New(p)
}

// Moves that are slower than the board goes are made in steps and stands, and come
// out as foretold on one that shares nothing with the model but what was measured.
func TestSlowShotsComeTrue(t *testing.T) {
	const shots = 16
	r := rand.New(rand.NewSource(1))
	worst, trodden, refused, held := 0.0, 0, 0, 0
	for n := range shots {
		tr := slow(t, r, rig.Buffered)
		rounds := int64(tr.Plan().Rounds)
		c, err := ontime.Choose(tr, rounds)
		require.NoError(t, err)
		if !c.Expected.Follows() {
			refused++
			continue
		}
		if c.Expected.Treads > 0 {
			trodden++
			assert.LessOrEqual(t, math.Abs(c.Expected.Axes[0].Worst), 1.5/80, "shot %d: it is where the path is, to a step", n)
		}
		if k := c.Take; len(k.RunUp) > 0 && k.RunUp[0].Rest {
			continue // when it begins the rig does not show
		}
		held++
		late, _ := comesTrue(t, tr, c, rounds, fmt.Sprintf("slow shot %d: %v", n, describe(tr)))
		worst = max(worst, late)
	}
	t.Logf("%d of %d in steps and stands, %d refused, %d held against a rig, at worst %.1f ms from what was foretold", trodden, shots, refused, held, worst*1e3)
	require.LessOrEqual(t, refused, 2)
	require.Greater(t, held, shots/2)
}

// A time-lapse on a board that answers each line, whose ends are slower than such a
// board goes: refused once for 1.1 ms in 24 minutes.
func TestATimeLapseOnLockstep(t *testing.T) {
	const text = `shot = "lapse"
[clock]
capture = "1/2"
playback = "24"
loop = "240 frames"
[take]
rounds = %d
[rig]
file = "bench.toml"
[axis.rail]
from = "200 mm"
to = "240 mm"
law = "harmonic"
`
	s, err := shot.Decode("lapse.toml", fmt.Appendf(nil, text, 3), nil)
	require.NoError(t, err)
	b := sample.Bench(rig.PerMinute)
	b.Controller = rig.Lockstep.Defaults()
	b.Controller.Baud = 57600
	b.Axes[0].StepsPerUnit, b.Axes[0].MaxSpeed, b.Axes[0].MaxAcc, b.Axes[0].MaxJerk = exact.Int(200), 30, 150, 0
	p, err := plan.Build(s, b)
	require.NoError(t, err)
	tr := trajectory.New(p)
	c, err := ontime.Choose(tr, 3)
	require.NoError(t, err)
	require.True(t, c.Expected.Follows(), "%+v", c.Expected)
	assert.Less(t, math.Abs(c.Expected.Axes[0].Worst), ontime.PromisedDistance)
	assert.Greater(t, c.Expected.Unsure, 0.01, "how soon a host answers after a dwell is not known")
}
