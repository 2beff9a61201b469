package style_test

import (
	"bytes"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"seamrail/plot/internal/style"
)

// quick is far above what a cut figure takes on a slow machine, and far below
// what a line to the end of the world does.
const quick = 5 * time.Second

// Wherever points lie, a figure is drawn in a time that does not depend on it.
func TestNothingFarOffIsWalkedTo(t *testing.T) {
	began := time.Now()
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-50, 150), rapid.SampledFrom([]float64{math.Inf(1), math.Inf(-1), math.NaN(), 1e300, -1e13}))
		pts := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) vg.Point {
			return vg.Point{X: vg.Length(at.Draw(t, "x")), Y: vg.Length(at.Draw(t, "y"))}
		}), 3, 6).Draw(t, "points")
		s, err := style.NewSheet(rapid.SampledFrom(style.Formats).Draw(t, "format"), 100, 60)
		require.NoError(t, err)
		s.Polyline(pts, 1, style.Ink, 3, 3)
		s.Line(pts[0].X, pts[0].Y, pts[1].X, pts[1].Y, 1, style.Ink, 2)
		s.FillPolygon(style.Shade, pts)
		s.Fill(pts[0].X, pts[0].Y, pts[1].X, pts[1].Y, style.Shade)
		s.Dot(pts[2], 3, style.Ink)
		s.Ring(pts[2], 3, 1, style.Ink)
		var out bytes.Buffer
		_, err = s.WriteTo(&out)
		require.NoError(t, err)
		assert.NotContains(t, out.String(), "NaN")
	})
	assert.Less(t, time.Since(began), quick)
}

// What leaves the paper and comes back is drawn where it is on it.
func TestALineIsCutAndNotBent(t *testing.T) {
	draw := func(far vg.Length) []byte {
		s, err := style.NewSheet("png", 100, 60)
		require.NoError(t, err)
		s.Polyline([]vg.Point{{X: 50 - far, Y: 30 - far}, {X: 50 + far, Y: 30 + far}}, 2, style.Ink)
		var out bytes.Buffer
		_, err = s.WriteTo(&out)
		require.NoError(t, err)
		return out.Bytes()
	}
	assert.Equal(t, draw(60), draw(6000))
}
