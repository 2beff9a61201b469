package topview

import (
	"bytes"
	"image/png"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"seamrail/plot/internal/style"
)

var outlines = regexp.MustCompile(`<path d="M([^"]*?)Z?" style="([^"]*)"`)

// paths are the outlines that an SVG draws in a style, in mm on paper from its
// lower left.
func paths(t tester, svg []byte, style string) [][]r2.Vec {
	t.Helper()
	var out [][]r2.Vec
	for _, m := range outlines.FindAllStringSubmatch(string(svg), -1) {
		if m[2] != style {
			continue
		}
		var path []r2.Vec
		for _, pair := range strings.Split(m[1], "L") {
			x, y, ok := strings.Cut(pair, ",")
			require.True(t, ok, pair)
			u, err := strconv.ParseFloat(x, 64)
			require.NoError(t, err)
			v, err := strconv.ParseFloat(y, 64)
			require.NoError(t, err)
			path = append(path, r2.Scale(25.4/72, r2.Vec{X: u, Y: v}))
		}
		out = append(out, path)
	}
	return out
}

// grain is how far a place in an SVG may be off, in mm on paper: it is written
// to a hundredth of a point.
const grain = 0.01

const (
	productStyle = "fill:none;stroke:#20242A;stroke-width:1.4"
	lensStyle    = "fill:none;stroke:#0072B2;stroke-width:1.3"
	crossStyle   = "fill:none;stroke:#20242A;stroke-width:0.9"
	raysStyle    = "fill:none;stroke:#0072B2;stroke-width:0.7"
)

func middle(path []r2.Vec) r2.Vec {
	sum := r2.Vec{}
	for _, p := range path {
		sum = r2.Add(sum, p)
	}
	return r2.Scale(1/float64(len(path)), sum)
}

// axisOn is where a sheet has the table's axis: where its cross meets.
func axisOn(t tester, svg []byte) r2.Vec {
	t.Helper()
	arms := paths(t, svg, crossStyle)
	require.Len(t, arms, 2)
	return middle(arms[0])
}

// Measured with a ruler on the paper, everything is where it stands at 1:5. The
// lantern's panes are as wide as its radius, 45 mm; the lens of 100 mm at 1:3
// is 400 mm from the pane, which is 45 cos 30 from the axis, and it sees 60 mm.
func TestMeasuredOnPaper(t *testing.T) {
	svg := drawn(t, "svg", seen(t, travelled(t, 120), lantern(-90)), Options{Scale: 0.2})
	axis := axisOn(t, svg)
	pane := 45 * math.Cos(math.Pi/6)
	product := paths(t, svg, productStyle)
	require.Len(t, product, 1)
	for k, p := range product[0][:6] {
		assert.InDelta(t, 9, r2.Norm(r2.Sub(product[0][k+1], p)), grain, "a pane")
		assert.InDelta(t, 9, r2.Norm(r2.Sub(p, axis)), grain, "a corner from the axis")
	}
	lowest := slices.MinFunc(product[0], func(a, b r2.Vec) int { return int(math.Copysign(1, a.Y-b.Y)) })
	assert.InDelta(t, -pane/5, lowest.Y-axis.Y, grain, "a pane looks at the lens")

	lens := paths(t, svg, lensStyle)
	require.Len(t, lens, 2)
	top := -400 - pane + 30 // the front is 30 mm ahead
	for _, tube := range lens {
		assert.InDelta(t, top/5, slices.MaxFunc(tube, func(a, b r2.Vec) int { return int(math.Copysign(1, a.Y-b.Y)) }).Y-axis.Y, grain)
		assert.InDelta(t, 0, (tube[0].X+tube[2].X)/2-axis.X, grain)
	}
	rays := paths(t, svg, raysStyle)
	require.GreaterOrEqual(t, len(rays), 2)
	for _, ray := range rays[:2] {
		assert.InDelta(t, (-400-pane)/5, ray[0].Y-axis.Y, grain)
		way := r2.Sub(ray[1], ray[0])
		assert.InDelta(t, 30.0/400, math.Abs(way.X/way.Y), 1e-3)
	}
}

func mirrored(s scene.Scene) scene.Scene {
	s.Stand.Aside.Value *= -1
	s.Stand.Pan.Value *= -1
	s.Product.Facing *= -1
	s.Product.Offset.X *= -1
	s.Stand.Slides = slices.Clone(s.Stand.Slides)
	for i := range s.Stand.Slides {
		s.Stand.Slides[i].Heading *= -1
	}
	s.Lamps = slices.Clone(s.Lamps)
	for i := range s.Lamps {
		s.Lamps[i].Bearing *= -1
	}
	return s
}

