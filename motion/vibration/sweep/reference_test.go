package sweep_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/sweep"
)

func reference(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/reference/" + name)
	require.NoError(t, err)
	return string(text)
}

// Two masses on each other, integrated by a general numerics library, are found by their
// eigenvalues: testdata/reference/sweep_response.py.
func TestAgainstTwoMasses(t *testing.T) {
	times := reference(t, "sweep_times.csv")
	l, err := sweep.Parse(times)
	require.NoError(t, err)
	r, err := ringdown.ParseRecord(reference(t, "sweep_record.csv"))
	require.NoError(t, err)
	x, err := sweep.Read(l, r)
	require.NoError(t, err)
	m := sweep.Springs(x.Points, l.Damping)
	require.Len(t, m.Modes, 2)
	_, words, _ := strings.Cut(times, "are: ")
	for _, text := range strings.SplitN(strings.SplitN(words, "\n", 2)[0], "; ", 2) {
		var f, d float64
		_, err := fmt.Sscanf(text, "%f Hz, %f", &f, &d)
		require.NoError(t, err, text)
		y := near(m, f)
		t.Logf("true %.4f Hz, %.3f %%; found %.4f give or take %.2g, %.3f %% give or take %.2g", f, 100*d, y.Spring.Frequency, 2*y.FrequencySure, 100*y.Spring.Damping, 200*y.DampingSure)
		assert.InDelta(t, f, y.Spring.Frequency, 2*y.FrequencySure+2e-4*f)
		assert.InDelta(t, d, y.Spring.Damping, 2*y.DampingSure)
	}
	assert.InDelta(t, 1e-3, m.Gain, 3e-5, "it counts m/s2")
	assert.InDelta(t, 90e-6, x.Clock.Rate, 2*x.Clock.RateSure)
	assert.InDelta(t, -0.73, x.Clock.Offset, 0.1)
}
