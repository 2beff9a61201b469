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
