package motionplot

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"seamrail/motion/base/list"
	"seamrail/plot/internal/style"
)

// Strip is one number of the picture over the loop.
type Strip struct {
	Name string
	What string // of what, after the name
	Unit string
	Note string // at the right: its worst, and what is asked
	Over bool   // more than is asked
	Zero bool   // nothing at all is shown too
	// Times are real seconds, rising; Values as many, NaN where not known.
	Times, Values []float64
	Low, High     []float64 // what will do at each time; nil where nothing is asked
	Levels        []Level   // the weightier first
}

// Level is a bound, drawn where the curve comes near it.
type Level struct {
	At   float64
	Name string
}

// stripPlot is the height of a strip's panel.
const stripPlot = ratePlot

func (d Data) stripHeight() vg.Length {
	return vg.Length(len(d.Strips)) * (titleRoom + stripPlot + rowGap + axisGap)
}

// strip draws strip k.
func (p *page) strip(k int) {
	s := p.d.Strips[k]
	hue := len(p.d.Axes) + len(p.d.Stands) + k
	p.title(hue, s.Name, s.What, s.Unit, s.Note, s.Over)
	xs := list.Map(s.Times, func(t float64) float64 { return t * p.d.stretch() })
	pan := p.panel(stripPlot)
	levels := s.frame(&pan)
	s.band(pan, xs)
	p.ground(pan, Axis{Unit: s.Unit})
	for _, l := range levels {
		pan.Limit(l.At, l.Name, xs, s.Values)
	}
	for _, run := range s.runs() {
		drawRun(pan, xs[run[0]:run[1]], s.Values[run[0]:run[1]], hue)
	}
	p.y -= stripPlot + rowGap + axisGap
}

// frame sets the heights a strip's panel covers, and returns the levels that
// come into it.
func (s Strip) frame(pan *style.Panel) []Level {
	lo, hi := style.Extent(s.Values)
	reach := max(hi-lo, 1e-3*max(math.Abs(lo), math.Abs(hi)), 1e-9)
	y0, y1 := lo, hi
	if s.Zero {
		y0 = min(y0, 0)
	}
	var shown []Level
	take := func(v float64) bool {
		if v < lo-reach*near || v > hi+reach*near {
			return false
		}
		y0, y1 = min(y0, v), max(y1, v)
		return true
	}
	for _, l := range s.Levels {
		if take(l.At) {
			shown = append(shown, l)
		}
	}
	for i := range s.Low {
		take(s.Low[i])
		take(s.High[i])
	}
	pan.Y0, pan.Y1 = style.Pad(y0, y1)
	return apart(*pan, shown)
}

// apart leaves out levels too near another for both their names.
func apart(pan style.Panel, levels []Level) []Level {
	var out []Level
	for _, l := range levels {
		close := func(o Level) bool { return math.Abs(float64(pan.Y(l.At)-pan.Y(o.At))) < 2.2*style.Small }
		if !slices.ContainsFunc(out, close) {
			out = append(out, l)
		}
	}
	return out
}

// band shades what will do, as far as the panel shows it.
func (s Strip) band(pan style.Panel, xs []float64) {
	var above, below []vg.Point
	every := max(1, len(s.Low)/samples)
	for i := range s.Low {
		if i%every != 0 && i != len(s.Low)-1 || math.IsNaN(s.Low[i]) || math.IsNaN(s.High[i]) {
			continue
		}
		in := func(v float64) vg.Point { return pan.At(xs[i], min(max(v, pan.Y0), pan.Y1)) }
		above, below = append(above, in(s.High[i])), append(below, in(s.Low[i]))
	}
	for i := len(below) - 1; i >= 0; i-- {
		above = append(above, below[i])
	}
	if len(above) > 3 {
		pan.Sheet.FillPolygon(style.Shade, above)
	}
}

// runs are the stretches in which the values are known, as index and end.
func (s Strip) runs() [][2]int {
	var out [][2]int
	from := -1
	for i, v := range s.Values {
		switch known := !math.IsNaN(v) && !math.IsInf(v, 0); {
		case known && from < 0:
			from = i
		case !known && from >= 0:
			out = append(out, [2]int{from, i})
			from = -1
		}
	}
	if from >= 0 {
		out = append(out, [2]int{from, len(s.Values)})
	}
	return out
}

// drawRun draws a curve, or a dot where one frame stands alone.
func drawRun(pan style.Panel, xs, ys []float64, hue int) {
	if len(xs) == 1 {
		pan.Sheet.Dot(pan.At(xs[0], ys[0]), 2, style.Hue(hue))
		return
	}
	xs, ys = thinned(xs, ys)
	pan.Curve(xs, ys, hue)
}

// thinned keeps the least and the greatest of each of samples stretches, in
// order: no peak is lost, and a long loop is drawn as fast as a short one.
func thinned(xs, ys []float64) (x, y []float64) {
	n := len(xs)
	if n <= 2*samples {
		return xs, ys
	}
	for k := range samples {
		from, to := k*n/samples, (k+1)*n/samples
		lo, hi := from, from
		for i := from; i < to; i++ {
			if ys[i] < ys[lo] {
				lo = i
			}
			if ys[i] > ys[hi] {
				hi = i
			}
		}
		for _, i := range []int{min(lo, hi), max(lo, hi)} {
			x, y = append(x, xs[i]), append(y, ys[i])
		}
	}
	return x, y
}
