package spinplot

import (
	"bytes"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"seamrail/plot/internal/style"
)

// example has the shape of true errors: a saw that is 0 at every match, of which
// the frames hit the third alone.
func example() Data {
	d := Data{
		Title: "Which loops close?", Lines: []string{"Fernhollow lantern, 7.3 s a turn, 6 alike faces"},
		Unit: "px", Bound: 0.5, Within: "0.5 px", Best: "438 captured frames, 18.268 s on screen", Screen: 18.268,
		Phases: []Phase{
			{Name: "carriage", Axis: "near end 0, far end 1", End: "home", Shape: []Point{{0, 0}, {9, 1}, {18.268, 0}}},
			{Name: "product", Axis: "a face in front 0, the next 1", End: "on its match", Shape: []Point{{0, 0}, {9, 1}, {9, 0}, {18.268, 1}}},
		},
	}
	var c Curve
	for f := 96; f < 500; f++ {
		faces := float64(f) / 146
		off := math.Abs(faces-math.Round(faces)) * 500
		if f%146 != 0 {
			off += 0.7
		}
		c.Screen, c.Off = append(c.Screen, float64(f)*1001/24000), append(c.Off, off)
	}
	c.Name = "captured at 119.88"
	c.Dots = []Dot{{Screen: 146 * 1001.0 / 24000, Off: 0.7, Label: "146"}, {Screen: 438 * 1001.0 / 24000, Good: true, Label: "438"}}
	d.Curves = []Curve{c}
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
		assert.True(t, bytes.Equal(drawn(t, format, example()), drawn(t, format, example())), format)
	}
	assert.True(t, bytes.HasPrefix(drawn(t, "pdf", example()), []byte("%PDF-1.")))
	c, err := png.DecodeConfig(bytes.NewReader(drawn(t, "png", example())))
	require.NoError(t, err)
	assert.Equal(t, 1080, c.Width)
}

func TestWhatIsSaid(t *testing.T) {
	d := example()
	svg := string(drawn(t, "svg", d))
	for _, text := range []string{"closing error", "closes within 0.5 px", "438", "146", "exact", "carriage", "product", "on its match", "seconds on screen"} {
		assert.Contains(t, svg, ">"+text+"<")
	}
	assert.NotContains(t, svg, "captured at", "one curve needs no key")
	d.Curves = append(d.Curves, d.Curves[0])
	d.Curves[1].Name = "captured at 60"
	svg = string(drawn(t, "svg", d))
	assert.Contains(t, svg, ">captured at 119.88<")
	assert.Contains(t, svg, ">captured at 60<")
	d.Bound, d.Phases = 0, nil
	svg = string(drawn(t, "svg", d))
	assert.NotContains(t, svg, "closes within")
	assert.NotContains(t, svg, "over one loop")
}

// TestHardData has one loop alone, none that is off, and a great many dots.
func TestHardData(t *testing.T) {
	d := example()
	d.Curves = []Curve{{Screen: []float64{6}, Off: []float64{0}, Dots: []Dot{{Screen: 6, Good: true, Label: "144"}}}}
	assert.NotContains(t, string(drawn(t, "svg", d)), "NaN")
	var c Curve
	for i := range 2000 {
		x := float64(i) / 100
		c.Screen, c.Off = append(c.Screen, x), append(c.Off, 0.1)
		c.Dots = append(c.Dots, Dot{Screen: x, Off: 0.1, Good: true, Label: fmt.Sprint(i)})
	}
	d.Curves = []Curve{c}
	svg := string(drawn(t, "svg", d))
	assert.NotContains(t, svg, "NaN")
	assert.Contains(t, svg, ">closes within 0.5 px<")
}

// No label lies over a dot or another label.
func TestLabelsKeepClear(t *testing.T) {
	s, err := style.NewSheet("svg", width, 300)
	require.NoError(t, err)
	d := example()
	pan := d.panel(s, 300)
	f := &crowd{}
	for i := range 40 {
		dot := Dot{Screen: 4 + float64(i)*0.4, Off: 1 + float64(i%5), Label: "1234"}
		at := pan.At(dot.Screen, lift(pan, dot.Off))
		f.boxes = append(f.boxes, box{at.X - 4, at.Y - 4, at.X + 4, at.Y + 4})
	}
	dots := len(f.boxes)
	for i := range 40 {
		label(pan, Dot{Screen: 4 + float64(i)*0.4, Off: 1 + float64(i%5), Label: "1234"}, 0, f)
	}
	taken := f.boxes
	require.Greater(t, len(taken), dots, "some find room")
	for i := dots; i < len(taken); i++ {
		meets := 0
		for k := range i {
			if taken[i].meets(taken[k]) {
				meets++
			}
		}
		assert.LessOrEqual(t, meets, 1, "a label may touch its own dot and nothing else")
	}
}

