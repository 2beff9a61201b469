package figure

import (
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/look"
)

// Stand is a display stand that turns by itself: what it shows is how far it is
// from one face of its product to the next.
type Stand struct {
	Name   string
	Turned float64 // degrees it turns in a loop, above 0
	Face   float64 // degrees from face to face
	Match  float64 // degrees it should turn in a loop: a whole number of faces
	Closes bool
	Off    string // how far off it is, in words: "0.03 deg past"
	Seam   string // what is said of its seam
}

// manyFaces is up to how many faces a loop are drawn one by one: beyond it the
// strokes would run into each other.
const manyFaces = 60

// standPlot is the height of a stand's panel.
const standPlot vg.Length = 88

func (d Data) standHeight() vg.Length {
	return vg.Length(len(d.Stands)) * (titleRoom + standPlot + rowGap + axisGap)
}

// subjects is how many things have a seam: the axes, then the stands.
func (d Data) subjects() int { return len(d.Axes) + len(d.Stands) }

// subject returns axis i, or a stand in the shape of one for its seam: it goes
// on from where its match is, not from where it came to.
func (d Data) subject(i int) Axis {
	if i < len(d.Axes) {
		return d.Axes[i]
	}
	s := d.Stands[i-len(d.Axes)]
	rate := s.Turned / d.seam()
	return Axis{
		Name: s.Name, Unit: "deg", Gain: s.Match, Seam: s.Seam, Limits: Free(),
		At: func(sec float64) State { return State{Pos: rate * sec, Vel: rate} },
	}
}

// stand draws how far stand k is from face to face over the loop, and the
// carriages beside it, each over its own reach: both phases at once.
func (p *page) stand(k int) {
	s := p.d.Stands[k]
	hue := len(p.d.Axes) + k
	p.title(hue, s.Name, "face to face", "deg", "by itself; "+s.Off, !s.Closes)
	pan := p.panel(standPlot)
	pan.Y0, pan.Y1 = look.Pad(0, s.Face)
	p.ground(pan, Axis{Unit: "deg"}, false)
	if s.Turned/s.Face <= manyFaces {
		p.carriages(pan, s)
		p.teeth(pan, s, hue)
	} else {
		st := look.Style{Size: look.Small, Color: look.Muted}
		p.sheet.Text((pan.Left+pan.Right)/2, (pan.Top+pan.Bottom)/2, look.Number(math.Floor(s.Turned/s.Face))+" faces a loop, too close to draw", st)
	}
	p.y -= standPlot + rowGap + axisGap
}

// teeth draws the stand's way from each face to the next.
func (p *page) teeth(pan look.Panel, s Stand, hue int) {
	for from := 0.0; from < s.Turned; from += s.Face {
		to := min(from+s.Face, s.Turned)
		at := func(deg float64) float64 { return deg / s.Turned * p.d.seam() * p.d.stretch() }
		pan.Curve([]float64{at(from), at(to)}, []float64{0, to - from}, hue)
	}
	// Where it is when the loop comes round, and where its match would be.
	rest := s.Turned - math.Floor(s.Turned/s.Face)*s.Face
	match := s.matchAt()
	p.sheet.Ring(pan.At(p.d.seam()*p.d.stretch(), match), 4.5, 1.6, look.Hue(hue))
	p.sheet.Dot(pan.At(p.d.seam()*p.d.stretch(), rest), 2.4, look.Hue(hue))
	st := look.Style{Size: look.Small, Color: look.TextHue(hue), Align: -1}
	p.sheet.Text(pan.Right+8, min(max(pan.Y(match), pan.Bottom), pan.Top)-look.Small*0.35, "match", st)
}

// matchAt is where in its panel a stand should be when the loop comes round: on
// the next face where it falls short, else back at the first.
func (s Stand) matchAt() float64 {
	if s.Match > s.Turned {
		return s.Face
	}
	return 0
}

// carriages draws each axis that comes back, over its own reach, thin.
func (p *page) carriages(pan look.Panel, s Stand) {
	label := pan.Bottom + 2
	if s.matchAt() == 0 {
		label += 1.2 * look.Small // clear of the match
	}
	for i, a := range p.d.Axes {
		t := p.lanes[i].trace
		ys := t.values(position)
		lo, hi := look.Extent(ys)
		if a.Gain != 0 || look.Level(lo, hi) {
			continue
		}
		pts := make([]vg.Point, len(ys))
		for k, y := range ys {
			pts[k] = pan.At(t.x[k], (y-lo)/(hi-lo)*s.Face)
		}
		p.sheet.Polyline(pts, 1.1, look.Hue(i), look.Dash(i)...)
		st := look.Style{Size: look.Small, Color: look.TextHue(i), Align: -1}
		p.sheet.Text(pan.Right+8, label, look.Fit(a.Name, right-12, st), st)
		label += 1.2 * look.Small
	}
}
