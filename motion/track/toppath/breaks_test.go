package toppath_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/track"
	"seamrail/motion/track/toppath"
)

// Between breaks the jerk of the pace does not jump; at the great ones it does.
func TestBreaksAreWhereJerkJumps(t *testing.T) {
	l, err := law.Named("3-4-5")
	require.NoError(t, err)
	tr, err := track.ThereAndBack(exact.Int(6), track.ThereAndBackSpec{From: 0, To: 200, Out: l, Cycles: 1})
	require.NoError(t, err)
	s, err := toppath.New(toppath.Loop{tr}, []toppath.Limit{{Speed: 200, Acc: 800, Jerk: 20000}})
	require.NoError(t, err)
	all, great := s.Breaks(0), s.Breaks(0.5)
	require.NotEmpty(t, great)
	assert.Less(t, len(great), len(all))
	const h = 1e-7
	jump := func(at float64) float64 { return s.At(at+h).Jerk - s.At(at-h).Jerk }
	top := 0.0
	for _, b := range all {
		top = max(top, jump(b), -jump(b))
	}
	for _, b := range great {
		assert.Greater(t, max(jump(b), -jump(b)), 0.1*top, "at %v s", b)
	}
	for i := 1; i < len(all); i++ {
		if all[i]-all[i-1] > 100*h {
			assert.InDelta(t, 0, jump((all[i]+all[i-1])/2), 1e-4*top, "between %v and %v s", all[i-1], all[i])
		}
	}
}
