package odd_test

import (
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/film/odd"
)

func TestSizes(t *testing.T) {
	for name, c := range map[string]struct {
		width, height int
		want          string
	}{
		"none":      {0, 5, "x.png has frames of 0 x 5 px; both must be at least 1"},
		"negative":  {5, -1, "5 x -1 px"},
		"wide":      {16385, 1, "at most 16384 px a side and 100 million in all"},
		"large":     {10001, 10000, "at most 16384"},
		"no number": {math.MaxInt, math.MaxInt, "at most 16384"},
		"fits":      {10000, 10000, ""},
		"one":       {1, 16384, ""},
	} {
		t.Run(name, func(t *testing.T) {
			err := odd.CheckSize("x.png", c.width, c.height)
			if c.want == "" {
				assert.NoError(t, err)
				return
			}
			assert.ErrorContains(t, err, c.want)
		})
	}
}

func TestAKindIsToldOnce(t *testing.T) {
	var r odd.Remarks
	r.Add(odd.Gap, "first %d", 1)
	r.Add(odd.Rate, "rate")
	r.Add(odd.Gap, "second")
	assert.Equal(t, odd.Remarks{{Kind: odd.Gap, Text: "first 1"}, {Kind: odd.Rate, Text: "rate"}}, r)
	assert.Equal(t, "rate", r[1].String())
}

func TestCut(t *testing.T) {
	c := &odd.Cut{Name: "a.y4m", Frames: 12, Byte: 345}
	assert.EqualError(t, c, "a.y4m is cut off at byte 345: it ends within a frame; the 12 frames before can be used")
	assert.ErrorIs(t, c, io.ErrUnexpectedEOF)
	assert.EqualError(t, &odd.Cut{Name: "b.mov", Why: "it died"}, "b.mov is cut off: it died; no frame came before")
	assert.EqualError(t, &odd.Cut{Name: "b.mov", Frames: 1, Why: "it died"}, "b.mov is cut off: it died; the 1 frame before can be used")
}
