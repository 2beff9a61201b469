package motionplot

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

const lanternShot = `
shot = "Fernhollow lantern, slow reveal"
[clock]
capture = "119.88"
playback = "23.976"
loop = "144 frames"
[rig]
rig = "Bench rail and table"
[rig.axis.rail]
kind = "linear"
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
jerk = "60000 mm/s3"
steps = "80 per mm"
[rig.axis.table]
kind = "rotary"
letter = "A"
travel = "endless"
speed = "90 deg/s"
acceleration = "180 deg/s2"
gear = "36:1"
motor-steps = 200
microsteps = 8
[axis.rail]
move = "there-and-back"
from = "40 mm"
to = "100 mm"
law = "3-4-5"
dwell-far = "12 frames"
[axis.table]
move = "turn"
turns = "1/6"
law = "uniform"
`

func built(t *testing.T) (*trajectory.Trajectory, verify.Verdict) {
	t.Helper()
	s, err := shot.Decode("lantern.toml", []byte(lanternShot), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	tr := trajectory.New(p)
	return tr, verify.Check(tr)
}

// TestFromTrajectoryAgreesWithTheClosedForm compares the planned lantern with
// the 3-4-5 polynomial of example_data_test.go, written out independently.
func TestFromTrajectoryAgreesWithTheClosedForm(t *testing.T) {
	tr, v := built(t)
	got, want := FromPlan(tr.Plan(), v), lantern()
	require.Len(t, got.Axes, 2)
	require.Equal(t, want.Captured, got.Captured)
	require.InDelta(t, want.OnScreen, got.OnScreen, 1e-12)
	// 1e-9 of a unit: far below a step, far above rounding of the polynomial.
	for i := range want.Axes {
		for sec := 0.0; sec < want.Period; sec += want.Period / 97 {
			require.InDelta(t, want.Axes[i].At(sec).Pos, got.Axes[i].At(sec).Pos, 1e-9)
			require.InDelta(t, want.Axes[i].At(sec).Vel, got.Axes[i].At(sec).Vel, 1e-7)
		}
	}
	require.Equal(t, 400.0, got.Axes[0].Limits.Max)
	require.Equal(t, 60.0, got.Axes[1].Gain)
	require.Len(t, got.Axes[0].Dwells, 1)
	require.NotEmpty(t, got.Axes[0].Seam)
	var b bytes.Buffer
	require.NoError(t, Draw(&b, "png", got, Options{Jerk: true}))
	require.NotZero(t, b.Len())
}

func TestWordsOfTheVerdict(t *testing.T) {
	v := verify.Verdict{OK: true, Findings: []verify.Finding{{OK: true}, {OK: true}}}
	require.Equal(t, "Frames, limits, seam and steps: all 2 checks hold.", words(v))
	v = verify.Verdict{Findings: []verify.Finding{{OK: true}, {Axis: "rail", Check: "speed", Text: "500 mm/s exceeds 400 mm/s"}}}
	require.Equal(t, "REJECTED: 1 of 2 checks fail; rail speed: 500 mm/s exceeds 400 mm/s", words(v))
	v = verify.Verdict{OK: true, Findings: []verify.Finding{{OK: true}}, Fails: []string{"focus", "strobing of table"}}
	require.Equal(t, "Frames, limits, seam and steps: all 1 checks hold. Will not do: focus, strobing of table.", words(v))
}
