package clock_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

func rate(t require.TestingT, s string) exact.Rat {
	r, err := clock.ParseRate(s)
	require.NoError(t, err, s)
	return r
}

func TestParseRate(t *testing.T) {
	for text, want := range map[string]string{
		"24": "24", " 25 ": "25", "24 fps": "24", "12.5": "25/2", "1/2": "1/2", "0.5": "1/2",
		// 24, 30 and 60 over 1.001 and their multiples: SMPTE ST 12-1.
		"23.976": "24000/1001", "23.98": "24000/1001", "23.976024": "24000/1001",
		"29.97": "30000/1001", "29.970": "30000/1001", "59.94": "60000/1001",
		"47.952": "48000/1001", "47.95": "48000/1001",
		"119.88": "120000/1001", "239.76": "240000/1001", "119.880120": "120000/1001",
		"120000/1001": "120000/1001", "24000 / 1001": "24000/1001",
		// Not slowed rates: read as they stand.
		"2997/100": "2997/100", "23.9": "239/10", "23.97": "2397/100", "29.98": "1499/50",
		"24.00": "24", "24.975": "999/40", "1e"[:1]: "1", "1000000": "1000000", "1/1000000": "1/1000000",
	} {
		assert.Equal(t, want, rate(t, text).String(), text)
	}
}

func TestParseRateRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"":                         "is not a number",
		"0":                        "must be above 0",
		"-24":                      "must be above 0",
		"1/1000001":                "must be above 0",
		"1000001":                  "at most 1000000",
		"24/0":                     "divides by zero",
		"1e3":                      "is not a number",
		"NaN":                      "is not a number",
		strings.Repeat("2", 1000):  "frame rate of 1000 characters must have at most 60",
		"24p":                      "is not a number",
		"1234567890123456789/1000": "more than 18 digits",
	} {
		_, err := clock.ParseRate(text)
		assert.ErrorContains(t, err, says, text)
	}
}

func TestRateText(t *testing.T) {
	for text, want := range map[string]string{
		"24": "24", "12.5": "12.5", "1/2": "0.5", "23.976": "23.976 (24000/1001)",
		"29.97": "29.97 (30000/1001)", "2997/100": "29.97 (2997/100)", "300000/1001": "299.70 (300000/1001)", "119.88": "119.88 (120000/1001)",
		"1/3": "0.333 (1/3)",
	} {
		assert.Equal(t, want, clock.RateText(rate(t, text)))
	}
}

func TestSlowedRatesReadBackFromTheirText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(1, 40).Draw(t, "n") * rapid.SampledFrom([]int64{24, 30}).Draw(t, "family")
		if n > 960 {
			t.Skip("above the rates that are recognised")
		}
		want := exact.New(n*1000, 1001)
		first, _, _ := strings.Cut(clock.RateText(want), " ")
		assert.True(t, want.Equal(rate(t, first)), first)
		assert.True(t, want.Equal(rate(t, want.String())))
	})
}

func FuzzParseRate(f *testing.F) {
	for _, s := range []string{"24", "23.976", "24000/1001", "1/2", "-1", "", "9.99999999999", "59.94 fps"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := clock.ParseRate(s)
		if err != nil {
			return
		}
		require.Equal(t, 1, r.Sign())
		require.False(t, exact.Int(1_000_000).Less(r))
		require.NotEmpty(t, clock.RateText(r))
		_, err = clock.NewTimecode(r, false)
		require.NoError(t, err)
	})
}
