package picture_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/picture"
	"seamrail/motion/sample"
)

// lantern is the six-sided lantern before a lens that pushes in on it.
func lantern() picture.Scene {
	s := bench()
	s.Product = picture.Product{Shape: picture.Prism, Sides: 6, Radius: picture.Is(45), Height: picture.Is(120)}
	s.Stand.Slides = []picture.Slide{{Axis: "rail", Zero: 40}}
	s.Camera.Shutter = picture.Is(1.0 / 50)
	return s
}

// A planned trajectory is a Motion. A rail that rests at the seam makes none.
func TestTrajectoryIsAMotion(t *testing.T) {
	r := examine(t, sample.Still(t), lantern())
	assert.Len(t, r.Rows, 24)
	assert.Equal(t, picture.Good, find(t, r, "seam in the picture").Level)
	assert.Equal(t, picture.Good, find(t, r, "clearance").Level)
	assert.InDelta(t, 438-45, figure(t, find(t, r, "clearance"), "gap to swept circle"), 1e-6)
}

// A seventh of a turn does not close a lantern of six panes, and its ramps are
// looked at as well.
func TestRampsAreLookedAt(t *testing.T) {
	r := examine(t, sample.Through(t), lantern())
	assert.Equal(t, picture.Poor, find(t, r, "seam in the picture").Level)
	v := find(t, r, "clearance")
	assert.InDelta(t, 438-45, figure(t, v, "gap"), 1e-6, "some round turns a corner to the lens")
}

func BenchmarkExamine(b *testing.B) {
	m, s := sample.Through(b), lantern()
	for b.Loop() {
		_, _ = picture.Examine(m, s)
	}
}

// A hundred seconds at 24 a second: 2400 frames.
func BenchmarkExamineLong(b *testing.B) {
	m, s := sample.Long(b), lantern()
	for b.Loop() {
		_, _ = picture.Examine(m, s)
	}
}
