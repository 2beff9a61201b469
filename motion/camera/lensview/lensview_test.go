package lensview_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

// onStand is a lantern of six panes on a stand that turns once in 7.2 s, filmed
// for 1.2 s, and a rail that rests.
const onStand = `
[clock]
capture = "120"
playback = "24"
loop = "144 frames"
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
backlash = "0.05 mm"
[rig.stand.display.speed.slow]
period = "7.2 s"
uncertainty = "0.001 s"
[axis.rail]
at = "40 mm"
[camera]
magnification = "1:3"
focal-length = "100 mm"
pitch = "20 um"
shutter = "1/250 s"
front-diameter = "60 mm"
front-ahead = "300 mm"
[scene]
distance = "439 mm"
[scene.axis.rail]
measured-at = "40 mm"
[scene.product]
sides = 6
radius = "45 mm"
height = "100 mm"
[spin.display]
`

func planned(t *testing.T, text string) (*trajectory.Trajectory, shot.Shot) {
	t.Helper()
	s, err := shot.Decode("f", []byte(text), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	return trajectory.New(p), s
}

func examined(t *testing.T, text string) picture.Report {
	t.Helper()
	tr, s := planned(t, text)
	r, err := lensview.Examine(tr, s)
	require.NoError(t, err)
	require.NotNil(t, r)
	return *r
}

func figure(t *testing.T, r picture.Report, check, name string) float64 {
	t.Helper()
	v, ok := r.Find(check)
	require.True(t, ok, check)
	f, ok := v.Figure(name)
	require.True(t, ok, "%s of %+v", name, v)
	return f
}

// A stand that nobody steps turns the product in the picture: a corner, 45 mm
// out, comes to the lens at 394 mm and goes 45*2 pi/7.2 mm a second there, before
// a lens that shows 16.67 px a mm at 400.
func TestAStandTurnsTheProduct(t *testing.T) {
	r := examined(t, onStand)
	const corner = 45 * 2 * math.Pi / 7.2 / 250 * 16.667 * 400 / 394
	assert.InDelta(t, corner, figure(t, r, "smear", "turntable"), 0.01)
	assert.InDelta(t, 0, figure(t, r, "seam in the picture", "jump"), 1e-6, "a sixth of a turn, six panes")
	_, stepped := r.Find("steps of display")
	assert.False(t, stepped)
	_, lags := r.Find("backlash of display")
	assert.False(t, lags)
	assert.InDelta(t, 439-300-45, figure(t, r, "clearance", "gap"), 1e-6, "any pane may be in front, so a corner counts")
	assert.Contains(t, r.Verdicts[0].Text, "nearest")
}

// A table that holds still under the stand, whatever its role, changes nothing:
// preview, tables and hand-offs look through the same scene.
func TestAStandTurnsTheProductOnATableThatHoldsStill(t *testing.T) {
	table := `
[rig.axis.table]
letter = "A"
travel = "endless"
speed = "60 deg/s"
acceleration = "90 deg/s2"
steps = "100 per deg"
[axis.table]
move = "hold"
at = "0 deg"
[scene.axis.table]
role = "table"
`
	alone, on := examined(t, onStand), examined(t, onStand+table)
	assert.InDelta(t, figure(t, alone, "smear", "turntable"), figure(t, on, "smear", "turntable"), 1e-12)
	tr, s := planned(t, onStand+table)
	scene, ok := lensview.Scene(s, *s.Rig)
	require.True(t, ok)
	v, err := picture.NewViewer(lensview.Motion(tr), scene)
	require.NoError(t, err)
	assert.InDelta(t, -60, v.At(1.2).Table-v.At(0).Table, 1e-9, "a sixth of its turn, clockwise")
}

// A stand that is off by a degree jumps by a degree at the rim.
func TestAStandThatDoesNotCloseJumps(t *testing.T) {
	r := examined(t, strings.Replace(onStand, `"7.2 s"`, `"7.08196721311475 s"`, 1))
	want := 38.971 * 3.14159265 / 180 * 16.667
	assert.InDelta(t, want, figure(t, r, "seam in the picture", "jump"), 0.02*want)
}

func TestSceneTakesBacklashFromTheRig(t *testing.T) {
	s, err := shot.Decode("f", []byte(onStand), nil)
	require.NoError(t, err)
	scene, ok := lensview.Scene(s, *s.Rig)
	require.True(t, ok)
	assert.Equal(t, map[string]float64{"rail": 0.05}, scene.Backlash)
	assert.Equal(t, "display", scene.Stand.TableAxis)
	assert.True(t, scene.Stand.Loose)
	assert.False(t, s.Scene.Stand.Loose, "the shot's own scene is left alone")
	assert.Nil(t, s.Scene.Backlash)
}

// A longer loop is told as a cure once it was planned: with its frames, and as one
// that keeps the picture.
func TestALongerLoopIsPlanned(t *testing.T) {
	fast := strings.NewReplacer("[rig.stand.display.speed.slow]\nperiod = \"7.2 s\"\nuncertainty = \"0.001 s\"\n", "", "[spin.display]\n", "",
		"[axis.rail]\nat = \"40 mm\"", "[axis.rail]\nfrom = \"40 mm\"\nto = \"100 mm\"", "[scene.axis.rail]", "[scene.axis.rail]\nheading = \"right\"").Replace(onStand)
	v, ok := examined(t, fast).Find("smear")
	require.True(t, ok)
	require.Equal(t, picture.Poor, v.Level, v.Text)
	var frames string
	for _, c := range v.Cures.Words() {
		if rest, found := strings.CutPrefix(c, "a loop of "); found {
			frames = rest
		}
	}
	require.NotEmpty(t, frames, "%v", v)
	longer, _ := examined(t, strings.Replace(fast, "144 frames", frames, 1)).Find("smear")
	assert.Equal(t, picture.Good, longer.Level)
	px, _ := longer.Figure("together")
	assert.Greater(t, px, 7.0, "no longer than it takes")
}

func TestNoScene(t *testing.T) {
	head, _, _ := strings.Cut(onStand, "[camera]")
	tr, s := planned(t, head)
	r, err := lensview.Examine(tr, s)
	require.NoError(t, err)
	assert.Nil(t, r)
	assert.Empty(t, lensview.Blocking(r))
}

func TestBlocking(t *testing.T) {
	r := examined(t, strings.Replace(onStand, `"300 mm"`, `"390 mm"`, 1))
	require.Len(t, lensview.Blocking(&r), 0)
	r = examined(t, strings.Replace(onStand, `"300 mm"`, `"395 mm"`, 1))
	var blocked []string
	for _, v := range lensview.Blocking(&r) {
		blocked = append(blocked, v.Check)
	}
	assert.Equal(t, []string{"clearance", "way to the start"}, blocked)
}

// What only the move shows has a line too.
func TestFaultsHaveLines(t *testing.T) {
	near := strings.NewReplacer("magnification = \"1:3\"\n", "", `"439 mm"`, `"130 mm"`, "front-diameter = \"60 mm\"\nfront-ahead = \"300 mm\"\n", "")
	tr, s := planned(t, near.Replace(onStand))
	_, err := lensview.Examine(tr, s)
	assert.ErrorContains(t, err, "f:23:12: scene.distance 130 mm must leave the product's near face beyond the focal length in frame 0")
}
