package light_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/light"
)

// N²/t = E S/C of ISO 2720:1974 with C = 250 (as others quote it): 2560 lx at
// ISO 100 are EV 10, which f/5.6 (exactly 2^2.5) at 1/32 s exposes.
func TestIncidentEquation(t *testing.T) {
	assert.InDelta(t, 10, light.Value(light.Incident, 2560), 1e-12)
	assert.InDelta(t, 2560, light.Needed(light.Incident, math.Exp2(2.5), 1.0/32, 100), 1e-9)
	assert.InDelta(t, 100, light.Sensitivity(light.Incident, math.Exp2(2.5), 1.0/32, 2560), 1e-9)
}

// A lamp that lights all round gives lumens/4pi, one that lights a half room
// lumens/2pi (definition of the candela; CIE S 017).
func TestCone(t *testing.T) {
	assert.InDelta(t, 4*math.Pi, light.SolidAngle(360), 1e-12)
	assert.InDelta(t, 2*math.Pi, light.SolidAngle(180), 1e-12)
	assert.InDelta(t, 1, light.SolidAngle(2*math.Acos(1-1/(2*math.Pi))*180/math.Pi), 1e-12, "one steradian is 65.54 degrees")
	assert.InDelta(t, 100, light.Intensity(100*4*math.Pi, 360), 1e-9)
	assert.InEpsilon(t, math.Pi*math.Pow(math.Pi/180/3600, 2)/4, light.SolidAngle(1.0/3600), 1e-9, "a narrow cone is a disc")
}

// One candela gives one lux at one metre; a quarter at two; half at 60 degrees
// (definitions).
func TestInverseSquareAndCosine(t *testing.T) {
	assert.InDelta(t, 1, light.Illuminance(1, 1000, 0), 1e-12)
	assert.InDelta(t, 0.25, light.Illuminance(1, 2000, 0), 1e-12)
	assert.InDelta(t, 0.5, light.Illuminance(1, 1000, 60), 1e-12)
	assert.Zero(t, light.Illuminance(1, 1000, 90))
	assert.Zero(t, light.Illuminance(1, 1000, 120))
}

// Common practice: macro work near f/14 at 120 frames a second and 1/250 wants
// a sensitivity in the low thousands under 4500 lm at 90 %, near the product.
func TestMacroUnderABrightLamp(t *testing.T) {
	lux := light.Illuminance(light.Intensity(4500*0.9, 60), 600, 20)
	iso := light.Sensitivity(light.Incident, 14*(1+1.0/3), 1.0/250, lux)
	assert.Greater(t, iso, 1000.0)
	assert.Less(t, iso, 4000.0)
}

// Every marked aperture is the rounded value of 2^(k/6): ISO 517:2008. The
// three that tradition rounds otherwise (1.2, 3.5, 29 and the like) are within
// a twentieth.
func TestMarkedApertures(t *testing.T) {
	for k, n := range light.Apertures() {
		assert.InDelta(t, math.Exp2(float64(k)/6), light.ExactAperture(n), 1e-9, "f/%g", n)
		assert.InEpsilon(t, light.ExactAperture(n), n, 0.05)
	}
	assert.InDelta(t, 5.657, light.ExactAperture(5.6), 1e-3)
	assert.Equal(t, 7.3, light.ExactAperture(7.3))
	assert.Equal(t, 7.1, light.WiderAperture(7.9))
	assert.Equal(t, 1.0, light.WiderAperture(0.5))
	n, ok := light.NarrowerAperture(12)
	assert.True(t, ok)
	assert.Equal(t, 13.0, n)
	_, ok = light.NarrowerAperture(46)
	assert.False(t, ok)
}

// Marked times are thirds of a stop: ISO 516:2019. Rounding puts 1/13 to 1/15
// an eighth of a stop off.
func TestMarkedTimes(t *testing.T) {
	all := light.Shutters()
	for i := 1; i < len(all); i++ {
		assert.InDelta(t, 1.0/3, math.Log2(all[i]/all[i-1]), 0.13, "1/%g", all[i])
	}
	assert.Equal(t, 1.0/250, light.NoLonger(1.0/240), "1/240 is marked 1/250")
	assert.Equal(t, 1.0/50, light.NoLonger(1.0/50))
	assert.Equal(t, 3.0, light.NoLonger(3))
	assert.Equal(t, "1/250 s", light.ShutterText(0.004))
	assert.Equal(t, "2 s", light.ShutterText(2))
	assert.Equal(t, 1600.0, light.AtLeastISO(1500))
	assert.Equal(t, 8e5, light.AtLeastISO(7e5))
}

