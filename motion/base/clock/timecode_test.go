package clock_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/clock"
)

func timecode(t require.TestingT, r string, drop bool) clock.Timecode {
	tc, err := clock.NewTimecode(rate(t, r), drop)
	require.NoError(t, err)
	return tc
}

func TestTimecodeCheckValues(t *testing.T) {
	for _, c := range []struct {
		rate  string
		drop  bool
		frame int64
		label string
	}{
		// SMPTE ST 12-1 drop-frame, as in the tests of the open
		// OpenTimelineIO project (github.com/AcademySoftwareFoundation).
		{"29.97", true, 1800, "00:01:00;02"},
		{"29.97", true, 17982, "00:10:00;00"},
		{"29.97", true, 215784, "02:00:00;00"},
		{"29.97", true, 1078920, "10:00:00;00"},
		// Computed from the rule of SMPTE ST 12-1.
		{"29.97", true, 17981, "00:09:59;29"},
		{"29.97", true, 107892, "01:00:00;00"},
		{"59.94", true, 3600, "00:01:00;04"},
		{"59.94", true, 35964, "00:10:00;00"},
		// No labels are dropped at 23.976: a label hour is 86400 frames.
		{"23.976", false, 86400, "01:00:00:00"},
		{"23.976", false, 23, "00:00:00:23"},
		{"29.97", false, 1800, "00:01:00:00"},
		{"119.88", false, 119, "00:00:00:119"},
		{"119.88", false, 120, "00:00:01:000"},
		{"1/2", false, 61, "00:01:01:00"},
		// Wrapping at 24 hours, both ways.
		{"29.97", true, -1, "23:59:59;29"},
		{"29.97", true, 2589408, "00:00:00;00"},
		{"24", false, -1, "23:59:59:23"},
		{"24", false, -24*86400 - 1, "23:59:59:23"},
	} {
		assert.Equal(t, c.label, timecode(t, c.rate, c.drop).Label(c.frame), "%s frame %d", c.rate, c.frame)
	}
}

func TestTimecodeDay(t *testing.T) {
	tc := timecode(t, "29.97", true)
	assert.Equal(t, int64(2589408), tc.Day()) // SMPTE ST 12-1
	assert.Equal(t, int64(24*6*35964), timecode(t, "59.94", true).Day())
	day := make3(t, "29.97", "29.97", "").FrameTime(tc.Day())
	assert.Equal(t, "86399.9136", day.Decimal(9)) // 86.4 ms short of a day
	hour := make3(t, "23.976", "23.976", "").FrameTime(86400)
	assert.Equal(t, "3603.6", hour.Decimal(9))
	assert.Equal(t, "00:00:07:00", clock.Timecode{}.Label(7), "the zero value counts seconds")
}

func TestNewTimecodeRefuses(t *testing.T) {
	for _, r := range []string{"23.976", "30", "24", "119.88", "2997/100"} {
		_, err := clock.NewTimecode(rate(t, r), true)
		assert.ErrorContains(t, err, "must be at 29.97 or 59.94", r)
	}
	_, err := clock.NewTimecode(clock.Timecode{}.Rate, false)
	assert.ErrorContains(t, err, "must be above 0")
}

// An odometer that skips labels as the rule is worded, over a whole day.
func TestDropFrameAgainstAnOdometer(t *testing.T) {
	for r, skip := range map[string]int{"29.97": 2, "59.94": 4} {
		tc := timecode(t, r, true)
		n := 15 * skip
		var frame int64
		for minute := range 24 * 60 {
			for s := range 60 {
				for f := range n {
					if minute%10 != 0 && s == 0 && f < skip {
						continue
					}
					if s%59 == 0 && (f < skip+2 || f > n-3) {
						want := fmt.Sprintf("%02d:%02d:%02d;%02d", minute/60, minute%60, s, f)
						require.Equal(t, want, tc.Label(frame))
						back, err := tc.Parse(want)
						require.NoError(t, err)
						require.Equal(t, frame, back)
					}
					frame++
				}
			}
		}
		assert.Equal(t, tc.Day(), frame)
	}
}

func TestParseLabelRefuses(t *testing.T) {
	for _, c := range []struct {
		rate  string
		drop  bool
		label string
		says  string
	}{
		{"29.97", true, "00:01:00;01", `is skipped by drop-frame; the next label is "00:01:00;02"`},
		{"59.94", true, "00:59:00;03", `the next label is "00:59:00;04"`},
		{"24", false, "00:01:00;00", `must be hours:minutes:seconds:frames, like "00:00:00:00"`},
		{"29.97", true, "00;01;00;05", "must be hours:minutes:seconds:frames"},
		{"24", false, "", "must be hours:minutes:seconds:frames"},
		{"24", false, "24:00:00:00", `hours "24"; they must be 00 to 23`},
		{"24", false, "00:60:00:00", "minutes"},
		{"24", false, "00:00:60:00", "seconds"},
		{"24", false, "00:00:00:24", `frames "24"; they must be 00 to 23`},
		{"24", false, "00:00:00:-1", "frames"},
		{"24", false, "00:00::00", "seconds"},
		{"24", false, "00:00:00:00000000000000000000", "characters must be like"},
	} {
		_, err := timecode(t, c.rate, c.drop).Parse(c.label)
		assert.ErrorContains(t, err, c.says, c.label)
	}
}

func TestParseTakesColonsAtDropFrame(t *testing.T) {
	frame, err := timecode(t, "29.97", true).Parse(" 01:00:00:00 ")
	require.NoError(t, err)
	assert.Equal(t, int64(107892), frame)
}

func TestLabelsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom([]string{"24", "23.976", "25", "29.97", "59.94", "119.88", "1/2", "1000000"}).Draw(t, "rate")
		drop := (r == "29.97" || r == "59.94") && rapid.Bool().Draw(t, "drop")
		tc := timecode(t, r, drop)
		frame := rapid.Int64Range(-1e12, 1e12).Draw(t, "frame")
		back, err := tc.Parse(tc.Label(frame))
		require.NoError(t, err)
		assert.Equal(t, ((frame%tc.Day())+tc.Day())%tc.Day(), back)
	})
}
