package clock_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

func TestLoopFrames(t *testing.T) {
	l, err := make3(t, "119.88", "23.976", "").LoopFrames(144)
	require.NoError(t, err)
	assert.Equal(t, int64(144), l.Screen)
	assert.Equal(t, int64(144), l.Captured)
	assert.Equal(t, "144 frames", l.Asked)
	assert.False(t, l.Rounded)
	// 144 frames at 24000/1001 last 6.006 s, filmed five times as fast.
	assert.Equal(t, "6.006", l.OnScreen().Decimal(9))
	assert.Equal(t, "1.2012", l.Real().Decimal(9))
}

func TestLoopFramesRefuses(t *testing.T) {
	for _, c := range []struct {
		capture, playback, retime string
		frames                    int64
		says                      string
	}{
		{"24", "24", "", 0, "loop of 0 frames must have 1 to 10000000 frames"},
		{"24", "24", "", -3, "must have 1 to 10000000"},
		{"24", "24", "", clock.MaxFrames + 1, "must have 1 to 10000000"},
		{"24", "60", "1", 144, "loop of 144 frames uses 57.6 captured frames, and an exact seam needs a whole number; " +
			"140 frames, 145 frames or 144 frames with a retime of 95/96 or 145/144 would do"},
		{"24", "60", "1", 1, "5 frames or 1 frame with a retime of 5/2 would do"},
		{"120", "1", "1", 100_000, "loop of 100000 frames uses 12000000 captured frames; it must use at most 10000000"},
		{"24", "24", "100000007/100000009", 24,
			"uses 2400000168/100000009 captured frames"}, // 24 to three decimals, which would read as whole
	} {
		_, err := make3(t, c.capture, c.playback, c.retime).LoopFrames(c.frames)
		assert.ErrorContains(t, err, c.says)
	}
}

func TestLoopSeconds(t *testing.T) {
	for _, c := range []struct {
		capture, playback, retime, seconds string
		screen, captured                   int64
		rounded                            bool
	}{
		{"119.88", "23.976", "", "6", 144, 144, true},
		{"119.88", "23.976", "", "6.006", 144, 144, false},
		{"120", "24", "", "6", 144, 144, false},
		{"120", "24", "1", "6", 144, 720, false},
		{"24", "60", "1", "6.01", 360, 144, true},
		{"24", "24", "", "0.03", 1, 1, true}, // 0.72 of a frame
		// A loop must be a multiple of 5 frames: 22 become 20, less than a tenth off.
		{"24", "60", "1", "0.366667", 20, 8, true},
		// The nearest multiple of 11 is 10000001, one frame more than may be.
		{"1", "1", "1/11", "10000000", 9_999_990, 909_090, true},
	} {
		s, err := exact.Parse(c.seconds)
		require.NoError(t, err)
		l, err := make3(t, c.capture, c.playback, c.retime).LoopSeconds(s, false)
		require.NoError(t, err)
		assert.Equal(t, c.screen, l.Screen, c.seconds)
		assert.Equal(t, c.captured, l.Captured, c.seconds)
		assert.Equal(t, c.rounded, l.Rounded, c.seconds)
		assert.Equal(t, c.seconds+" s", l.Asked)
	}
}

func TestLoopSecondsRefuses(t *testing.T) {
	for _, c := range []struct {
		capture, playback, retime, seconds string
		forbid                             bool
		says                               string
	}{
		{"24", "24", "", "0", false, "loop of 0 s must be above 0 s"},
		{"24", "24", "", "1/10000000", false, "loop of 1/10000000 s would have to change"},
		{"24", "24", "", "-1", false, "must be above 0 s"},
		{"24", "24", "", "1000000", false, "at most 10000000 frames, 416666.667 s"},
		{"24", "24", "", "0.01", false, "loop of 0.01 s would have to change by more than a tenth to have an exact seam; 1 frame (0.041667 s, exactly 1/24) would do"},
		{"119.88", "23.976", "", "6", true, "loop of 6 s is 143.856 timeline frames and 143.856 captured frames, " +
			"and rounding is forbidden; 143 frames (5.964292 s, exactly 143143/24000) or 144 frames (6.006 s) would do"},
		// 6 frames would become 5, more than a tenth off.
		{"24", "60", "1", "0.1", false, "loop of 0.1 s would have to change by more than a tenth to have an exact seam; " +
			"5 frames (0.083333 s, exactly 1/12), 10 frames"},
		{"24", "60", "1", "0.1", true, "5 frames (0.083333 s, exactly 1/12), 10 frames (0.166667 s, exactly 1/6) " +
			"or 6 frames with a retime of 5/6 or 5/4 would do"},
		{"24", "23.976", "1", "6", false, "1000 frames (41.708333 s, exactly 1001/24) or 144 frames with a retime of 1000/1001 or 18125/18018 would do"},
		{"24", "24", "100000007/100000009", "6", false, "144 frames with a retime of 143/144 or 1 would do"},
	} {
		s, err := exact.Parse(c.seconds)
		require.NoError(t, err)
		_, err = make3(t, c.capture, c.playback, c.retime).LoopSeconds(s, c.forbid)
		assert.ErrorContains(t, err, c.says)
	}
}

// A rounded loop is whole in both counts and no loop with an exact seam is nearer.
func TestLoopSecondsIsTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyClock(t)
		s := exact.New(rapid.Int64Range(1, 60_000).Draw(t, "ms"), 1000)
		l, err := c.LoopSeconds(s, false)
		if err != nil {
			assert.ErrorContains(t, err, "would do")
			return
		}
		assert.True(t, exact.Int(l.Screen).Mul(c.PerScreen()).Equal(exact.Int(l.Captured)))
		assert.Equal(t, l.Rounded, !l.OnScreen().Equal(s))
		step := c.PerScreen().Den().Int64()
		off := l.OnScreen().Sub(s).Abs()
		for _, n := range []int64{l.Screen - step, l.Screen + step} {
			if n < 1 {
				continue
			}
			other, err := c.LoopFrames(n)
			require.NoError(t, err)
			assert.False(t, other.OnScreen().Sub(s).Abs().Less(off), "%d frames is nearer", n)
		}
		_, err = c.LoopSeconds(s, true)
		assert.Equal(t, l.Rounded, err != nil)
	})
}
