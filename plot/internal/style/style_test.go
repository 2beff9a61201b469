package style

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

func labels(lo, hi float64, n int, degrees bool) []string {
	var out []string
	for _, t := range Ticks(lo, hi, n, degrees) {
		out = append(out, t.Label)
	}
	return out
}

func TestTicks(t *testing.T) {
	assert.Equal(t, []string{"0", "50", "100"}, labels(-5, 110, 3, false))
	assert.Equal(t, []string{"0", "15", "30", "45", "60"}, labels(0, 60, 5, true))
	assert.Equal(t, []string{"0", "90", "180", "270", "360"}, labels(0, 360, 5, true))
	assert.Equal(t, []string{"40.0", "40.2", "40.4"}, labels(40, 40.4, 3, false))
	assert.Equal(t, []string{"-20 000", "0", "20 000"}, labels(-21000, 21000, 3, false))
}

func TestTicksStayInsideAndFew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e6, 1e6).Draw(t, "lo")
		span := rapid.Float64Range(1e-3, 1e6).Draw(t, "span")
		n := rapid.IntRange(1, 8).Draw(t, "n")
		ticks := Ticks(lo, lo+span, n, rapid.Bool().Draw(t, "degrees"))
		if len(ticks) > n+1 {
			t.Fatalf("%d ticks for %d parts", len(ticks), n)
		}
		for _, tick := range ticks {
			if tick.Value < lo-span*1e-5 || tick.Value > lo+span*(1+1e-5) {
				t.Fatalf("tick %v outside [%v, %v]", tick.Value, lo, lo+span)
			}
		}
	})
}

func TestNumber(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 187.5: "187.5", 1143.2: "1143", 21573.4: "21 573",
		-0.00001: "-0.00001", 9.095e-13: "0", -4e-16: "0", 2e-8: "2e-08", 0.000123456: "0.000123", 0.25: "0.25", 60: "60", -12.5: "-12.5", 1234567: "1 234 567", 6.006: "6.006"} {
		assert.Equal(t, want, Number(v))
	}
	assert.Equal(t, "0", Number(math.Copysign(0, -1)))
	assert.Equal(t, "unbounded", Number(math.Inf(-1)))
}

func TestTextIsLegibleInEveryHue(t *testing.T) {
	assert.InDelta(t, 21, contrast(color.NRGBA{A: 255}), 1e-9) // black on white, by definition
	for i := range hues {
		assert.GreaterOrEqual(t, contrast(TextHue(i)), legible, "hue %d", i)
	}
	assert.GreaterOrEqual(t, contrast(Muted), legible)
}

func TestCurvesDifferInColourOrDash(t *testing.T) {
	seen := map[string]int{}
	for i := range len(hues) * len(dashes) {
		seen[fmt.Sprint(Hue(i), Dash(i))]++
	}
	assert.Len(t, seen, len(hues)*len(dashes))
}

func TestSpreadKeepsOrderAndGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "n")
		wanted := make([]float64, n)
		for i := range wanted {
			wanted[i] = rapid.Float64Range(0, 20).Draw(t, "step")
			if i > 0 {
				wanted[i] += wanted[i-1]
			}
		}
		out := Spread(wanted, 14, 0, 300)
		for i := range out {
			if i > 0 && out[i]-out[i-1] < 14-1e-9 {
				t.Fatalf("%v", out)
			}
			if out[i] < -1e-9 || out[i] > 300 {
				t.Fatalf("%v outside", out)
			}
		}
	})
}

func TestSpreadLeavesRoomyLabelsAlone(t *testing.T) {
	assert.Equal(t, []float64{10, 40, 90}, Spread([]float64{10, 40, 90}, 14, 0, 100))
}

func TestFitAndWrapKeepWithinTheRoom(t *testing.T) {
	st := Style{Size: Body}
	assert.Equal(t, "rail", Fit("rail", 100, st))
	cut := Fit("a name nobody would type twice", 100, st)
	assert.Contains(t, cut, "...")
	assert.LessOrEqual(t, TextWidth(cut, st), vg.Length(100))
	lines := Wrap("flows: place, speed and push all carry through", 100, st)
	assert.Greater(t, len(lines), 2)
	for _, line := range lines {
		assert.LessOrEqual(t, TextWidth(line, st), vg.Length(100))
	}
	assert.Empty(t, Wrap("", 100, st))
}

