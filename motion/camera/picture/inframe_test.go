package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/camera/picture"
	"seamrail/motion/scene"
	"seamrail/motion/track"
)

// small is a bench with a box that is 20 mm wide, 8 deep and 10 high, level with the lens.
func small() scene.Scene {
	s := bench()
	s.Product = scene.Product{Shape: scene.Box, Width: scene.Is(20), Depth: scene.Is(8), Height: scene.Is(10)}
	s.Lens.Magnification, s.Lens.Focus = scene.Number{}, scene.Is(distance-4)
	return s
}

// pinhole is where a point comes in the picture of a pinhole camera, in px from its middle:
// f X/Z (Hartley and Zisserman, Multiple View Geometry, 2nd ed., 2004, chapter 6, ISBN
// 0-521-54051-8), the image standing where a thin lens of the focal length has it in focus
// (Hecht, Optics, 5th ed., chapter 5, ISBN 978-0-13-397722-6).
func pinhole(x, depth, focusedAt float64) float64 {
	image := 1 / (1/focal - 1/focusedAt)
	return image * x / depth / pitch
}

// aside holds the camera so far right of the product.
func asideBy(mm float64) scene.Scene {
	s := small()
	s.Stand.Aside = scene.Is(mm)
	return s
}

// A camera that slides so far that the near left corner of the box is just in the picture,
// or just not: both sides of the edge, as a pinhole has it.
func TestInFrameAtTheEdge(t *testing.T) {
	near := distance - 4
	// The corner is at the edge where f X/Z is half of the picture.
	just := (wide/2)*pitch*near/(1/(1/focal-1/near)) - 10
	assert.InDelta(t, wide/2, pinhole(just+10, near, near), 1e-9)
	pixel := pitch * near / (1 / (1/focal - 1/near))
	for _, c := range []struct {
		off   float64 // px past the edge
		level picture.Level
		says  string
	}{
		{-3, picture.Good, "all of the product is in the picture throughout, with 3 px to spare on the left side"},
		{-0.6, picture.Good, "with 0.6"},
		{-0.4, picture.Fair, "touches the left edge of the picture at frame 120"},
		{0.4, picture.Fair, "touches the left edge"},
		{0.6, picture.Fair, "the left edge of the picture cuts the product off"},
		{40, picture.Fair, "by 1 % of the frame at most"},
	} {
		m := at(t, 120, 240).with("across", swing(0, just+c.off*pixel, 2))
		v := find(t, examine(t, m, small()), "in frame")
		assert.Equal(t, c.level, v.Level, "%g px: %s", c.off, v.Text)
		assert.Contains(t, v.Text, c.says)
	}
	m := at(t, 120, 240).with("across", swing(0, just+40*pixel, 2))
	v := find(t, examine(t, m, small()), "in frame")
	assert.InDelta(t, 40, figure(t, v, "cut off"), 0.02, "the middle of an exposure is just beside the turnaround")
	assert.EqualValues(t, 120, v.When.Frame)
	assert.NotEmpty(t, v.Cures.Words(), "%v", v)
}

// What is so throughout is a close-up, and what comes and goes where the shot wants it is
// no fault.
func TestInFrameWhereItIsMeant(t *testing.T) {
	still := at(t, 120, 48)
	v := find(t, examine(t, still, bench()), "in frame")
	assert.Equal(t, picture.Good, v.Level)
	assert.Equal(t, "the product reaches past the picture throughout, on the left, right, lower, upper sides, as in a close-up", v.Text)
	v = find(t, examine(t, still, asideBy(30)), "in frame")
	assert.Equal(t, picture.Good, v.Level, v.Text)
	assert.Contains(t, v.Text, "throughout, on the left side")

	s := small()
	s.MayLeave = true
	past := at(t, 120, 240).with("across", swing(-60, 60, 2))
	v = find(t, examine(t, past, s), "in frame")
	assert.Equal(t, picture.Good, v.Level)
	assert.Contains(t, v.Text, "as the shot wants it")
	s.MayLeave = false
	v = find(t, examine(t, past, s), "in frame")
	assert.Equal(t, picture.Poor, v.Level, v.Text)
	// The far corners are the last to be seen: 20 mm, 444 mm away from the lens.
	gone := wide / 2 / pinhole(1, distance+4, distance-4)
	share := 1 - 2*math.Asin((gone+10)/60)/math.Pi
	assert.InDelta(t, 100*share, figure(t, v, "frames without the product"), 100.0/240*2)
}

// A product that turns is followed by its own outline, not by the circle that it sweeps:
// a corner that comes to the edge is told when it does.
func TestInFrameFollowsTheTurn(t *testing.T) {
	s := asideBy(0)
	s.Product.Width = scene.Is(58)
	s.Product.Depth = scene.Is(40)
	m := at(t, 120, 240).with("table", func(sec float64) track.State { return track.State{Pos: 180 * sec, Vel: 180} })
	v := find(t, examine(t, m, s), "in frame")
	worst, when := 0.0, 0
	for k := range 240 {
		sin, cos := math.Sincos(math.Pi * (float64(k)/120 + 0.5*open))
		for _, c := range [][2]float64{{29, 20}, {29, -20}, {-29, 20}, {-29, -20}} {
			x, y := c[0]*cos-c[1]*sin, c[0]*sin+c[1]*cos
			if past := math.Abs(pinhole(x, distance+y, distance-4)) - wide/2; past > worst {
				worst, when = past, k
			}
		}
	}
	assert.InDelta(t, worst, figure(t, v, "cut off"), 2)
	assert.InDelta(t, 0, math.Remainder(float64(int(v.When.Frame)-when), 120), 1.5, "%d and %d: half a turn looks the same", v.When.Frame, when)
}

// What is not known is said.
func TestInFrameSaysWhatIsMissing(t *testing.T) {
	s := small()
	s.Product.Height = scene.Number{}
	v := find(t, examine(t, at(t, 120, 48), s), "in frame")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.Contains(t, v.Missing, "height of the product: what is above and below is left out")
	s = small()
	s.Camera.PixelsWide = scene.Number{}
	v = find(t, examine(t, at(t, 120, 48), s), "in frame")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.Contains(t, v.Missing, "pixels wide")
}

// What is not known is never said to reach past the picture.
func TestInFrameKeepsToWhatIsKnown(t *testing.T) {
	s := small()
	s.Product.Height = scene.Number{}
	v := find(t, examine(t, at(t, 120, 48), s), "in frame")
	assert.Contains(t, v.Text, "all of the product is in the picture throughout", "by what is known")
	assert.NotContains(t, v.Text, "upper")
	s = asideBy(30)
	s.Product.Height = scene.Number{}
	v = find(t, examine(t, at(t, 120, 48), s), "in frame")
	assert.Contains(t, v.Text, "past the picture throughout, on the left side, as")
}

// Frames in which a part of the product is beside or behind the lens are not left out in
// silence.
func TestInFrameTellsWhatTheLensPasses(t *testing.T) {
	m := at(t, 120, 240).with("push", swing(0, distance+2, 2))
	v := find(t, examine(t, m, small()), "in frame")
	assert.NotContains(t, v.Text, "throughout")
	assert.NotEqual(t, picture.Good, v.Level, v.Text)
}
