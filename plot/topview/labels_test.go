package topview

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/plot/internal/style"
)

// shotFiles are the demo and what other people's scenes have looked like.
var shotFiles = []string{
	"../../cmd/internal/starter/lantern.toml", "testdata/shots/closing30.toml", "testdata/shots/dark.toml", "testdata/shots/label.toml",
	"testdata/shots/pour.toml", "testdata/shots/rim.toml", "testdata/shots/steam.toml",
}

// fromFile is the plan view of a shot in a file, with its rig beside it.
func fromFile(t testing.TB, name string) Data {
	t.Helper()
	read := func(name string) []byte {
		text, err := os.ReadFile(filepath.FromSlash(name))
		require.NoError(t, err)
		return text
	}
	s, err := shot.Decode(name, read(name), nil)
	require.NoError(t, err)
	r, _, err := rig.Decode(s.RigFile, read(filepath.Join(filepath.Dir(name), s.RigFile)))
	require.NoError(t, err)
	p, err := plan.Build(s, r)
	require.NoError(t, err)
	tr := trajectory.New(p)
	scene, ok := lensview.Scene(s, r)
	require.True(t, ok)
	d, err := From(lensview.Motion(tr), scene)
	require.NoError(t, err)
	d.Title = p.Title
	return d
}

// set is a text as an SVG sets it, and the room that its letters take.
type set struct {
	X     float64 `xml:"x,attr"`
	Y     float64 `xml:"y,attr"` // downwards from the foot
	Style string  `xml:"style,attr"`
	Words string  `xml:",chardata"`
}

var fontSize = regexp.MustCompile(`font-size:([\d.]+)px`)

func (s set) box(t testing.TB) box {
	size, err := strconv.ParseFloat(fontSize.FindStringSubmatch(s.Style)[1], 64)
	require.NoError(t, err)
	st := style.Style{Size: vg.Length(size), Bold: regexp.MustCompile(`font-weight:bold`).MatchString(s.Style)}
	x, y := vg.Length(s.X), vg.Length(-s.Y)
	// Digits and capitals rise seven tenths of the size above the line, and no letter
	// goes a fifth below it (Liberation Sans; from memory, as the test does not open
	// the typeface).
	return box{x, y - 0.2*st.Size, x + style.TextWidth(s.Words, st), y + 0.7*st.Size}
}

// written are the texts of an SVG.
func written(t testing.TB, svg []byte) []set {
	var out []set
	dec := xml.NewDecoder(bytes.NewReader(svg))
	for {
		tok, err := dec.Token()
		if tok == nil {
			return out
		}
		require.NoError(t, err)
		if e, ok := tok.(xml.StartElement); ok && e.Name.Local == "text" {
			var s set
			require.NoError(t, dec.DecodeElement(&s, &e))
			out = append(out, s)
		}
	}
}

// No two texts lie over each other at any scale, however small what they name is on
// paper, and whatever is named is told: on the drawing, or in the list.
func TestNoTwoLabelsOverlapAtAnyScale(t *testing.T) {
	wall := Paper{"wall", 2400, 2400} // holds every scene at 1:1
	for _, name := range shotFiles {
		d := fromFile(t, name)
		for _, scale := range []Scale{1, 1. / 2, 1. / 5, 1. / 10, 1. / 20, 1. / 50} {
			for _, inset := range []bool{false, true} {
				d.Inset = inset
				all := written(t, drawn(t, "svg", d, Options{Paper: wall, Scale: scale}))
				require.NotEmpty(t, all)
				at := fmt.Sprint(filepath.Base(name), " at ", scale)
				for i, a := range all {
					for _, b := range all[:i] {
						assert.False(t, a.box(t).meets(b.box(t)), "%s: %q and %q", at, a.Words, b.Words)
					}
				}
			}
		}
	}
}

// The dark is next to black, and open where its board has a hole.
func TestTheDarkIsDark(t *testing.T) {
	d := fromFile(t, "testdata/shots/dark.toml")
	assert.Less(t, max(darkInk.R, darkInk.G, darkInk.B), uint8(0x10))
	img, err := png.Decode(bytes.NewReader(drawn(t, "png", d, Options{Scale: 1. / 5, Paper: Papers[1]})))
	require.NoError(t, err)
	p, err := composed("svg", d, Options{Scale: 1. / 5, Paper: Papers[1]})
	require.NoError(t, err)
	const dot = style.DPI / 72.0
	at := func(x, y float64) color.NRGBA {
		q := p.at(r2.Vec{X: x, Y: y})
		return color.NRGBAModel.Convert(img.At(int(float64(q.X)*dot), img.Bounds().Dy()-int(float64(q.Y)*dot))).(color.NRGBA)
	}
	for _, x := range []float64{-240, -100, 100, 200} {
		assert.Equal(t, darkInk, at(x, -430), "at %v mm", x)
	}
	for _, x := range []float64{-15, 15} {
		assert.Greater(t, at(x, -430).G, uint8(60), "the hole, at %v mm", x)
	}
	svg := string(drawn(t, "svg", d, Options{}))
	assert.Regexp(t, `fill:#08090B">dark, 500 mm<`, svg)
}

// Labels and numbers cover nothing that stands there, and what is smaller than its
// label would be has none.
func TestLabelsCoverNoThings(t *testing.T) {
	for _, name := range shotFiles {
		d := fromFile(t, name)
		for _, scale := range []Scale{1. / 5, 1. / 20, 1. / 50} {
			p, err := composed("svg", d, Options{Paper: Paper{"wall", 2400, 2400}, Scale: scale})
			require.NoError(t, err)
			require.NotEmpty(t, p.bodies)
			for _, b := range p.taken {
				for _, s := range p.bodies {
					assert.False(t, s.cuts(b.grown(-1)) && b.x1-b.x0 > 13, "%s at %v: %v", name, scale, b) // a lamp is 12 wide
				}
			}
		}
	}
	d := fromFile(t, shotFiles[0])
	said := texts(t, drawn(t, "svg", d, Options{Scale: 1. / 50}))
	assert.NotContains(t, said, "A: 68.1 mm sharp", "4 points of drawing")
	assert.Contains(t, strings.Join(said, " "), "Too small to name here: A: 68.1 mm sharp; B: 68.1 mm sharp; A: 237.6 mm wide in focus", "the list has it")
	assert.Contains(t, texts(t, drawn(t, "svg", d, Options{Scale: 1. / 5})), "A: 68.1 mm sharp")
}
