package verify

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestEdgeOfACrossing: a step may be off by what its axis moves in a nanosecond, and
// by a thousandth; no more.
func TestEdgeOfACrossing(t *testing.T) {
	for _, x := range []struct {
		off, fastest float64
		ok           bool
	}{
		{0.00099, 0, true}, {0.00102, 0, false},
		{0.0049, 4e6, true}, {0.0051, 4e6, false},
		{0.9, 4e6, false},
	} {
		w := stepWalk{positionOff: x.off, fastest: x.fastest}
		assert.Equal(t, x.ok, w.order(sound(), 0).OK, "%+v", x)
	}
}

// TestEdgeOfTheStepRate: two times written in nanoseconds may be one nearer than they
// are, and none two.
func TestEdgeOfTheStepRate(t *testing.T) {
	for _, x := range []struct {
		nanos float64
		limit float64
		ok    bool
	}{
		{25_000, 40_000, true}, {24_999.1, 40_000, true}, {24_998, 40_000, false},
		{499.1, 2e6, true}, {498, 2e6, false},
		{0, 40_000, false}, {0, 0.9e9, false}, // two at once
	} {
		w := stepWalk{closest: x.nanos * 1e-9}
		assert.Equal(t, x.ok, w.rate(AxisSteps{}, x.limit).OK, "%+v", x)
	}
}