// TestPaletteKeepsInks: inks come through a PNG exactly, a soft edge within
// half a grid step, and an image of too many colours still encodes.
func TestPaletteKeepsInks(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 300, 3))
	for x := range 300 {
		img.Set(x, 0, Hue(x%len(hues)))
		img.SetRGBA(x, 1, color.RGBA{uint8(x), uint8(x), uint8(x), 255})
		img.SetRGBA(x, 2, color.RGBA{uint8(x * 7), uint8(x * 13), uint8(x * 29), 255})
	}
	var b bytes.Buffer
	require.NoError(t, writePNG(&b, img))
	out, err := png.Decode(&b)
	require.NoError(t, err)
	for x := range 300 {
		assert.Equal(t, Hue(x%len(hues)), color.NRGBAModel.Convert(out.At(x, 0)))
		r, _, _, _ := out.At(x, 1).RGBA()
		assert.InDelta(t, float64(uint8(x)), float64(r>>8), coarse/2+1)
	}
}

func TestPDFTextIsOneByteALetter(t *testing.T) {
	assert.Equal(t, "mm/s\xb2", bytesOf("mm/s²"))
	assert.False(t, wide("mm/s²"))
	assert.True(t, wide("mm/s² →"), "which is drawn as outlines")
}

func TestWhatTheTypefaceLacksIsWrittenAsCodes(t *testing.T) {
	for text, want := range map[string]string{
		"φανός фонарь, → é e\u0301 ½": "φανός фонарь, → é e\u0301 ½",
		"灯":        "[U+706F]",
		"a 灯笼 b 🏮": "a [U+706F U+7B3C] b [U+1F3EE]",
		"فا":       "[U+0641 U+0627]",
	} {
		assert.Equal(t, want, Written(text))
		assert.Equal(t, want, Written(Written(text)))
		assert.Equal(t, want == text, len(Lacks(text)) == 0)
	}
}

func TestHeadGrowsWithItsWords(t *testing.T) {
	short := NewHead(432, "Lantern", "144 frames")
	assert.Equal(t, short, NewHead(432, "Lantern", "", "144 frames", ""), "empty lines take no room")
	long := NewHead(432, "A shot whose name goes on for rather longer than the paper is wide", "144 frames")
	assert.InDelta(t, float64(short.Height()+titlePitch), float64(long.Height()), 1e-9)
}

func TestLimitLabelKeepsClearOfTheCurve(t *testing.T) {
	p := Panel{Right: 300, Top: 80, X1: 1, Y1: 1}
	// The curve crosses the level at the right end, so the label goes left.
	xs, ys := []float64{0, 0.5, 0.7, 0.8, 0.9, 1}, []float64{0, 0, 0.4, 0.5, 0.6, 0.7}
	assert.Equal(t, vg.Length(4), p.calm(60, p.Y(0.5), xs, ys).X)
	// A curve far below leaves it at the right, below the line.
	place := p.calm(60, p.Y(0.9), xs, []float64{0, 0, 0, 0, 0, 0})
	assert.Equal(t, vg.Point{X: 236, Y: p.Y(0.9) - Small + 1}, place)
}

func TestSVGTextKeepsItsWidth(t *testing.T) {
	s, err := NewSheet("svg", 200, 50)
	require.NoError(t, err)
	st := Style{Size: Body, Color: Ink, Align: -1}
	s.Text(10, 10, "one", st)
	s.Text(10, 30, "two <text> three", st)
	var b bytes.Buffer
	n, err := s.WriteTo(&b)
	require.NoError(t, err)
	assert.EqualValues(t, b.Len(), n)
	for _, txt := range []string{"one", "two <text> three"} {
		assert.Contains(t, b.String(), fmt.Sprintf(`<text textLength="%.2f" `, TextWidth(txt, st).Points()))
	}
	assert.Equal(t, 2, strings.Count(b.String(), "textLength="))
	assert.Contains(t, b.String(), "two &lt;text&gt; three")
	assert.Contains(t, b.String(), "Arial,Helvetica,sans-serif")
}

// A colour that is named comes through a PNG exactly, though it is no ink.
func TestKeptColoursComeThrough(t *testing.T) {
	odd := color.NRGBA{R: 231, G: 242, B: 249, A: 255}
	for _, keep := range []bool{true, false} {
		s, err := NewSheet("png", 36, 36)
		require.NoError(t, err)
		if keep {
			s.Keep(odd)
		}
		s.Fill(0, 0, 36, 36, odd)
		var b bytes.Buffer
		_, err = s.WriteTo(&b)
		require.NoError(t, err)
		img, err := png.Decode(&b)
		require.NoError(t, err)
		assert.Equal(t, keep, color.NRGBAModel.Convert(img.At(10, 10)) == odd)
	}
}

func TestPages(t *testing.T) {
	s, err := NewSheet("pdf", 36, 36)
	require.NoError(t, err)
	s.NextPage()
	s.NextPage()
	var b bytes.Buffer
	_, err = s.WriteTo(&b)
	require.NoError(t, err)
	assert.Contains(t, b.String(), "/Count 3\n")
	s, err = NewSheet("png", 36, 36)
	require.NoError(t, err)
	assert.Panics(t, func() { s.NextPage() })
}
