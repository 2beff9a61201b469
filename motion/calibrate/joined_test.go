package calibrate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The end gauge of JCGM 100, H.1: 25, 9.7, 2.9 and 16.6 nm with 18, 25.6, 50 and 2 degrees
// of freedom are 32 nm with 16 (H.1.6 says 16.7 of what it had not rounded).
func TestTheEndGauge(t *testing.T) {
	e := joined(0, part{25, 18}, part{9.7, 25.6}, part{2.9, 50}, part{16.6, 2})
	assert.InDelta(t, 32, e.Sigma, 0.5)
	assert.InDelta(t, 16.7, e.Free, 0.2)
	// What is spread evenly over 1 has a standard deviation of 1/sqrt(12) (4.3.7).
	assert.InDelta(t, 1/math.Sqrt(12), even(0.5).sigma, 1e-12)
	assert.True(t, math.IsInf(joined(0, even(0.5)).Free, 1))
}

// The twenty temperatures of JCGM 100, 4.4.3 and table 1: their mean is 100.145 with a
// standard uncertainty of 0.333.
func TestTheTwentyTemperatures(t *testing.T) {
	seen := []float64{96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72}
	p := scatter(seen)
	assert.InDelta(t, 0.333, p.sigma, 0.0005)
	assert.InDelta(t, 19, p.free, 1e-12)
	assert.Zero(t, scatter(seen[:1]).sigma, "one says nothing of it")
	assert.Zero(t, scatter([]float64{3, 3, 3}).sigma)
}

// The thermometer of JCGM 100, H.3 and table H.6: a line through eleven corrections, of which
// one scatters by 0.0035, foretells -0.1494 at 30 degrees with a standard uncertainty of
// 0.0041. A homing from there would add its own scatter.
func TestTheThermometer(t *testing.T) {
	var seen []Homing
	for i, b := range []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160} {
		at := []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}[i]
		seen = append(seen, Homing{at - 20, b})
	}
	s := lineOf(seen)
	assert.InDelta(t, -0.1712, s.zero, 0.00005)
	assert.InDelta(t, 0.00218, s.slope, 0.000005)
	assert.InDelta(t, 0.0035, s.sigma, 0.00005)
	assert.InDelta(t, 9, s.free, 1e-12)
	foretold := s.zero + s.slope*10
	assert.InDelta(t, -0.1494, foretold, 0.00005)
	lost := s.lost(Homing{10, foretold})
	assert.InDelta(t, 0, lost.Value, 1e-9)
	each := math.Abs(s.slope) * lost.Sigma
	assert.InDelta(t, 0.0041, math.Sqrt(each*each-s.sigma*s.sigma), 0.00005)
	assert.InDelta(t, 9, lost.Free, 1e-9)
}
