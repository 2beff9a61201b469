package verify

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
)

// TestFramesOfALoop: evenly spaced and the next on the seam, from the least loop on.
func TestFramesOfALoop(t *testing.T) {
	for _, x := range []struct {
		frames int64
		period exact.Rat
		ok     bool
		says   string
	}{
		{1, exact.New(1, 24), true, "1 whole frames, time strictly increasing, frame 1 falls exactly on the seam"},
		{2, exact.New(1, 12), true, "2 whole frames, time strictly increasing, frame 2 falls exactly on the seam"},
		{48, exact.New(47_999, 24_000), false, "48 frames begin inside the loop, frame 48 would begin 1/24000 s after the seam"},
		{48, exact.New(48_001, 24_000), false, "49 frames begin inside the loop, frame 48 would begin -1/24000 s after the seam"},
	} {
		c := sound()
		c.frames, c.period = x.frames, x.period
		assert.Equal(t, Finding{Check: "frames", OK: x.ok, Text: x.says}, checkFrames(context.Background(), c))
	}
}

// TestTheFirstTwoFrames: both on the seam, the second before the first, and one too many.
func TestTheFirstTwoFrames(t *testing.T) {
	for says, at := range map[string]map[int64]exact.Rat{
		"frame 0 is not on the seam":                                             {0: exact.New(1, 24_000)},
		"frame 1 does not come after frame 0":                                    {1: exact.Int(0)},
		"frame 48 does not come after frame 47":                                  {48: exact.New(47, 24)},
		"frame 2 does not come as long after frame 1 as frame 1 after frame 0":   {1: exact.New(1, 25)},
		"frame 48 does not come as long after frame 47 as frame 1 after frame 0": {48: exact.New(2001, 1000)},
	} {
		assert.Equal(t, Finding{Check: "frames", Text: says}, checkFrames(context.Background(), spaced{sound(), at}))
	}
}
