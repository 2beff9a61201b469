package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/picture"
	"seamrail/motion/track"
)

func placed(t *testing.T, m picture.Motion, every int64) picture.Placed {
	t.Helper()
	p, err := picture.NewPlaced(m, bench(), every)
	require.NoError(t, err)
	return p
}

// Two slides that go along a circle carry the lens along it, and a pan turns what it sees:
// halfway between two ends is nowhere that the lens ever is.
func TestPlacedOnAnArcThatPans(t *testing.T) {
	circle := func(of func(float64) float64, radius float64) course {
		return func(sec float64) track.State { return track.State{Pos: radius * of(2*math.Pi*sec)} }
	}
	m := at(t, 120, 120).with("across", circle(math.Sin, 80)).with("push", circle(math.Cos, 80)).with("pan", steady(0, 90))
	p := placed(t, m, 10)
	require.Len(t, p.Way, 13)
	for k, at := range p.Way {
		assert.InDelta(t, 80, math.Hypot(at.X, at.Y+distance), 1e-6, "sample %d", k)
	}
	assert.InDelta(t, 80, p.Way[3].X, 1e-6, "a quarter round")
	require.Equal(t, picture.FieldItem, p.Carried[2].Kind)
	for k, points := range p.Carried[2].At {
		middle := math.Atan2((points[1].X+points[2].X)/2-points[0].X, (points[1].Y+points[2].Y)/2-points[0].Y)
		assert.InDelta(t, -90*float64(k)/12, middle*180/math.Pi, 1e-6, "to the left, seen from above")
	}
}

// What the table turns is told as it goes on, past a whole turn and up to the seam.
func TestPlacedTable(t *testing.T) {
	p := placed(t, at(t, 120, 120).with("table", steady(30, 720)), 48)
	require.Len(t, p.Table, 4)
	for k, want := range []float64{0, 288, 576, 720} {
		assert.InDelta(t, want, p.Table[k], 1e-6)
	}
}
