package fitreport_test

import (
	"context"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/fitreport"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/law"
	"seamrail/motion/plan/loopsearch"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/shot"
)

const sideways = `shot = "Past the lantern"
[clock]
capture = "120"
playback = "24"
loop = "96 frames"
[rig]
rig = "Bench rail"
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "800 per mm"
[axis.rail]
from = "40 mm"
to = "52 mm"
[camera]
magnification = "1:3"
pitch = "5 um"
pixels-wide = 4000
shutter = "1/250 s"
aperture = "f/8"
iso = 100
[scene]
light = "800 lx"
[scene.axis.rail]
heading = "left"
`

func found(t *testing.T, text string, from, to int64) fitreport.Data {
	t.Helper()
	s, err := shot.Decode("f", []byte(text), nil)
	require.NoError(t, err)
	scene, ok := lensview.Scene(s, *s.Rig)
	require.True(t, ok)
	l, err := law.Named("3-4-5")
	require.NoError(t, err)
	q := loopsearch.Question{Shot: s, Rig: *s.Rig, Scene: scene, From: from, To: to, Laws: []law.Law{l}, Accept: picture.Fair}
	a, err := loopsearch.Search(context.Background(), q)
	require.NoError(t, err)
	return fitreport.Data{Title: s.Title, Rig: s.Rig.Name, Question: q, Laws: q.Laws, Answer: a, Command: "seamrail plan past.toml"}
}

func written(t *testing.T, d fitreport.Data) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.Text(&b, d.Report(), false))
	for line := range strings.Lines(b.String()) {
		assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 80, line)
	}
	return b.String()
}

func TestGolden(t *testing.T) {
	sample.Golden(t, "found.txt", written(t, found(t, sideways, 48, 384)))
	sample.Golden(t, "none.txt", written(t, found(t, sideways, 24, 48)))
}

func TestLittleStrainIsNotNone(t *testing.T) {
	d := found(t, sideways, 48, 384)
	d.Answer.Gentlest.Strain = 0.004
	assert.Contains(t, written(t, d), "less than 1 % of its acceleration and jerk")
	d.Answer.Gentlest.Strain = 0.006
	assert.NotContains(t, written(t, d), "less than 1 %")
}

func TestJSON(t *testing.T) {
	d := found(t, sideways, 48, 384)
	var b strings.Builder
	require.NoError(t, report.JSON(&b, d.Facts()))
	var out fitreport.Document
	require.NoError(t, json.Unmarshal([]byte(b.String()), &out))
	assert.Equal(t, fitreport.Schema, out.Schema)
	require.NotNil(t, out.Quickest)
	assert.Equal(t, d.Answer.Quickest.Frames(), out.Quickest.Screen)
	assert.Equal(t, d.Answer.Gentlest.Frames(), out.Gentlest.Screen)
	assert.Contains(t, out.Quickest.Command, "past.toml --loop \"")
	assert.Equal(t, d.Answer.Kept, out.Kept)
	require.NotEmpty(t, out.Standing)
	assert.Equal(t, "light", out.Standing[0].Check)

	b.Reset()
	require.NoError(t, report.JSON(&b, found(t, sideways, 24, 48).Facts()))
	assert.Contains(t, b.String(), `"quickest": null`)
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestTheWritersErrorComesThrough(t *testing.T) {
	d := found(t, sideways, 24, 48)
	assert.ErrorContains(t, report.Text(full{}, d.Report(), false), "disk full")
	assert.ErrorContains(t, report.JSON(full{}, d.Facts()), "disk full")
}
