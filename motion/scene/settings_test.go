package scene_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/scene"
)

// Two of focal length, magnification and focus give the third: at 1:1 a lens of 60 mm
// is sharp at two focal lengths from it, 120 mm (the thin lens, any textbook).
func TestThirdOfTheLens(t *testing.T) {
	f, m, u := scene.Is(60), scene.Is(1), scene.Is(120)
	whole := scene.Lens{FocalLength: f, Magnification: m, Focus: u}
	for _, known := range []scene.Lens{
		{FocalLength: f, Magnification: m}, {FocalLength: f, Focus: u}, {Magnification: m, Focus: u}, whole,
	} {
		assert.Equal(t, whole, known.Third())
	}
	assert.Equal(t, scene.Lens{Focus: u}, scene.Lens{Focus: u}.Third(), "one says nothing of the others")
}

// A time is a time at any rate, and an angle the part of a captured frame that it is of
// the whole circle.
func TestHowLongTheShutterIsOpen(t *testing.T) {
	assert.Equal(t, scene.Is(0.004), scene.Camera{Shutter: scene.Is(0.004)}.Open(1))
	assert.Equal(t, scene.Is(0.005), scene.Camera{ShutterAngle: scene.Is(180)}.Open(0.01))
	assert.Equal(t, scene.Number{}, scene.Camera{}.Open(0.01))
}
