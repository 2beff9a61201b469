package rig_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
)

const springy = `[axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
shake = { frequency = "5.2 Hz", damping = "3 %", uncertainty = "0.1 Hz" }
`

func TestAnAxisThatSwings(t *testing.T) {
	r, _, err := rig.Decode("s", []byte(springy))
	require.NoError(t, err)
	m := r.Axes[0].Shake
	assert.InDelta(t, 5.2, m.Spring.Frequency, 1e-12)
	assert.InDelta(t, 0.03, m.Spring.Damping, 1e-12)
	assert.InDelta(t, 0.1, m.FrequencySure, 1e-12)

	r, defaults, err := rig.Decode("s", []byte(strings.Replace(springy, `, damping = "3 %"`, "", 1)))
	require.NoError(t, err)
	assert.InDelta(t, 0.02, r.Axes[0].Shake.Spring.Damping, 1e-12)
	assert.Contains(t, defaults, rig.Default{Key: "axis.rail.shake.damping", Value: "2 %", Why: "an assumption: bolted frames have one to three"})

	// Peaks a fifth of a second apart that halve each time: the decrement is
	// ln 2, so the damping is ln 2 over the root of (2 pi)^2 + (ln 2)^2.
	r, _, err = rig.Decode("s", []byte(swap(t, springy, `frequency = "5.2 Hz", damping = "3 %", uncertainty = "0.1 Hz"`,
		`peaks = ["8 at 0.1 s", "4 at 300 ms", "2 at 0.5 s"]`)))
	require.NoError(t, err)
	m = r.Axes[0].Shake
	assert.InDelta(t, 0.109653, m.Spring.Damping, 1e-6)
	assert.InDelta(t, 5.030333, m.Spring.Frequency, 1e-6)
	assert.Equal(t, 3, m.Peaks)

	r, _, err = rig.Decode("s", []byte(swap(t, springy, "shake = ", "# shake = ")))
	require.NoError(t, err)
	assert.False(t, r.Axes[0].Shake.Spring.Known())
}

func swap(t *testing.T, text, old, by string) string {
	t.Helper()
	require.Contains(t, text, old)
	return strings.Replace(text, old, by, 1)
}

func TestShakeFaults(t *testing.T) {
	const stated = `frequency = "5.2 Hz", damping = "3 %", uncertainty = "0.1 Hz"`
	for _, c := range []struct{ old, new, want string }{
		{`"5.2 Hz"`, `"5.2 s"`, `frequency "5.2 s" is a time`},
		{`"5.2 Hz"`, `"0.01 Hz"`, `frequency "0.01 Hz" must be from 0.1 Hz to 1000 Hz`},
		{`"3 %"`, `"0 %"`, `damping "0 %" must be from 0.05 % to 90 %`},
		{`"3 %"`, `"95 %"`, `damping "95 %" must be from`},
		{`"0.1 Hz"`, `"4 Hz"`, `uncertainty "4 Hz" must be from 0 Hz to half the frequency`},
		{`"0.1 Hz"`, `"-1 Hz"`, `uncertainty "-1 Hz" must be`},
		{`frequency = "5.2 Hz", `, ``, `frequency is missing`},
		{stated, `peaks = ["8 at 0.1 s"]`, `peaks 1 peaks; there must be from 2`},
		{stated, `peaks = ["8 at 0.1 s", "9 at 0.2 s"]`, `do not fade`},
		{stated, `peaks = ["8 at 0.1 s", "7.999 at 0.2 s"]`, `a damping of 0.002 %`},
		{stated, `peaks = ["8 at 0.1 s", "high"]`, `peaks[2] peak "high" must be a height and a time`},
		{stated, `damping = "3 %", peaks = ["8 at 0.1 s", "4 at 0.2 s"]`, `damping "3 %" is given, and so are peaks`},
		{stated, `freqency = "5 Hz"`, `freqency is not a key that means anything here; did you mean "frequency"?`},
	} {
		t.Run(c.new, func(t *testing.T) {
			_, _, err := rig.Decode("s", []byte(swap(t, springy, c.old, c.new)))
			var list fault.List
			require.ErrorAs(t, err, &list)
			require.Len(t, list, 1, err.Error())
			assert.Contains(t, err.Error(), c.want)
			assert.Contains(t, err.Error(), "s:6:", "the line is told")
		})
	}
}