// Mirror the scene and the drawing is mirrored.
func TestMirroredScene(t *testing.T) {
	tr := travelled(t, 120)
	rapid.Check(t, func(rt *rapid.T) {
		s := lantern(rapid.Float64Range(-170, 170).Draw(rt, "heading"))
		s.Stand.Aside = scene.Is(rapid.Float64Range(-100, 100).Draw(rt, "aside"))
		s.Stand.Pan = scene.Is(rapid.Float64Range(-20, 20).Draw(rt, "pan"))
		s.Product.Facing = rapid.Float64Range(-30, 30).Draw(rt, "facing")
		s.Lamps[0].Bearing = rapid.Float64Range(-170, 170).Draw(rt, "bearing")
		one := seen(rt, tr, s)
		other := seen(rt, tr, mirrored(s))
		a := drawn(rt, "svg", one, Options{})
		b := drawn(rt, "svg", other, Options{})
		for _, style := range []string{productStyle, lensStyle} {
			p, q := measured(rt, a, style, 1), measured(rt, b, style, -1)
			require.Equal(rt, len(p), len(q))
			for i := range p {
				assert.InDelta(rt, 0, nearestTo(p[i], q), 3*grain)
			}
		}
	})
}

// measured are the points drawn in a style from the table's axis, right times
// flip.
func measured(t tester, svg []byte, style string, flip float64) []r2.Vec {
	axis := axisOn(t, svg)
	var out []r2.Vec
	for _, path := range paths(t, svg, style) {
		for _, p := range path {
			out = append(out, r2.Vec{X: flip * (p.X - axis.X), Y: p.Y - axis.Y})
		}
	}
	return out
}

func nearestTo(p r2.Vec, all []r2.Vec) float64 {
	least := math.Inf(1)
	for _, q := range all {
		least = min(least, r2.Norm(r2.Sub(p, q)))
	}
	return least
}

// On the pixels, the swept circle's ink lies as far from the axis as its radius
// at scale, and nothing of it elsewhere.
func TestSweptCircleOnPixels(t *testing.T) {
	d := seen(t, travelled(t, 120), lantern(0))
	l, err := newLayout(d, Papers[0], 0)
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(drawn(t, "png", d, Options{})))
	require.NoError(t, err)
	const dot = style.DPI / 72.0
	radius := float64(l.scale.Length(45)) * dot
	ink := style.TextHue(productHue)
	found := 0
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			r, g, b, _ := img.At(x, y).RGBA()
			if r>>8 != uint32(ink.R) || g>>8 != uint32(ink.G) || b>>8 != uint32(ink.B) {
				continue
			}
			from := math.Hypot(float64(x)+0.5-float64(l.axis.X)*dot, float64(img.Bounds().Dy())-float64(y)-0.5-float64(l.axis.Y)*dot)
			if math.Abs(from-radius) < 2 {
				found++
			}
		}
	}
	assert.Greater(t, found, 100)
}

// No label covers another, and all keep within the drawing.
func TestLabelsKeepClear(t *testing.T) {
	tr := travelled(t, 120)
	rapid.Check(t, func(rt *rapid.T) {
		s := walled(rapid.Float64Range(-180, 180).Draw(rt, "heading"))
		for i := range s.Lamps {
			s.Lamps[i].Bearing = rapid.Float64Range(-180, 180).Draw(rt, "bearing")
			s.Lamps[i].Distance.Value = rapid.Float64Range(60, 1500).Draw(rt, "distance")
			s.Lamps[i].Beam.Value = rapid.Float64Range(1, 179).Draw(rt, "beam")
		}
		p, err := composed("svg", seen(rt, tr, s), Options{Paper: rapid.SampledFrom(Papers).Draw(rt, "paper")})
		require.NoError(rt, err)
		symbols := len(s.Lamps)
		for i, b := range p.taken {
			if i < symbols {
				continue
			}
			b = b.grown(-1)
			assert.True(rt, p.area.holds(b))
			for _, other := range p.taken[:i] {
				assert.False(rt, b.meets(other))
			}
		}
	})
}

// A lamp far off leaves the scale as it is without it: it is marked at the edge
// on the way to it, with its distance.
func TestLampsFarOffAreMarkedAtTheEdge(t *testing.T) {
	s := lantern(-90)
	near := seen(t, travelled(t, 120), s)
	s.Lamps = append(slices.Clone(s.Lamps), scene.Lamp{Name: "window", Beam: scene.Is(60), Distance: scene.Is(3000), Bearing: -100})
	far := seen(t, travelled(t, 120), s)
	assert.Equal(t, extent(near.Above), extent(far.Above))
	p, err := composed("svg", far, Options{Paper: Papers[0]})
	require.NoError(t, err)
	at := far.marksOf()[4].at
	assert.InDelta(t, 3000, r2.Norm(at), 1e-9)
	edge := p.shown(at)
	assert.True(t, p.area.has(edge))
	way := r2.Unit(at)
	off := r2.Vec{X: float64(edge.X - p.axis.X), Y: float64(edge.Y - p.axis.Y)}
	assert.InDelta(t, 0, r2.Cross(way, off), 1e-6, "on the way to it")
	assert.Positive(t, r2.Dot(way, off))
	assert.Contains(t, texts(t, drawn(t, "svg", far, Options{})), "window, 3000 mm from the axis")
}
