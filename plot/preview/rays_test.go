package preview

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Rays are centred, fill the opening evenly, and use every instant once.
func TestRaysAreEven(t *testing.T) {
	for n := 1; n <= maxExposures; n++ {
		var x, y, r2 float64
		var shares []float64
		for _, r := range rays(n) {
			x, y, r2 = x+r.x, y+r.y, r2+r.x*r.x+r.y*r.y
			shares = append(shares, r.share)
			assert.LessOrEqual(t, math.Hypot(r.x, r.y), 1.0)
		}
		slices.Sort(shares)
		for i, s := range shares {
			assert.InDelta(t, (float64(i)+0.5)/float64(n), s, 1e-12)
		}
		assert.InDelta(t, 0, x/float64(n), 0.6/float64(n), "%d", n)
		assert.InDelta(t, 0, y/float64(n), 0.6/float64(n), "%d", n)
		if n > 1 { // of a disc the mean square radius is a half (textbook)
			assert.InDelta(t, 0.5, r2/float64(n), 1e-9)
		}
	}
}

// Seen from any side, the rays leave no gap wider than a few of their share: an
// edge that they smear has no steps.
func TestRaysLeaveNoGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(8, maxExposures).Draw(t, "n")
		s, c := math.Sincos(rapid.Float64Range(0, math.Pi).Draw(t, "way"))
		var along []float64
		for _, r := range rays(n) {
			along = append(along, r.x*c+r.y*s)
		}
		slices.Sort(along)
		for i := 1; i < n; i++ {
			assert.Less(t, along[i]-along[i-1], 2*5/float64(n), "of the opening's width 2: five shares")
		}
	})
}
