package topview

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"slices"
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/sample"
	"seamrail/plot/internal/style"
)

func drawn(t tester, format string, d Data, opt Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Draw(&b, format, d, opt))
	return b.Bytes()
}

// texts are what an SVG says, in order.
func texts(t *testing.T, svg []byte) []string {
	t.Helper()
	var out []string
	dec := xml.NewDecoder(bytes.NewReader(svg))
	in := false
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		require.NoError(t, err)
		switch tok := tok.(type) {
		case xml.StartElement:
			in = tok.Name.Local == "text"
		case xml.EndElement:
			in = false
		case xml.CharData:
			if in {
				out = append(out, string(tok))
			}
		}
	}
}

func TestSheetsAreOfThePapersSize(t *testing.T) {
	d := seen(t, travelled(t, 120), lantern(0))
	img, err := png.Decode(bytes.NewReader(drawn(t, "png", d, Options{})))
	require.NoError(t, err)
	assert.InDelta(t, 210.0/25.4*style.DPI, img.Bounds().Dx(), 1)
	assert.InDelta(t, 297.0/25.4*style.DPI, img.Bounds().Dy(), 1)
	pdf := string(drawn(t, "pdf", d, Options{Paper: Papers[1]}))
	assert.Contains(t, pdf, "/MediaBox [0 0 841.89 1190.55]")
	assert.Contains(t, pdf, "/Count 1\n")
	svg := string(drawn(t, "svg", d, Options{}))
	assert.Contains(t, svg, `width="595.28pt" height="841.89pt"`)
}

// A scene that is wider than deep lies across.
func TestWideScenesLieAcross(t *testing.T) {
	s := lantern(-90)
	s.Lamps[0].Bearing, s.Lamps[1].Bearing = 90, -90
	s.Lamps[0].Distance.Value, s.Lamps[1].Distance.Value = 900, 900
	svg := drawn(t, "svg", seen(t, travelled(t, 120), s), Options{})
	assert.Contains(t, string(svg), `width="841.89pt" height="595.28pt"`)
	assert.Contains(t, texts(t, svg), "Scale 1:10 on A4 across")
}

// Every distance, letter and name of the scenes of the example is on the
// sheet, and every place is in the list.
func TestSaysWhatItShows(t *testing.T) {
	for _, heading := range []float64{0, -90, -60} {
		for _, paper := range Papers {
			d := seen(t, travelled(t, 120), walled(heading))
			svg := drawn(t, "svg", d, Options{Paper: paper})
			said := texts(t, svg)
			for _, i := range d.Above.Items {
				switch i.Kind {
				case picture.DistanceItem:
					assert.Contains(t, said, mm(length(i)), "%g deg on %s", heading, paper.Name)
				case picture.RailItem, picture.SweptItem, picture.DarkItem:
					assert.Contains(t, said, i.Label, "%g deg on %s", heading, paper.Name)
				case picture.FieldItem, picture.SharpItem:
					assert.Contains(t, said, letter(i.End)+": "+i.Label, "%g deg on %s", heading, paper.Name)
				}
			}
			for _, m := range d.marksOf() {
				assert.Equal(t, 2, count(said, m.letter), "%s beside its place and in the list", m.letter)
			}
			assert.NotContains(t, string(svg), "NaN")
			assert.NotContains(t, string(svg), "Inf")
		}
	}
}

func count(list []string, text string) int {
	n := 0
	for _, s := range list {
		if s == text {
			n++
		}
	}
	return n
}

// The words of two sheets.
func TestWords(t *testing.T) {
	for name, s := range map[string]scene.Scene{"walled.txt": walled(-60), "bare.txt": {
		Stand: scene.Stand{Distance: scene.Is(300)}, Lamps: []scene.Lamp{{Name: "key"}}}} {
		said := texts(t, drawn(t, "svg", seen(t, travelled(t, 120), s), Options{}))
		sample.Golden(t, name, strings.Join(said, "\n")+"\n")
	}
}

func TestPlaces(t *testing.T) {
	for want, v := range map[string]r2.Vec{"on it": {}, "300 mm before": {Y: -300}, "20.5 mm behind, 10 mm left": {X: -10, Y: 20.5},
		"0.1 mm right": {X: 0.06}, "300 mm before, 0.1 mm right": {X: 0.06, Y: -300.04}} {
		assert.Equal(t, want, place(v))
	}
	assert.Equal(t, []string{"A", "Z", "A2", "B3"}, []string{letter(0), letter(25), letter(26), letter(53)})
}

// A lamp right overhead, two lamps and two holes in one place: no
// number on the sheet is NaN.
func TestDegenerateScenes(t *testing.T) {
	s := walled(0)
	s.Lamps[0].Rise, s.Lamps[1].Rise = 90, 90
	s.Holes = append(s.Holes, s.Holes[0])
	for _, format := range style.Formats {
		out := string(drawn(t, format, seen(t, travelled(t, 120), s), Options{}))
		if format == "svg" {
			assert.NotContains(t, out, "NaN")
			assert.NotContains(t, out, "Inf")
		}
	}
}

func TestDrawingTwiceGivesTheSameBytes(t *testing.T) {
	d := seen(t, travelled(t, 120), walled(0))
	for _, format := range []string{"png", "svg"} {
		assert.True(t, bytes.Equal(drawn(t, format, d, Options{}), drawn(t, format, d, Options{})), format)
	}
}

func TestWhatCannotBeDrawn(t *testing.T) {
	d := seen(t, travelled(t, 120), lantern(0))
	assert.EqualError(t, Draw(io.Discard, "gif", d, Options{}), `format "gif" is not drawn here; use one of png, svg, pdf`)
	assert.EqualError(t, Draw(io.Discard, "svg", d, Options{Scale: 1}), "the scene does not fit on A4 at 1:1; it does at 1:5, or as a PDF on several sheets")
	nothing := seen(t, travelled(t, 120), scene.Scene{})
	assert.EqualError(t, Draw(io.Discard, "svg", nothing, Options{}), "nothing to draw from above: it takes distance, or focal length and magnification")
	crowd := lantern(0)
	crowd.Lamps = slices.Repeat(crowd.Lamps, 50)
	assert.EqualError(t, Draw(io.Discard, "svg", seen(t, travelled(t, 120), crowd), Options{}),
		"A4 has no room for all there is to set out; it takes a larger sheet, or fewer lamps and holes")
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestAFailingWriterIsReported(t *testing.T) {
	d := seen(t, travelled(t, 120), lantern(0))
	for _, format := range style.Formats {
		assert.ErrorIs(t, Draw(full{}, format, d, Options{}), errFull, format)
	}
}

func BenchmarkDraw(b *testing.B) {
	d := seen(b, travelled(b, 120), walled(-60))
	for _, format := range style.Formats {
		b.Run(format, func(b *testing.B) {
			for b.Loop() {
				if err := Draw(io.Discard, format, d, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
