package picture_test

import (
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/picture"
	"seamrail/motion/track"
)

// scale is px per mm in the plane of focus.
const scale = 1.0 / 3 / pitch

// Closed forms of each part of smear by itself; the near face lies in the
// plane of focus, 400 mm from the lens, at frame 0.
func TestSmearOfEachPart(t *testing.T) {
	const depth = distance - radius
	rad := func(deg float64) float64 { return deg * math.Pi / 180 }
	image := focal * 4 / 3
	for _, c := range []struct {
		name, axis string
		c          course
		of         func(picture.Smear) float64
		want       float64
	}{
		{"sideways", "across", steady(0, 30), func(s picture.Smear) float64 { return s.Sideways }, 30 * open * scale},
		// X stays, depth shrinks by d about the middle of the exposure: the edge
		// is taken in the middle.
		{"push-in at the edge", "push", steady(-25*open/2, 25), func(s picture.Smear) float64 { return s.PushEdge },
			math.Hypot(wide, high) / 2 * (depth/(depth-25*open/2) - depth/(depth+25*open/2))},
		{"push-in at the centre", "push", steady(0, 25), func(s picture.Smear) float64 { return s.PushCentre }, 0},
		{"turntable", "table", steady(0, 60), func(s picture.Smear) float64 { return s.Table },
			2 * image / pitch * radius * math.Sin(rad(60*open/2)) / (distance - radius*math.Cos(rad(60*open/2)))},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := examine(t, at(t, 120, 12).with(c.axis, c.c), bench())
			require.NotEmpty(t, r.Rows)
			assert.InDelta(t, c.want, c.of(r.Rows[0].Smear), 1e-3*math.Max(1e-6, c.want))
		})
	}
}

// A pan of a degrees about the lens moves what was in the middle by the
// tangent; at the edge, where x = w/2, the picture moves faster by 1 + tan².
func TestSmearOfPan(t *testing.T) {
	r := examine(t, at(t, 120, 1).with("pan", steady(-4*open/2, 4)), bench())
	edge := math.Atan(wide / 2 * pitch / (focal * 4 / 3))
	a := 4 * open / 2 * math.Pi / 180
	x := focal * 4 / 3 / pitch * (math.Tan(edge+a) - math.Tan(edge-a))
	y := high / 2 * (math.Cos(edge)/math.Cos(edge+a) - math.Cos(edge)/math.Cos(edge-a))
	assert.InEpsilon(t, math.Hypot(x, y), r.Rows[0].Smear.Pan, 1e-4)
	assert.Zero(t, r.Rows[0].Smear.Tilt)
	assert.Zero(t, r.Rows[0].Smear.Table)
}

// A pan about a pivot b behind the lens carries the lens along: a point D from
// the pivot is seen at D sin a/(D cos a - b).
func TestSmearOfPanAboutAPivot(t *testing.T) {
	const behind, reach = 90.0, 90 + distance - radius
	s := bench()
	s.Camera.PixelsHigh, s.Camera.PixelsWide = scene.Is(2), scene.Is(2)
	s.Product.Height, s.Stand.PivotBehind = scene.Number{}, scene.Is(behind)
	r := examine(t, at(t, 120, 1).with("pan", steady(-4*open/2, 4)), s)
	sin, cos := math.Sincos(4 * open / 2 * math.Pi / 180)
	assert.InEpsilon(t, 2*focal*4/3/pitch*reach*sin/(reach*cos-behind), r.Rows[0].Smear.Pan, 1e-6)
}

