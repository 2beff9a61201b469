package clock_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

func make3(t require.TestingT, capture, playback, retime string) clock.Clock {
	var r exact.Rat
	if retime != "" {
		var err error
		r, err = exact.Parse(retime)
		require.NoError(t, err)
	}
	c, err := clock.New(rate(t, capture), rate(t, playback), r)
	require.NoError(t, err)
	return c
}

func TestNewShowsEveryFrameOnceByDefault(t *testing.T) {
	c := make3(t, "119.88", "23.976", "")
	assert.Equal(t, "1/5", c.Retime.String())
	assert.Equal(t, "1", c.PerScreen().String())
}

func TestNewRefuses(t *testing.T) {
	one, zero := exact.Int(1), exact.Rat{}
	for says, arg := range map[string][3]exact.Rat{
		"capture rate 0 must be above 0":  {zero, one, one},
		"capture rate -1 must be above 0": {one.Neg(), one, one},
		"playback rate 0 must be above 0": {one, zero, one},
		"retime -1 must be above 0":       {one, one, one.Neg()},
		"retime 1000001 must be":          {one, one, exact.Int(1_000_001)},
		"retime 1/1000001 must be":        {one, one, exact.New(1, 1_000_001)},
	} {
		_, err := clock.New(arg[0], arg[1], arg[2])
		assert.ErrorContains(t, err, says)
	}
}

func TestFrameTimeIsExact(t *testing.T) {
	c := make3(t, "23.976", "23.976", "")
	// One frame at 24000/1001 is 1001/24000 s = 41 708 333.33 ns, by definition.
	assert.Equal(t, "1001/24000", c.FrameTime(1).String())
	assert.Equal(t, "-1001/24000", c.FrameTime(-1).String())
	assert.Equal(t, "1001", c.FrameTime(24000).String())
}

func TestScreenTimeOfALoopIsItsDuration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyClock(t)
		n := rapid.Int64Range(1, 20).Draw(t, "steps") * c.PerScreen().Den().Int64()
		if n > clock.MaxFrames || exact.Int(clock.MaxFrames).Less(exact.Int(n).Mul(c.PerScreen())) {
			t.Skip("longer than a loop may be")
		}
		l, err := c.LoopFrames(n)
		require.NoError(t, err)
		assert.True(t, c.ScreenTime(exact.Int(l.Captured)).Equal(l.OnScreen()))
		assert.True(t, l.Real().Equal(l.OnScreen().Mul(c.Retime)), "real = screen * retime")
		assert.True(t, c.FrameTime(l.Captured).Equal(l.Real()))
	})
}

// anyClock draws small rates, slowed or not, and a simple retime.
func anyClock(t *rapid.T) clock.Clock {
	rates := rapid.SampledFrom([]string{"24", "25", "30", "23.976", "29.97", "50", "59.94", "119.88", "120", "239.76", "1/2"})
	r := exact.Rat{}
	if rapid.Bool().Draw(t, "retimed") {
		r = exact.New(rapid.Int64Range(1, 12).Draw(t, "r"), rapid.Int64Range(1, 12).Draw(t, "over"))
	}
	c, err := clock.New(rate(t, rates.Draw(t, "capture")), rate(t, rates.Draw(t, "playback")), r)
	require.NoError(t, err)
	return c
}

func TestCadence(t *testing.T) {
	for _, c := range []struct {
		capture, playback, retime string
		even                      bool
		pattern                   []int
		text                      string
	}{
		{"119.88", "23.976", "", true, []int{1}, "every captured frame is shown once"},
		{"24", "24", "1/2", true, []int{2}, "every captured frame is shown 2 times"},
		{"120", "24", "1", true, []int{5}, "one captured frame in 5 is shown"},
		// 24 on 60: the three-two pull-down of film on television.
		{"24", "60", "1", false, []int{3, 2}, "uneven: captured frames are shown 3, 2 times in turn"},
		{"60", "24", "1", false, []int{2, 3}, "uneven: timeline frames use up 2, 3 captured frames in turn"},
		{"30", "24", "1", false, []int{1, 1, 1, 2}, "uneven: timeline frames use up 1, 1, 1, 2 captured frames in turn"},
		{"24", "25", "1", false, []int{2, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1},
			"uneven: captured frames are shown 2, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1 times in turn"},
		{"24", "23.976", "1", false, nil, "uneven: each timeline frame uses up 1.001 captured frames on average, in no short pattern"},
		{"29.97", "60", "1", false, nil, "uneven: each captured frame is shown 2.002 times on average, in no short pattern"},
	} {
		got := make3(t, c.capture, c.playback, c.retime).Cadence()
		assert.Equal(t, clock.Cadence{Even: c.even, Text: c.text, Pattern: c.pattern}, got)
	}
}

// The pattern is counted here frame by frame from the definition.
func TestCadenceAgainstCounting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyClock(t)
		cadence := c.Cadence()
		per := c.PerScreen()
		if cadence.Pattern == nil {
			assert.False(t, cadence.Even)
			return
		}
		var shown []int // how often each captured frame is shown, or how far each step goes
		if per.Cmp(exact.Int(1)) <= 0 {
			shown = make([]int, len(cadence.Pattern))
			for i := int64(0); ; i++ {
				k := exact.Int(i).Mul(per).Floor().Whole()
				if k >= int64(len(shown)) {
					break
				}
				shown[k]++
			}
		} else {
			for i := range int64(len(cadence.Pattern)) {
				from, to := exact.Int(i).Mul(per).Floor(), exact.Int(i+1).Mul(per).Floor()
				shown = append(shown, int(to.Sub(from).Whole()))
			}
		}
		assert.Equal(t, shown, cadence.Pattern)
		assert.Equal(t, len(cadence.Pattern) == 1, cadence.Even)
	})
}
