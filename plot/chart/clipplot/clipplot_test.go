package clipplot

import (
	"bytes"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/plot/internal/style"
)

// example is a clip of n shots, each a wave of its own, with every mark in turn.
func example(n int) Data {
	d := Data{Title: "Fernhollow lantern", Lines: []string{"at 24 frames/s"}, Rigs: []string{"along", "across"}, Lights: []string{"day", "dusk", "dark"}}
	curve := Curve{Name: "right"}
	at := 0.0
	for i := range n {
		end := at + 1 + float64(i%4)
		d.Blocks = append(d.Blocks, Block{
			Name: fmt.Sprintf("Shot %c", 'a'+i%26), Label: fmt.Sprintf("00:00:%02d:00", i), Start: at, End: end, Frames: int64(24 * (end - at)),
			Hue: i % 5, Rig: i % 2, Light: i % 3, Turn: i + 1,
		})
		d.Cuts = append(d.Cuts, Cut{Mark: Mark(i % 5), Words: fmt.Sprintf("%d to %d: as it goes", i+1, (i+1)%n+1)})
		var p Part
		for x := at; x < end; x += 0.05 {
			p.Seconds, p.Values = append(p.Seconds, x), append(p.Values, math.Sin(float64(i)+x))
		}
		curve.Parts = append(curve.Parts, p)
		at = end
	}
	d.Panels = []Panel{{Title: "widths/s", Curves: []Curve{curve, {Name: "up", Parts: []Part{{[]float64{0, 1}, []float64{0, 0}}}}}}}
	return d
}

func drawn(t *testing.T, format string, d Data) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Draw(&b, format, d))
	return b.Bytes()
}

func TestEveryFormatIsDrawnTheSameTwice(t *testing.T) {
	for _, format := range []string{"png", "svg"} {
		assert.True(t, bytes.Equal(drawn(t, format, example(5)), drawn(t, format, example(5))), format)
	}
	assert.True(t, bytes.HasPrefix(drawn(t, "pdf", example(5)), []byte("%PDF-1.")))
	c, err := png.DecodeConfig(bytes.NewReader(drawn(t, "png", example(5))))
	require.NoError(t, err)
	assert.Equal(t, 1800, c.Width)
}

func TestEverythingIsSaid(t *testing.T) {
	svg := string(drawn(t, "svg", example(5)))
	for _, text := range []string{"Fernhollow lantern", "at 24 frames/s", "Shot a", "Shot e", "48 frames", "96 frames", "00:00:00:00", "1st", "2nd", "3rd", "4th",
		"A", "B", "rig A", "rig B", "along", "across", "light 3", "dark", "1 to 2: as it goes", "5 to 1: as it goes", "right", "up: none", "widths/s", "seconds on screen"} {
		assert.Contains(t, svg, ">"+text+"<")
	}
	assert.NotContains(t, svg, "NaN")
}

func TestManyShotsAreStillAStrip(t *testing.T) {
	svg := string(drawn(t, "svg", example(90)))
	assert.Contains(t, svg, ">and 66 more<")
	assert.NotContains(t, svg, ">25 to 26: as it goes<")
	assert.Less(t, strings.Count(svg, ">00:00:"), 90, "labels that would lie on each other are left out")
	d := example(1)
	d.Panels = nil
	assert.Contains(t, string(drawn(t, "svg", d)), ">1 to 1: as it goes<")
}

// Each mark has a shape of its own besides its colour; the dots of what is whole
// and what is easy differ by the line of the cut.
func TestMarksDifferWithoutColour(t *testing.T) {
	shape := func(m Mark) string {
		d := example(1)
		d.Panels, d.Cuts[0].Mark = nil, m
		svg := string(drawn(t, "svg", d))
		return fmt.Sprint(strings.Count(svg, "<path"), strings.Count(svg, "<line"), strings.Count(svg, "stroke-width"))
	}
	assert.NotEqual(t, shape(Easy), shape(Break))
	assert.NotEqual(t, shape(Easy), shape(Change))
	assert.NotEqual(t, shape(Change), shape(Break))
}

func TestLettersAndOrdinals(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA"} {
		assert.Equal(t, want, letter(i))
	}
	for i, want := range map[int]string{1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 11: "11th", 12: "12th", 13: "13th", 21: "21st", 22: "22nd", 100: "100th"} {
		assert.Equal(t, want, ordinal(i))
	}
}

func TestWhatCannotBeDrawn(t *testing.T) {
	assert.EqualError(t, Draw(io.Discard, "", example(1)), `format "" is not drawn here; use one of png, svg, pdf`)
	assert.ErrorContains(t, Draw(io.Discard, "png", Data{}), "nothing to draw")
	d := example(2)
	d.Cuts = d.Cuts[:1]
	assert.ErrorContains(t, Draw(io.Discard, "png", d), "nothing to draw")
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestAFailingWriterIsReported(t *testing.T) {
	for _, format := range style.Formats {
		assert.ErrorIs(t, Draw(full{}, format, example(2)), errFull, format)
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, format := range style.Formats {
		b.Run(format, func(b *testing.B) {
			for b.Loop() {
				if err := Draw(io.Discard, format, example(5)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
