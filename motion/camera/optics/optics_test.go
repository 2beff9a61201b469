package optics_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/camera/optics"
)

const foot, inch = 304.8, 25.4

// The thin lens equation: 100 mm at 400 mm images at a third, 133.3 mm behind.
func TestThinLens(t *testing.T) {
	for _, c := range []struct{ f, u, m, v float64 }{
		{100, 400, 1.0 / 3, 400.0 / 3},
		{100, 200, 1, 200},
		{50, 1000, 50.0 / 950, 1e3 / 19},
		{60, 90, 2, 180},
	} {
		assert.InDelta(t, c.m, optics.Magnification(c.f, c.u), 1e-12)
		assert.InDelta(t, c.v, c.f*(1+optics.Magnification(c.f, c.u)), 1e-9)
		assert.InDelta(t, c.u, optics.FocusAt(c.f, c.m), 1e-9)
	}
	assert.True(t, math.IsInf(optics.Magnification(100, 100), 1))
	assert.Negative(t, optics.Magnification(100, 50))
}

// N(1 + m/p): J. Greivenkamp, Field Guide to Geometrical Optics. A third of
// life size at f/8 loses 0.830 stop (computed).
func TestEffectiveAperture(t *testing.T) {
	assert.InDelta(t, 32.0/3, optics.Effective(8, 1.0/3, 1), 1e-12)
	assert.InDelta(t, 0.830, optics.Stops(8, optics.Effective(8, 1.0/3, 1)), 5e-4)
	assert.InDelta(t, 2, optics.Stops(5.6, optics.Effective(5.6, 1, 1)), 1e-12)
	assert.InDelta(t, 8*(1+1.0/1.4), optics.Effective(8, 1, 1.4), 1e-12)
}

// hyperfocal is the nearest focus distance at which everything to infinity is within
// a circle of confusion c: f²/(Nc) + f (A. Greenleaf,
// Photographic Optics, Macmillan 1950).
func hyperfocal(f, n, c float64) float64 { return f*f/(n*c) + f }

// The formulas of A. Greenleaf, Photographic Optics,, worked
// for 50 mm at f/8, c 0.03 mm, 1 m.
func TestDepthWorkedExample(t *testing.T) {
	assert.InDelta(t, 10466.67, hyperfocal(50, 8, 0.03), 0.005)
	near, far := optics.Depth(50, 8, 1, 0.03, 1000)
	assert.InDelta(t, 916.42, near, 0.005)
	assert.InDelta(t, 1100.35, far, 0.005)
}

// US Navy photography course: a lens of 6.1 in at f/2.8 has its hyperfocal
// distance at 554 ft, and focused at 10 ft is sharp from 9.8 to 10.2 ft. The
// course leaves out the last focal length and rounds to a tenth of a foot. Its
// circle of confusion follows from 554 ft.
func TestDepthPublishedExample(t *testing.T) {
	f := 6.1 * inch
	c := f * f / (2.8 * 554 * foot)
	assert.InDelta(t, 554, hyperfocal(f, 2.8, c)/foot, 0.6)
	near, far := optics.Depth(f, 2.8, 1, c, 10*foot)
	assert.InDelta(t, 9.8, near/foot, 0.05)
	assert.InDelta(t, 10.2, far/foot, 0.05)
}

func TestDepthReachesInfinityAtTheHyperfocalDistance(t *testing.T) {
	h := hyperfocal(35, 11, 0.02)
	near, far := optics.Depth(35, 11, 1, 0.02, h)
	assert.True(t, math.IsInf(far, 1))
	assert.InEpsilon(t, h/2, near, 1e-12, "half the hyperfocal distance (textbook)")
}

// At the ends of the depth of field the spot is as large as the circle of
// confusion: two formulas of different origin.
func TestBlurMeetsDepth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(10, 300).Draw(t, "f")
		n := rapid.Float64Range(1, 32).Draw(t, "n")
		c := rapid.Float64Range(0.002, 0.05).Draw(t, "c")
		u := f * rapid.Float64Range(1.2, 30).Draw(t, "u over f")
		p := rapid.Float64Range(0.4, 2.5).Draw(t, "p")
		near, far := optics.Depth(f, n, p, c, u)
		assert.InEpsilon(t, c, optics.Blur(f, n, p, u, near), 1e-6)
		if !math.IsInf(far, 1) {
			assert.InEpsilon(t, c, optics.Blur(f, n, p, u, far), 1e-6)
		}
		assert.Less(t, near, u)
		assert.Greater(t, far, u)
	})
}

// The close form has no focal length; a long lens comes near it.
func TestDepthAt(t *testing.T) {
	want, _ := optics.DepthAt(0, 0.5, 8, 1, 0.01)
	assert.InDelta(t, 8*0.01*1.5/0.25, want, 1e-12)
	nearer, farther := optics.DepthAt(1e5, 0.5, 8, 1, 0.01)
	assert.InEpsilon(t, want, nearer, 1e-4)
	assert.InEpsilon(t, want, farther, 1e-4)
}

// 2.44 lambda N (Hecht, Optics): green light of 550 nm at f/16 makes 21.5 um.
func TestAiry(t *testing.T) {
	assert.InEpsilon(t, 2.44*550e-6*16, optics.Airy(16, optics.Green), 1e-3)
	assert.InDelta(t, 0, math.J1(math.Pi*optics.Airy(1, 1e6)/2), 1e-15, "the zero of J1 the factor stands on")
}

// A frame 36 mm wide with 50 mm at infinity sees 39.6 degrees: 2 atan(18/50).
func TestAngleOfView(t *testing.T) {
	assert.InDelta(t, 39.6, optics.AngleOfView(36, 50), 0.01)
	assert.InDelta(t, 90, optics.AngleOfView(2, 1), 1e-12)
}

// A lens that focuses by moving as a whole breathes by its greatest magnification over the
// pupil ratio: what it sees is then that of the two principal planes, at every focus.
func TestBreathingOfALensThatMovesAsAWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, p := rapid.Float64Range(20, 200).Draw(t, "f"), rapid.Float64Range(0.5, 2).Draw(t, "p")
		nearest := f * rapid.Float64Range(1.5, 10).Draw(t, "nearest")
		u := nearest * rapid.Float64Range(1, 50).Draw(t, "u")
		share := optics.Magnification(f, nearest) / p
		want := optics.Extension(f, optics.Magnification(f, u), p) / f
		assert.InEpsilon(t, want, optics.Breathing(share, f, nearest, u), 1e-12)
	})
}
