package drive

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/spec/rig"
)

func (m *acted) carry(*jogging) error                     { return m.do("carry") }
func (m *acted) jogTop(_ rig.Axis, speed float64) float64 { return speed }

// The way of a ramp is the integral of its speed (by Simpson's rule), and it never goes
// back, nor above its speeds, nor is it sped up beyond what the axis has.
func TestRamp(t *testing.T) {
	for _, r := range []ramp{newRamp(2, 40, 3000), newRamp(2, 2, 3000), newRamp(0.45, 9, 20)} {
		way, was := 0.0, 0.0
		const h = 1e-3
		for s := 0.0; s < 4; s += h {
			v := r.speed(s)
			way += h / 6 * (v + 4*r.speed(s+h/2) + r.speed(s+h))
			assert.InDelta(t, way, r.way(s+h), 1e-9)
			assert.GreaterOrEqual(t, v, was)
			assert.LessOrEqual(t, v, r.top*(1+1e-12))
			was = v
		}
		assert.Equal(t, r.top, r.speed(20))
	}
	r := newRamp(0.45, 9, 20)
	steepest := 0.0
	for s := 0.0; s < 4; s += 1e-3 {
		steepest = math.Max(steepest, (r.speed(s+1e-3)-r.speed(s))/1e-3)
	}
	assert.Less(t, steepest, 20.0)
	assert.Greater(t, steepest, 9.0)
}

// Short moves come up to a speed that makes up for their ramps and the gaps, and begin to
// brake no later for it.
func TestShortMovesAreAsFastAsTheyCan(t *testing.T) {
	for _, speed := range []float64{0.5, 2, 8, 15, 21} {
		peak := shortSpeed(speed, 3000, shortGap)
		takes := shortPeak + peak/3000 + shortGap
		assert.InDelta(t, speed, peak*shortPeak/takes, 1e-9)
		assert.LessOrEqual(t, peak, 3000*shortPeak)
	}
	assert.Equal(t, 3000*shortPeak, shortSpeed(100, 3000, shortGap))
}