// Parts add as vectors: a pan that follows the carriage holds the face still.
func TestSmearTogetherIsAVectorSum(t *testing.T) {
	const speed = 30.0
	follow := speed / (distance - radius) * 180 / math.Pi // to the left as the carriage goes right
	s := bench()
	s.Camera.PixelsHigh = scene.Is(2) // the near face and its like alone, no corners
	s.Camera.PixelsWide = scene.Is(2)
	s.Product.Height = scene.Number{}
	m := at(t, 120, 1).with("across", steady(-speed*open/2, speed)).with("pan", steady(-follow*open/2, follow))
	smear := examine(t, m, s).Rows[0].Smear
	assert.InEpsilon(t, speed*open*scale, smear.Sideways, 0.01)
	assert.InEpsilon(t, smear.Sideways, smear.Pan, 0.01)
	assert.Less(t, smear.Together, 0.01*smear.Sideways)
	against := at(t, 120, 1).with("across", steady(-speed*open/2, speed)).with("pan", steady(follow*open/2, -follow))
	smear = examine(t, against, s).Rows[0].Smear
	assert.InEpsilon(t, smear.Sideways+smear.Pan, smear.Together, 1e-3)
}

// The worst frame of a cosine is a quarter of the way through.
func TestWorstSmear(t *testing.T) {
	m := at(t, 120, 240).with("across", swing(-5, 5, 2))
	v := find(t, examine(t, m, bench()), "smear")
	speed := 5 * math.Pi
	assert.InEpsilon(t, speed*open*scale, figure(t, v, "sideways"), 1e-3)
	assert.Contains(t, []int64{59, 60, 179, 180}, v.When.Frame)
	assert.InDelta(t, float64(v.When.Frame)/120, v.When.Seconds, 1e-12)
	assert.InDelta(t, 5*v.When.Seconds, v.When.OnScreen, 1e-9)
}

func TestSmearSpeaks(t *testing.T) {
	for _, c := range []struct {
		speed float64
		level picture.Level
		says  string
	}{
		{0, picture.Good, "smear 0 px at frame 0 (near face): sharp"},
		{11.7, picture.Good, "smear 3.1 px at frame 0 (near face): soft but natural"},
		{60, picture.Poor, "smear 16 px at frame 0 (near face): runs"},
	} {
		v := find(t, examine(t, at(t, 120, 1).with("across", steady(0, c.speed)), bench()), "smear")
		assert.Equal(t, c.level, v.Level)
		assert.Equal(t, c.says, v.Text)
	}
}

// A point that turns round within the exposure has come and gone: its path is
// both ways.
func TestSmearRoundATurn(t *testing.T) {
	const w, a, turn = 20.0, 3.0, 0.3 * open
	c := func(sec float64) track.State {
		sin, cos := math.Sincos(w * (sec - turn))
		return track.State{Pos: a * cos, Vel: -a * w * sin}
	}
	r := examine(t, at(t, 120, 1).with("across", c), bench())
	want := a * scale * (2 - math.Cos(w*turn) - math.Cos(w*(open-turn)))
	assert.InEpsilon(t, want, r.Rows[0].Smear.Sideways, 0.01)
}

// With a marked magnification alone, what the carriage does sideways and what
// the table does is told, and the rest is asked for.
func TestMarkedMagnificationAlone(t *testing.T) {
	s := bench()
	s.Lens.FocalLength, s.Stand.Distance = scene.Number{}, scene.Number{}
	m := at(t, 120, 2).with("across", steady(0, 30)).with("push", steady(0, 30)).with("pan", steady(0, 1))
	r := examine(t, m, s)
	v := find(t, r, "smear")
	assert.InEpsilon(t, 30*open*scale, figure(t, v, "together"), 1e-5)
	assert.NotEmpty(t, v.Missing)
	assert.Equal(t, picture.Unknown, find(t, r, "focus").Level)
	assert.Contains(t, find(t, r, "clearance").Missing, "distance")
}

// What is not known is asked for, and nothing is made up.
func TestAnEmptyScene(t *testing.T) {
	r := examine(t, at(t, 24, 4).with("rail", steady(0, 1)), scene.Scene{})
	for _, v := range r.Verdicts {
		assert.Equal(t, picture.Unknown, v.Level, v.Check)
		assert.NotEmpty(t, v.Missing, v.Check)
		assert.Contains(t, v.Text, "not known: ")
	}
	assert.Empty(t, r.Rows)
	assert.Equal(t, picture.Unknown, r.Worst())
}
