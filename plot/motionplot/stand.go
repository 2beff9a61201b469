package motionplot

import (
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
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

// stand draws how far stand k is from face to face over the loop. The carriages have
// panels of their own above it, along the same time, in their own units.
func (p *page) stand(k int) {
	s := p.d.Stands[k]
	hue := len(p.d.Axes) + k
	p.title(hue, s.Name, "face to face", "deg", "by itself; "+s.Off, !s.Closes)
	pan := p.panel(standPlot)
	pan.Y0, pan.Y1 = style.Pad(0, s.Face)
	p.ground(pan, Axis{Unit: "deg"})
	if s.Turned/s.Face <= manyFaces {
		p.teeth(pan, s, hue)
	} else {
		st := style.Style{Size: style.Small, Color: style.Muted}
		p.sheet.Text((pan.Left+pan.Right)/2, (pan.Top+pan.Bottom)/2, style.Number(math.Floor(s.Turned/s.Face))+" faces a loop, too close to draw", st)
	}
	p.y -= standPlot + rowGap + axisGap
}

// sliver is what share of a face is too little to be drawn, and comes of rounding.
const sliver = 1e-9

// teeth draws the stand's way from each face to the next.
func (p *page) teeth(pan style.Panel, s Stand, hue int) {
	for n := 0.0; s.Turned-n*s.Face > sliver*s.Face; n++ {
		from := n * s.Face
		to := min(from+s.Face, s.Turned)
		at := func(deg float64) float64 { return deg / s.Turned * p.d.seam() * p.d.stretch() }
		pan.Curve([]float64{at(from), at(to)}, []float64{0, to - from}, hue)
	}
	// Where it is when the loop comes round, and where its match would be.
	rest, match := s.comesRound()
	p.sheet.Ring(pan.At(p.d.seam()*p.d.stretch(), match), 4.5, 1.6, style.Hue(hue))
	p.sheet.Dot(pan.At(p.d.seam()*p.d.stretch(), rest), 2.4, style.Hue(hue))
	st := style.Style{Size: style.Small, Color: style.TextHue(hue), Align: -1}
	p.sheet.Text(pan.Right+8, min(max(pan.Y(match), pan.Bottom), pan.Top)-style.Small*0.35, "match", st)
}

// comesRound is where in its panel a stand is when the loop comes round, at the end
// of its last tooth, and where it should be: on the next face where it falls short or
// comes out even, back at the one before where it has gone past it.
func (s Stand) comesRound() (rest, match float64) {
	off := s.Turned - s.Match
	if off > sliver*s.Face {
		return off, 0
	}
	return s.Face + min(off, 0), s.Face
}
