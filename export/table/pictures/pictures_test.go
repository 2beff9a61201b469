package pictures_test

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/export/table/pictures"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify"
)

const (
	pitch   = 0.01
	shutter = 1.0 / 250
)

// marked is the lantern before a macro lens of which only the mark is known, the
// rail going sideways.
func marked() scene.Scene {
	return scene.Scene{
		Camera:  scene.Camera{Pitch: scene.Is(pitch), PixelsWide: scene.Is(1920), Shutter: scene.Is(shutter)},
		Lens:    scene.Lens{Magnification: scene.Is(1.0 / 3), FocalLength: scene.Is(100), Aperture: scene.Is(8)},
		Product: scene.Product{Shape: scene.Prism, Sides: 6, Radius: scene.Is(45)},
		Stand:   scene.Stand{TableAxis: "table", Slides: []scene.Slide{{Axis: "rail", Heading: 90, Zero: 40}}},
	}
}

func seen(t *testing.T, tr *trajectory.Trajectory, s scene.Scene) picture.Report {
	t.Helper()
	r, err := picture.Examine(tr, s)
	require.NoError(t, err)
	return r
}

func table(t *testing.T, tr *trajectory.Trajectory, s scene.Scene) string {
	t.Helper()
	r := seen(t, tr, s)
	return sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error { return pictures.Write(w, tr, header.Of(tr.Plan(), v), r) })
}

func TestGolden(t *testing.T) {
	tr := sample.Through(t)
	sample.Golden(t, "through.csv", table(t, tr, marked()))
}

// In a flat scene a carriage smears speed times shutter times scale, and what
// nobody knows is left empty.
func TestColumns(t *testing.T) {
	tr, s := sample.Still(t), marked()
	s.Stand.TableAxis, s.Product, s.Lens.FocalLength, s.Lens.Aperture = "", scene.Product{}, scene.Number{}, scene.Number{}
	r := csv.NewReader(strings.NewReader(table(t, tr, s)))
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	require.Len(t, all, int(tr.Captured())+1)
	at := map[string]int{}
	for i, title := range all[0] {
		at[title] = i
	}
	for k, row := range all[1:] {
		from, to := tr.FrameSeconds(int64(k)).Float(), tr.FrameSeconds(int64(k)).Float()+shutter
		want := math.Abs(tr.State(0, to).Pos-tr.State(0, from).Pos) / 3 / pitch
		got, err := strconv.ParseFloat(row[at["smear_px"]], 64)
		require.NoError(t, err)
		assert.InDelta(t, want, got, 0.02*want+0.001, "frame %d", k)
		assert.Equal(t, row[at["smear_px"]], row[at["sideways_px"]])
		for _, empty := range []string{"near_mm", "blur_px", "clearance_mm", "drift_mm"} {
			assert.Empty(t, row[at[empty]], empty)
		}
	}
}

func TestAPictureThatIsNotKnown(t *testing.T) {
	tr := sample.Still(t)
	r := seen(t, tr, scene.Scene{})
	assert.ErrorIs(t, pictures.Write(io.Discard, tr, header.Of(tr.Plan(), verify.Verdict{}), r), pictures.ErrNothing)
}

func TestTheWritersErrorComesThrough(t *testing.T) {
	tr := sample.Still(t)
	r := seen(t, tr, marked())
	size := len(table(t, tr, marked()))
	sample.Fails(t, size, func(w io.Writer) error { return pictures.Write(w, tr, header.Of(tr.Plan(), verify.Check(tr)), r) })
}