// 3200 K are 312.5 mired, and 5600 K lie 133.93 below (1e6/T, CIE S 017).
func TestMired(t *testing.T) {
	assert.InDelta(t, 312.5, light.Mired(3200), 1e-12)
	assert.InDelta(t, -133.93, light.Mired(5600)-light.Mired(3200), 0.005)
}

// Exposures of n/100 s are clean on 50 Hz mains, n/120 s on 60 Hz (common
// practice); the classic clean choice for 24 frames on 50 Hz is 1/50 s.
func TestCleanExposures(t *testing.T) {
	for _, c := range []struct {
		mains, n int64
	}{{50, 100}, {60, 120}} {
		ripple := light.RippleOf(exact.Int(c.mains))
		for k, s := range light.CleanShutters(ripple, 1.0/24) {
			assert.True(t, s.Equal(exact.New(int64(k+1), c.n)))
			f := light.Beating(ripple, exact.New(24000, 1001), s.Float(), 1)
			assert.True(t, f.Clean)
			assert.Less(t, f.Depth, 1e-12)
		}
	}
	s, ok := light.NearestClean(exact.Int(100), 1.0/48, 1.0/24)
	assert.True(t, ok)
	assert.Equal(t, "1/50", s.String())
	_, ok = light.NearestClean(exact.Int(100), 1.0/250, 1.0/120)
	assert.False(t, ok, "at 120 frames a second no exposure is long enough for 50 Hz")
	s, ok = light.NearestClean(exact.Int(120), 1.0/250, 1.0/120)
	assert.True(t, ok)
	assert.Equal(t, "1/120", s.String())
}

// The beat against counting: bright and dark are measured on the frames
// themselves, each the integral of the ripple over its exposure in closed form.
func TestBeatingAgainstFrames(t *testing.T) {
	for _, c := range []struct {
		ripple, capture exact.Rat
		shutter         float64
		beat            string
	}{
		{exact.Int(100), exact.Int(24), 1.0 / 48, "4"},
		{exact.Int(120), exact.New(120000, 1001), 1.0 / 250, "120/1001"},
		{exact.Int(100), exact.Int(120), 1.0 / 250, "20"},
		{exact.Int(100), exact.Int(30), 1.0 / 60, "10"},
	} {
		got := light.Beating(c.ripple, c.capture, c.shutter, 0.4)
		assert.Equal(t, c.beat, got.Beat.String())
		lo, hi := math.Inf(1), math.Inf(-1)
		w := 2 * math.Pi * c.ripple.Float()
		for k := range 30000 {
			at := float64(k) / c.capture.Float()
			mean := 1 + 0.4*(math.Cos(w*at)-math.Cos(w*(at+c.shutter)))/(w*c.shutter)
			lo, hi = math.Min(lo, mean), math.Max(hi, mean)
		}
		// Few phases repeat where the beat is a simple share of the capture
		// rate, so frames may miss the very brightest and darkest.
		measured := (hi - lo) / (hi + lo)
		assert.LessOrEqual(t, measured, got.Depth*(1+1e-6))
		phases := c.ripple.Quo(c.capture).Den().Int64()
		assert.GreaterOrEqual(t, measured, got.Depth*math.Cos(math.Pi/float64(phases))-1e-9)
	}
}

func TestFramesInStepDoNotFlicker(t *testing.T) {
	f := light.Beating(exact.Int(100), exact.Int(25), 1.0/70, 1)
	assert.Zero(t, f.Beat.Sign())
	assert.Zero(t, f.Depth)
	assert.False(t, f.Clean)
}

func TestBeatIsNeverAboveHalfTheCaptureRate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ripple := exact.New(rapid.Int64Range(1, 2000).Draw(t, "ripple"), rapid.Int64Range(1, 20).Draw(t, "under"))
		capture := exact.New(rapid.Int64Range(1, 240000).Draw(t, "capture"), 1001)
		f := light.Beating(ripple, capture, rapid.Float64Range(1e-5, 1).Draw(t, "shutter"), 1)
		assert.False(t, capture.Quo(exact.Int(2)).Less(f.Beat))
		assert.True(t, f.Depth >= 0 && f.Depth <= 1)
	})
}
