package shakereport

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/track"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
	"seamrail/motion/vibration/survey"
)

func TestScale(t *testing.T) {
	mm, px := Scale{Unit: "mm"}, Scale{Unit: "mm", PerUnit: 12}
	for v, want := range map[float64][2]string{
		0:         {"nothing", "nothing"},
		0.00009:   {"nothing", "nothing"},
		0.0004266: {"0.000427 mm", "0.000427 mm (0.0 px)"},
		-0.5:      {"0.5 mm", "0.5 mm (6.0 px)"},
		1.23456:   {"1.23 mm", "1.23 mm (15 px)"},
		123.456:   {"123 mm", "123 mm (1481 px)"},
		12345:     {"12300 mm", "12300 mm (148140 px)"},
	} {
		assert.Equal(t, want, [2]string{mm.Of(v), px.Of(v)})
	}
	assert.Equal(t, "1.2 mm", mm.brief(1.23456))
}

func clockOf(t *testing.T) clock.Clock {
	t.Helper()
	c, err := clock.New(exact.Int(120), exact.Int(24), exact.New(1, 5))
	require.NoError(t, err)
	return c
}

func TestWords(t *testing.T) {
	c := clockOf(t)
	m := ringdown.Measured{Spring: spring.Spring{Frequency: 6, Damping: 0.03}, FrequencySure: 0.012}
	assert.Equal(t, "6 Hz ± 0.012, damping 3 %; one swing lasts 0.167 s, 20 captured frames", Swings(m, c))
	px := Scale{Unit: "mm", PerUnit: 10}
	f := survey.Found{Worst: track.Peak{Value: -0.4, Time: 0.1}, Ring: track.Peak{Value: 0.1}}
	assert.Equal(t, "up to 0.4 mm (4.0 px) beside the carriage, at 0.500 s, frame 12.0; by up to 0.1 mm (1.0 px) of that it shakes, the rest is the lag of its acceleration", Moving(f, px, c))
	assert.Equal(t, "nothing that shows", Moving(survey.Found{}, px, c))

	// From 5 px to half a pixel is a tenth: ln 10 over 0.03 * 2 pi 6 is 2.036 s.
	r := vibration.Rest{From: 0.1, To: 0.3, Swing: 0.5, Left: 0.4}
	assert.Equal(t, "at 0.500 s, frame 12.0, for 24 captured frames: swings by 0.5 mm (5.0 px), and still by 0.4 mm (4.0 px) as it moves on; below half a pixel after 245 captured frames", Rested(r, px, m.Spring, c))
	assert.Equal(t, "at 0.500 s, frame 12.0, for 24 captured frames: swings by nothing", Rested(vibration.Rest{From: 0.1, To: 0.3}, px, m.Spring, c))
}
