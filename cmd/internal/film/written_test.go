package film_test

import (
	"bytes"
	"io"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/film/luma"
	"seamrail/cmd/internal/film/odd"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/motion/footage"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/plot/preview"
)

// demo draws the built-in shot.
func demo(t *testing.T) *preview.Finder {
	s, err := shot.Decode("", starter.Shot(), nil)
	require.NoError(t, err)
	r, _, err := rig.Decode("", starter.Rig())
	require.NoError(t, err)
	j, err := job.Plan(s, r, false)
	require.NoError(t, err)
	f, _, err := format.Finder(j, 64, false)
	require.NoError(t, err)
	return f
}

// The loop as the program writes it is read back to the bit, with its rate.
func TestTheLoopThatIsWrittenIsReadBack(t *testing.T) {
	f := demo(t)
	for _, every := range []int64{1, 7} {
		views, err := f.Views(every)
		require.NoError(t, err)
		var b bytes.Buffer
		_, err = f.WriteLoop(&b, every)
		require.NoError(t, err)
		take := opened(t, saved(t, "loop.png", b.Bytes()), film.Options{})
		assert.Equal(t, len(views), take.About().Frames)
		var g footage.Gray
		for _, v := range views {
			require.NoError(t, take.Next(&g))
			img := f.Frame(v.Captured)
			row := make([]float32, img.Rect.Dx())
			for y := range img.Rect.Dy() {
				luma.Row(img, y, row)
				require.Equal(t, row, g.Row(y))
			}
		}
		assert.Equal(t, io.EOF, take.Next(&g))
		even := views[len(views)-1].Count == every
		assert.Equal(t, even, len(take.Remarks()) == 0, "a last picture that is shown shorter is told")
		if !even {
			assert.Equal(t, odd.Variable, take.Remarks()[0].Kind)
		}
		if every == 1 {
			assert.Equal(t, "24000/1001", take.About().Rate.String())
		}
	}
}
