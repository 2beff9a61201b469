package motionjson_test

import (
	"encoding/json"
	"io"
	"math"
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/export/handoff/motionjson"
	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/matchmove"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify"
)

func lens(t testing.TB, tr *trajectory.Trajectory) *matchmove.Shot {
	var s scene.Scene
	s.Camera.SensorWidth, s.Camera.SensorHeight = scene.Is(36), scene.Is(20.25)
	s.Camera.PixelsWide, s.Camera.PixelsHigh = scene.Is(1920), scene.Is(1080)
	s.Lens.FocalLength, s.Lens.Focus = scene.Is(50), scene.Is(380)
	s.Stand.Distance, s.Stand.Height, s.Stand.Tilt = scene.Is(454), scene.Is(150), scene.Is(-12)
	s.Stand.Slides = []scene.Slide{{Axis: "rail"}}
	s.Stand.TableAxis = "table"
	out, err := matchmove.New(lensview.Motion(tr), s)
	require.NoError(t, err)
	return &out
}

func text(t *testing.T, tr *trajectory.Trajectory, shot *matchmove.Shot, filmed ...selects.Filmed) string {
	return sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error {
		return motionjson.Write(w, tr, header.Of(tr.Plan(), v), shot, selects.Of(tr.Plan(), filmed))
	})
}

// document is what another program reads, with types of its own.
type document struct {
	Schema, Plan string
	Checks       bool
	Clock        struct{ Capture, Playback, Retime string }
	Loop         struct {
		Captured int64 `json:"captured_frames"`
	}
	Axes []struct{ Name, Unit, Gain string }
	Stands,
	LeftOut []any
	Picture *struct {
		Wide int `json:"pixels_wide"`
	}
	Takes  []map[string]any
	Frames []struct {
		Frame        int64
		Screen       float64 `json:"screen_s"`
		Real         float64 `json:"real_s"`
		Axes, Stands []float64
		Lens         *struct {
			At, Right, Up, Forward [3]float64
			View, Focus, Product   float64
		}
	}
}

func read(t *testing.T, text string) document {
	t.Helper()
	d := document{}
	require.NoError(t, json.Unmarshal([]byte(text), &d))
	return d
}

func vec(v [3]float64) r3.Vec { return r3.Vec{X: v[0], Y: v[1], Z: v[2]} }

func TestReadsBack(t *testing.T) {
	tr := sample.Through(t)
	d := read(t, text(t, tr, lens(t, tr), selects.Filmed{Number: 2, Plan: tr.Plan().Hash(), Rounds: 3, Notes: []string{"a\nb"}}))
	require.Equal(t, motionjson.Schema, d.Schema)
	require.Equal(t, tr.Plan().Hash(), d.Plan)
	require.True(t, d.Checks)
	require.Equal(t, 1920, d.Picture.Wide)
	require.Equal(t, "360/7", d.Axes[1].Gain)
	require.Len(t, d.Frames, int(tr.Captured()))
	require.Equal(t, []any{"a b"}, d.Takes[0]["notes"])
	require.Equal(t, "24", d.Clock.Capture)
	for k, f := range d.Frames {
		require.EqualValues(t, k, f.Frame)
		require.InDelta(t, float64(k)/24, f.Real, 1e-12)
		for i, s := range tr.Frame(int64(k)).States {
			require.InDelta(t, s.Pos, f.Axes[i], 1e-6)
		}
		l := f.Lens
		require.InDelta(t, 0, r3.Norm(r3.Sub(r3.Cross(vec(l.Right), vec(l.Forward)), vec(l.Up))), 1e-8, "right-handed")
		require.InDelta(t, -12, math.Asin(l.Forward[2])*180/math.Pi, 1e-6)
		require.InDelta(t, f.Axes[1], l.Product, 1e-6, "the product turns with the table")
	}
	first, last := d.Frames[0], d.Frames[12]
	require.InDelta(t, last.Axes[0]-first.Axes[0], last.Lens.At[1]-first.Lens.At[1], 2e-6, "the rail pushes in")
}

func TestGolden(t *testing.T) {
	sample.Golden(t, "stand.json", text(t, sample.Display(t, 6, exact.New(73, 10), 6), nil))
}

func TestLeftOut(t *testing.T) {
	tr := sample.Through(t)
	got := text(t, tr, nil, selects.Filmed{Number: 7, Plan: "cafe", Rounds: 1})
	require.Contains(t, got, `"why": "it was filmed by another plan, cafe"`)
	require.Contains(t, got, `"takes": []`)
	require.Contains(t, got, `"picture": null`)
	require.NotContains(t, got, `"lens"`)
}

func TestWriterFails(t *testing.T) {
	tr := sample.Through(t)
	sample.Fails(t, len(text(t, tr, nil)), func(w io.Writer) error {
		return motionjson.Write(w, tr, header.Of(tr.Plan(), verify.Check(tr)), nil, selects.Of(tr.Plan(), nil))
	})
}

// For those who read line by line.
func TestFramesAreOneALine(t *testing.T) {
	tr := sample.Through(t)
	require.Equal(t, int(tr.Captured()), strings.Count(text(t, tr, nil), "\n    {\"frame\":"))
}

// The loop has 2400 frames.
func BenchmarkWrite(b *testing.B) {
	tr := sample.Long(b)
	shot, v, takes := lens(b, tr), verify.Check(tr), selects.Of(tr.Plan(), nil)
	for b.Loop() {
		if err := motionjson.Write(io.Discard, tr, header.Of(tr.Plan(), v), shot, takes); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(tr.Captured())*float64(b.N)/b.Elapsed().Seconds(), "frames/s")
}
