package sheet

import (
	"image"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/plot/topview"
)

// Filmed at 120 and played at 24: 144 frames are 1.2 s of real time, of which
// the rail rests 12 frames, 0.1 s.
const lanternMoves = `shot = "Lantern"
[clock]
capture = "120"
playback = "24"
loop = "144 frames"
[take]
rounds = 3
[rig]
file = "bench.toml"
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

const lanternScene = `[camera]
sensor-width = "36 mm"
sensor-height = "20.25 mm"
pixels-wide = 1920
pixels-high = 1080
focal-length = "50 mm"
focus = "380 mm"
shutter = "1/250 s"
[scene]
distance = "454 mm"
[scene.axis.rail]
role = "slide"
heading = "push-in"
measured-at = "40 mm"
[scene.axis.table]
role = "table"
[scene.product]
shape = "prism"
sides = 6
radius = "45 mm"
height = "120 mm"
[[scene.lamps]]
name = "key"
distance = "550 mm"
bearing = "-50 deg"
kelvin = "5600 K"
`

// made plans a shot on the bench.
func made(t testing.TB, text string) (*trajectory.Trajectory, shot.Shot) {
	t.Helper()
	s, err := shot.Decode("lamp.toml", []byte(text), nil)
	require.NoError(t, err)
	bench := sample.Bench(rig.InverseTime)
	if s.Rig != nil {
		bench = *s.Rig
	}
	p, err := plan.Build(s, bench)
	require.NoError(t, err)
	return trajectory.New(p), s
}

// pageOf is the whole page of a shot, with everything that a caller adds.
func pageOf(t testing.TB, text string) Page {
	t.Helper()
	tr, s := made(t, text)
	c, err := cue.New(tr.Plan(), s)
	require.NoError(t, err)
	p := Of(tr.Plan(), s, c)
	p.NotAbove = "no scene"
	if scene, ok := lensview.Scene(s, tr.Rig()); ok {
		d, err := topview.From(lensview.Motion(tr), scene)
		require.NoError(t, err)
		p.Above = &d
		for k := range 6 {
			p.Stills = append(p.Stills, Still{"frame " + strconv.Itoa(24*k), image.NewRGBA(image.Rect(0, 0, 32, 18))})
		}
	}
	p.Cautions = []string{"The rig moves without warning.", "Glass breaks."}
	p.Foot = "Plan " + tr.Plan().Hash()
	return p
}

func lantern(t testing.TB) Page { return pageOf(t, lanternMoves+lanternScene+sample.TwoHands) }

// value is the value of a setting.
func (p Page) value(t testing.TB, name string) string {
	t.Helper()
	for _, g := range p.Groups {
		for _, r := range g.Rows {
			if r.Name == name {
				return r.Value
			}
		}
	}
	require.Fail(t, "no setting "+name)
	return ""
}

// amountOf is the number that a cell begins with.
func amountOf(t require.TestingT, cell string) float64 {
	first, _, _ := strings.Cut(cell, " ")
	v, err := strconv.ParseFloat(first, 64)
	require.NoError(t, err)
	return v
}
