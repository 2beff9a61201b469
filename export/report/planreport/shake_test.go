package planreport_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/planreport"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
	"seamrail/motion/vibration/survey"
)

const springShot = `[clock]
capture = "120"
playback = "24"
loop = "5 s"
[axis.rail]
from = "40 mm"
to = "42 mm"
dwell-far = "30 frames"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
shake = { frequency = "4 Hz", damping = "5 %" }
`

// springy is a rail that goes 2 mm there and back in a real second, a quarter
// of it at rest, and swings four times in it.
func springy(t *testing.T, damping float64) (*trajectory.Trajectory, verify.Verdict) {
	t.Helper()
	s, err := shot.Decode("s", []byte(springShot), nil)
	require.NoError(t, err)
	s.Rig.Axes[0].Shake.Spring.Damping = damping
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	tr := trajectory.New(p)
	return tr, verify.Check(tr)
}

func TestTheReportTellsTheAfterShake(t *testing.T) {
	tr, v := springy(t, 0.05)
	opt := planreport.Data{Shakes: survey.OfPlan(tr.Plan(), 10)}
	require.Len(t, opt.Shakes, 1)
	var b bytes.Buffer
	require.NoError(t, report.Text(&b, judged(tr, v, opt).Report(), false))
	text := b.String()
	for _, want := range []string{"AFTER-SHAKE", "4 Hz, damping 5 %", "beside the carriage", "at rest", "swings by", "px)"} {
		assert.Contains(t, text, want)
	}
	for line := range strings.Lines(text) {
		assert.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), 80)
	}

	b.Reset()
	require.NoError(t, report.JSON(&b, judged(tr, v, opt).Facts()))
	var d planreport.Document
	require.NoError(t, json.Unmarshal(b.Bytes(), &d))
	require.Len(t, d.Shakes, 1)
	s := d.Shakes[0]
	assert.Equal(t, "rail", s.Axis)
	assert.InDelta(t, opt.Shakes[0].Worst.Value, s.Worst, 1e-5)
	assert.InDelta(t, 10*max(s.Worst, -s.Worst), *s.Pixels, 1e-4)
	require.Len(t, s.Rests, 1)
	assert.InDelta(t, 0.25, s.Rests[0].Lasts, 1e-6)
	assert.Greater(t, s.Rests[0].Swing, s.Rests[0].Left)
}

func TestNoAfterShakeWithoutASpring(t *testing.T) {
	tr, v := load(t, "reveal")
	opt := planreport.Data{Shakes: survey.OfPlan(tr.Plan(), 10)}
	assert.Empty(t, opt.Shakes)
	var b bytes.Buffer
	require.NoError(t, report.Text(&b, judged(tr, v, opt).Report(), false))
	assert.NotContains(t, b.String(), "AFTER-SHAKE")

	tr, v = springy(t, 0) // four whole swings a round and no damping
	b.Reset()
	require.NoError(t, report.Text(&b, judged(tr, v, planreport.Data{Shakes: survey.OfPlan(tr.Plan(), 0)}).Report(), false))
	assert.Contains(t, strings.Join(strings.Fields(b.String()), " "), "nothing damps it")
}
