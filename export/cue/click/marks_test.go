package click_test

import (
	"bytes"
	"io"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/cue/click"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
)

// Each moment sounds on its sample, cues higher than cuts, and the sound is as long as the
// clip to a sample.
func TestMarksAreOnTheirSamples(t *testing.T) {
	marks := []click.Mark{{At: exact.Int(0)}, {At: exact.New(1001, 24000), Cue: true}, {At: exact.New(3, 2)}}
	// 36 frames at 24000/1001 are 72072 samples; the last mark is cut off at the end.
	lasts := exact.New(36*1001, 24000)
	marks[2].At = lasts.Sub(exact.New(1, 100))
	var b bytes.Buffer
	require.NoError(t, click.WriteMarks(&b, lasts, marks, []string{"cues of a clip"}))
	for channel := range 2 {
		samples := side(t, b.Bytes(), channel)
		require.Len(t, samples, 72072)
		got := onsets(samples[2000:])
		require.Len(t, got, 2)
		assert.EqualValues(t, 2, got[0].at, "frame 1 begins at sample 2002, and 40 ms before it are still sounding")
		assert.EqualValues(t, 72072-480-2000, got[1].at)
		assert.InDelta(t, 1000, got[1].hz, 60)
	}
	assert.NotZero(t, side(t, b.Bytes(), 0)[10])
	b.Reset()
	require.NoError(t, click.WriteMarks(&b, exact.Int(1), nil, nil))
	assert.Empty(t, onsets(side(t, b.Bytes(), 0)))
	sample.Fails(t, b.Len(), func(w io.Writer) error { return click.WriteMarks(w, exact.Int(1), nil, nil) })
}
