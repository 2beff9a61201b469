package format_test

import (
	"fmt"
	"image"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// roundAside is the demo with a round product that the camera hardly nears, held so far
// right of it.
func roundAside(t *testing.T, aside, radius float64) *job.Job {
	t.Helper()
	text := strings.NewReplacer(
		`"100 mm"`, `"40.1 mm"`, "shape  = \"prism\"\nsides  = 6\n", "shape  = \"cylinder\"\nsymmetry = 6\n",
		`radius = "45 mm"`, fmt.Sprintf(`radius = "%g mm"`, radius),
		`distance = "454 mm"`, fmt.Sprintf("distance = \"454 mm\"\naside = \"%g mm\"", aside),
	).Replace(string(starter.Shot()))
	s, err := shot.Decode("", []byte(text), nil)
	require.NoError(t, err)
	r, _, err := rig.Decode("", starter.Rig())
	require.NoError(t, err)
	j, err := job.Plan(s, r, false)
	require.NoError(t, err)
	return j
}

// firstColumn is what is drawn at the left edge, above the turntable.
func firstColumn(t *testing.T, j *job.Job) []any {
	t.Helper()
	f, _, err := format.Finder(j, 640, false)
	require.NoError(t, err)
	var p image.Image = f.Frame(0)
	high := p.Bounds().Dy()
	var out []any
	for y := high / 3; y < high/2; y++ {
		out = append(out, p.At(0, y))
	}
	return out
}

// The verdict on the frame and the drawing of it project and clip each by code of its own:
// within a millimetre of where the verdict says that an edge begins to cut the product, the
// drawing has it at the border, and on the other side it has not.
func TestWhatLeavesThePictureIsDrawnSo(t *testing.T) {
	whole := func(aside float64) bool {
		v, ok := roundAside(t, aside, 45).Picture.Find("in frame")
		require.True(t, ok)
		return strings.HasPrefix(v.Text, "all of the product is in the picture")
	}
	in, cut := 0.0, 200.0 // mm
	require.True(t, whole(in))
	require.False(t, whole(cut))
	for cut-in > 0.1 {
		if at := (in + cut) / 2; whole(at) {
			in = at
		} else {
			cut = at
		}
	}
	const beside = 1 // mm, 2.5 px of this drawing: blurred edges are some of that
	empty := func(aside float64) []any { return firstColumn(t, roundAside(t, aside, 1)) }
	assert.Equal(t, empty(in-beside), firstColumn(t, roundAside(t, in-beside, 45)), "whole, %g mm aside", in-beside)
	assert.NotEqual(t, empty(cut+beside), firstColumn(t, roundAside(t, cut+beside, 45)), "cut, %g mm aside", cut+beside)
}
