package clock_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

// A picture that is skipped is not seen, and one that is shown again is no other.
func TestPicturesAreThoseShown(t *testing.T) {
	for _, c := range []struct {
		capture, retime exact.Rat
		want            string
	}{{exact.Int(120), exact.Int(1), "24"}, {exact.Int(12), exact.Int(1), "12"}, {exact.Int(120), exact.New(1, 5), "120"}} {
		k, err := clock.New(c.capture, exact.Int(24), c.retime)
		require.NoError(t, err)
		assert.Equal(t, c.want, k.Pictures().String())
	}
}
