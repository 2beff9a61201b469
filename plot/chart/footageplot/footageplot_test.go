package footageplot

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func example(frames int) Data {
	var p, m Series
	for n := range frames {
		x := float64(n)
		p.Frames, p.Values = append(p.Frames, x), append(p.Values, 40*math.Sin(x/20))
		m.Frames, m.Values = append(m.Frames, x), append(m.Values, 40*math.Sin(x/20)+0.1)
	}
	m.Values[3] = math.NaN()
	return Data{
		Title: "What was filmed", Lines: []string{"take.mov"}, Marks: []Mark{{10, "round 1"}, {-5, "before it"}},
		Panels: []Panel{{Name: "to the right", Unit: "px", Planned: p, Measured: m}, {Name: "down", Unit: "px", Least: 2, Measured: m}},
	}
}

// drawn is a figure in a format, the same each time.
func drawn(t *testing.T, format string, draw func(io.Writer, string) error) string {
	t.Helper()
	var a, b bytes.Buffer
	require.NoError(t, draw(&a, format))
	require.NoError(t, draw(&b, format))
	if format != "pdf" {
		assert.True(t, bytes.Equal(a.Bytes(), b.Bytes()), format)
	}
	return a.String()
}

func TestDraw(t *testing.T) {
	for _, format := range []string{"png", "svg", "pdf"} {
		text := drawn(t, format, func(w io.Writer, f string) error { return Draw(w, f, example(100)) })
		if format == "svg" {
			for _, want := range []string{"What was filmed", "take.mov", "to the right", "down", "round 1", "planned", "measured", "frame of the recording"} {
				assert.Contains(t, text, want)
			}
			assert.NotContains(t, text, "before it", "a mark outside of the recording")
		}
	}
	assert.Error(t, Draw(io.Discard, "gif", example(9)))
	assert.ErrorContains(t, Draw(io.Discard, "png", Data{}), "nothing to draw")
	none := example(9)
	for n := range none.Panels {
		none.Panels[n].Planned = Series{}
		for k := range none.Panels[n].Measured.Values {
			none.Panels[n].Measured.Values[k] = math.NaN()
		}
	}
	assert.NotContains(t, drawn(t, "svg", func(w io.Writer, f string) error { return Draw(w, f, none) }), "planned")
}

// A long take has dots that can be told apart, and a file that opens.
func TestALongTakeIsThinnedOut(t *testing.T) {
	dots := func(frames int) int {
		text := drawn(t, "svg", func(w io.Writer, f string) error { return Draw(w, f, example(frames)) })
		return strings.Count(text, "#D55E00")
	}
	assert.Equal(t, 2*(100-1)+1, dots(100), "one a frame of each panel that is known, and that of the key")
	assert.LessOrEqual(t, dots(40_000), 2*most+1)
}

func TestDrawAlike(t *testing.T) {
	a := Alike{Title: "Which frames are alike?", Lines: []string{"take.mov"}, Frames: 90, Loops: []Loop{{4, 52}, {8, 60}}}
	for r := range 30 {
		var row []float64
		for c := range 30 {
			row = append(row, 1-math.Abs(float64(r-c))/30)
		}
		a.Values = append(a.Values, row)
	}
	for _, format := range []string{"png", "svg", "pdf"} {
		text := drawn(t, format, func(w io.Writer, f string) error { return DrawAlike(w, f, a) })
		if format == "svg" {
			assert.Contains(t, text, "against each other frame")
		}
	}
	assert.ErrorContains(t, DrawAlike(io.Discard, "png", Alike{}), "nothing to draw")
	assert.Equal(t, shade(tones), shade(toneOf(7)), "what is out of range is at its end")
	assert.Equal(t, shade(0), shade(toneOf(-1)))
}