var (
	textMark = regexp.MustCompile(`<text [^>]*? x="([\d.-]+)" y="([\d.-]+)"[^>]*?font-size:([\d.]+)px[^>]*>([^<]*)<`)
	lineMark = regexp.MustCompile(`<path d="M([^"AZ]*)" style="fill:none;[^"]*stroke-width:1.2`)
)

// struck are the labels in the panel of an SVG that a curve runs through.
func struck(t require.TestingT, svg string, labels *int) (out []string) {
	number := func(s string) vg.Length {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return vg.Length(v)
	}
	var lines [][]vg.Point
	for _, m := range lineMark.FindAllStringSubmatch(svg, -1) {
		var line []vg.Point
		for pair := range strings.SplitSeq(m[1], "L") {
			x, y, _ := strings.Cut(pair, ",")
			line = append(line, vg.Point{X: number(x), Y: number(y)})
		}
		lines = append(lines, line)
	}
	for _, m := range textMark.FindAllStringSubmatch(svg, -1) {
		size := number(m[3])
		x, y := number(m[1]), -number(m[2])
		wide := style.TextWidth(m[4], style.Style{Size: size})
		*labels++
		for _, line := range lines {
			for k := 1; k < len(line); k++ { // walked in small steps, which knows nothing of how labels are placed
				for s := range 200 {
					at := line[k-1].Add(line[k].Sub(line[k-1]).Scale(vg.Length(s) / 200))
					if at.X > x && at.X < x+wide && at.Y > y && at.Y < y+0.7*size {
						out = append(out, m[4])
						s, k = 200, len(line)
						break
					}
				}
			}
		}
	}
	return out
}

// No curve strikes a label through, however many curves there are and wherever they
// come close.
func TestNoCurveStrikesALabelThrough(t *testing.T) {
	labels := 0
	rapid.Check(t, func(t *rapid.T) {
		d := example()
		d.Phases, d.Curves = nil, nil
		for i := range rapid.IntRange(1, 3).Draw(t, "curves") {
			period := rapid.Float64Range(2, 400).Draw(t, "face in frames")
			c := Curve{Name: fmt.Sprint("curve ", i)}
			from := rapid.IntRange(96, 200).Draw(t, "from")
			for f := from; f < from+rapid.IntRange(3, 60).Draw(t, "frames")*5; f += 3 {
				faces := float64(f) / period
				off := math.Abs(faces-math.Round(faces)) * 60
				x := float64(f) * 1001 / 24000
				c.Screen, c.Off = append(c.Screen, x), append(c.Off, off)
				if off < 5 && len(c.Dots) < 10 || f == from {
					c.Dots = append(c.Dots, Dot{Screen: x, Off: off, Good: off < 0.5, Label: fmt.Sprint(f)})
				}
			}
			d.Curves = append(d.Curves, c)
		}
		if !d.lined() {
			return
		}
		var b bytes.Buffer
		require.NoError(t, Draw(&b, "svg", d))
		require.Empty(t, struck(t, b.String(), &labels))
	})
	require.Greater(t, labels, 500)
}

func TestPowersHaveNoZeroLine(t *testing.T) {
	ticks := powers(-2.2, 1.1)
	var labels []string
	for _, tick := range ticks {
		labels = append(labels, tick.Label)
		assert.NotZero(t, tick.Value)
	}
	assert.Equal(t, []string{"0.01", "0.1", "1", "10"}, labels)
	assert.Len(t, powers(-0.1, 1.1), 4, "1, 2, 5 and 10")
}

func TestWhatCannotBeDrawn(t *testing.T) {
	assert.EqualError(t, Draw(io.Discard, "gif", example()), `format "gif" is not drawn here; use one of png, svg, pdf`)
	assert.ErrorContains(t, Draw(io.Discard, "png", Data{}), "no loop in the range")
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestAFailingWriterIsReported(t *testing.T) {
	for _, format := range style.Formats {
		assert.ErrorIs(t, Draw(full{}, format, example()), errFull, format)
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, format := range style.Formats {
		b.Run(format, func(b *testing.B) {
			for b.Loop() {
				if err := Draw(io.Discard, format, example()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
