package picture_test

import (
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/camera/picture"
)

// A lens of 100 mm at 1:1 whose entrance pupil is 66.7 mm behind its principal point
// (p = 0.6), worked from similar triangles: it stands 266.7 mm from the plane in
// focus, and its picture is 20 mm
// wide in focus; everything else follows from lines through the pupil.
func TestPupilRatioInThePicture(t *testing.T) {
	const p, off = 0.6, 10.0
	behind := focal * (1/p - 1)
	s := bench()
	s.Lens.Magnification, s.Lens.PupilRatio = scene.Is(1), scene.Is(p)
	s.Stand.Distance = scene.Is(200 + radius)
	m := at(t, 120, 240).with("push", swing(0, off, 2)) // the near face comes 10 mm nearer than the focus
	r := examine(t, m, s)
	v := find(t, r, "magnification")
	assert.InDelta(t, 1, figure(t, v, "least"), 1e-5)
	assert.InEpsilon(t, (200+behind)/(200+behind-off), figure(t, v, "greatest"), 1e-5, "as the pupil sees it, not the principal point")
	v = find(t, r, "field of view")
	assert.InEpsilon(t, 20*(190+behind)/(200+behind), figure(t, v, "width at nearest"), 1e-5)
	assert.InDelta(t, 2*math.Atan(10/(200+behind))*180/math.Pi, figure(t, v, "angle of view"), 1e-9)
	v = find(t, r, "focus")
	opening := focal / 8
	spot := opening * off / (190 + behind) // the cone in the plane in focus, which comes out as large
	assert.InEpsilon(t, spot/pitch, figure(t, v, "blur"), 1e-4)
	c := 2 * pitch
	assert.InDelta(t, 200+behind-(200+behind)*opening/(opening+c), 200-figure(t, v, "near limit"), 1e-9)
	assert.InDelta(t, (200+behind)*opening/(opening-c)-behind, figure(t, v, "far limit"), 1e-9)
	assert.InDelta(t, -off, figure(t, v, "drift"), 1e-4)
	assert.InDelta(t, 8*(1+1/p), figure(t, find(t, r, "diffraction"), "effective aperture"), 1e-9)
}

// The light follows how far the lens is drawn out, not what comes before it.
func TestEffectiveApertureIsOfTheFocus(t *testing.T) {
	far := find(t, examine(t, at(t, 120, 240).with("push", steady(0, 0)), bench()), "diffraction")
	near := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 150, 2)), bench()), "diffraction")
	assert.Equal(t, figure(t, far, "effective aperture"), figure(t, near, "effective aperture"))
	assert.InDelta(t, 8*4.0/3, figure(t, far, "effective aperture"), 1e-12)
	pulled := find(t, examine(t, at(t, 120, 240).with("pull", swing(400, 200, 2)), bench()), "diffraction")
	assert.InDelta(t, 16, figure(t, pulled, "effective aperture"), 1e-3, "drawn out to 1:1, where it is darkest")
}

// A marked f/11 is 2^3.5 for light and for focus alike.
func TestFocusUsesTheExactAperture(t *testing.T) {
	m := at(t, 120, 240).with("push", swing(0, 10, 2))
	s := bench()
	s.Lens.Aperture = scene.Is(11)
	eleven := figure(t, find(t, examine(t, m, s), "focus"), "blur")
	s.Lens.Aperture = scene.Is(math.Exp2(3.5))
	assert.InEpsilon(t, figure(t, find(t, examine(t, m, s), "focus"), "blur"), eleven, 1e-12)
	v, err := picture.NewViewer(m, s)
	assert.NoError(t, err)
	assert.InEpsilon(t, focal/math.Exp2(3.5), v.Iris().Value, 1e-12)
}

// Those who draw see from the pupil too.
func TestViewerSeesFromThePupil(t *testing.T) {
	s := bench()
	s.Lens.PupilRatio = scene.Is(0.8)
	v, err := picture.NewViewer(at(t, 120, 2), s)
	assert.NoError(t, err)
	w := v.At(0)
	assert.InDelta(t, -distance-25, w.Pose.At.Y, 1e-9)
	assert.InDelta(t, 425, w.Focus, 1e-9)
	assert.InEpsilon(t, 1.0/3, w.Scale*pitch/w.Focus, 1e-12)
}
