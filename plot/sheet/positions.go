package sheet

import (
	"fmt"
	"io"

	"gonum.org/v1/plot/vg"

	"seamrail/motion/plan/trajectory"
	"seamrail/plot/internal/style"
)

// samples is how many parts a curve is drawn in.
const samples = 300

// positions are the curves of every axis and stand.
func positions(t *trajectory.Trajectory, step int64) Positions {
	l := t.Loop()
	out := Positions{Frames: l.Screen, Real: l.Real().Float(), Step: step}
	add := func(name, unit string, at func(sec float64) float64) {
		c := Curve{Name: name, Unit: unit}
		for k := range samples + 1 {
			c.Values = append(c.Values, at(out.Real*float64(k)/samples))
		}
		out.Curves = append(out.Curves, c)
	}
	for i := range t.AxisCount() {
		add(t.Axis(i).Name, t.Axis(i).Unit(), func(sec float64) float64 { return t.Position(i, sec) })
	}
	for i := range t.StandCount() {
		from, rate := t.StandAngle(i, 0).Float(), t.Stand(i).Rate.Float()
		add(t.Stand(i).Name, "deg", func(sec float64) float64 { return from + rate*sec })
	}
	return out
}

// The plot's measures, in points of its own; it is set smaller on the page.
const (
	plotWidth vg.Length = 540
	plotPanel vg.Length = 44
	plotLow   vg.Length = 15 // a panel where all has to go on one page
	plotLeft  vg.Length = 44
	plotRight vg.Length = 10
	plotTitle vg.Length = 20
	plotFoot  vg.Length = 38
)

func (p Positions) height(panel vg.Length) vg.Length {
	return vg.Length(len(p.Curves))*(plotTitle+panel) + plotFoot
}

// draw writes the curves to w as SVG, one below the other, with a hairline at each
// mark of the table.
func (p Positions) draw(w io.Writer, panel vg.Length) error {
	s, err := style.NewSheet("svg", plotWidth, p.height(panel))
	if err != nil {
		return err
	}
	top := s.Height
	var pan style.Panel
	for i, c := range p.Curves {
		top -= plotTitle
		s.Text(plotLeft, top+6, style.Fit(c.Name+", "+c.Unit, plotWidth-plotLeft-plotRight, titleOf(i)), titleOf(i))
		pan = p.panel(s, top, panel, c)
		pan.GridX(p.ticks(), i == len(p.Curves)-1)
		pan.GridY(style.Ticks(pan.Y0, pan.Y1, ticksIn(panel), c.Unit == "deg"))
		p.curve(pan, c, i)
		top = pan.Bottom
	}
	words := fmt.Sprintf("frame of the timeline; %d frames are %s of real time", p.Frames, seconds(p.Real))
	s.Text((plotLeft+plotWidth-plotRight)/2, 6, words, style.Style{Size: style.Small, Color: style.Muted})
	_, err = s.WriteTo(w)
	return err
}

func titleOf(i int) style.Style {
	return style.Style{Size: style.Body, Bold: true, Color: style.TextHue(i), Align: -1}
}

// ticksIn is in how many parts a height is marked, such that labels keep apart.
func ticksIn(panel vg.Length) int { return max(1, int(panel/(1.3*style.Small))) }

func (p Positions) panel(s *style.Sheet, top, high vg.Length, c Curve) style.Panel {
	lo, hi := style.Extent(c.Values)
	pan := style.Panel{Sheet: s, Left: plotLeft, Right: plotWidth - plotRight, Top: top, Bottom: top - high, X1: float64(p.Frames)}
	pan.Y0, pan.Y1 = style.Pad(lo, hi)
	return pan
}

// ticks are the frames of the marks, and the seam.
func (p Positions) ticks() []style.Tick {
	var out []style.Tick
	for k := int64(0); k < p.Frames; k += p.Step {
		label := fmt.Sprint(k)
		if p.Frames-k < p.Step*2/3 { // the seam's own stands there
			label = ""
		}
		out = append(out, style.Tick{Value: float64(k), Label: label})
	}
	return append(out, style.Tick{Value: float64(p.Frames), Label: fmt.Sprint(p.Frames)})
}

func (p Positions) curve(pan style.Panel, c Curve, i int) {
	xs := make([]float64, len(c.Values))
	for k := range xs {
		xs[k] = float64(p.Frames) * float64(k) / float64(len(xs)-1)
	}
	pan.Curve(xs, c.Values, i)
}
