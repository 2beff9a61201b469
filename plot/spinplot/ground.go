package spinplot

import (
	"math"
	"slices"

	gplot "gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/look"
)

func (d Data) ground(pan look.Panel) {
	s := pan.Sheet
	if d.Bound > 0 {
		s.Fill(pan.Left, pan.Bottom, pan.Right, max(pan.Bottom, pan.Y(math.Log10(d.Bound))), look.Shade)
	}
	pan.GridX(look.Ticks(pan.X0, pan.X1, 6, false), true)
	ticks := powers(pan.Y0+cellar, pan.Y1)
	if d.exact() {
		ticks = append(ticks, gplot.Tick{Value: lift(pan, 0), Label: "exact"})
	}
	pan.GridY(ticks)
	s.Line(pan.Left, pan.Bottom, pan.Right, pan.Bottom, 1, look.Rule)
	s.Text((pan.Left+pan.Right)/2, pan.Bottom-18-look.Small, "seconds on screen", look.Style{Size: look.Small, Color: look.Muted})
}

// powers are the ticks of a logarithmic height: every power of ten, with twos
// and fives where there are few. A power of 0 would be drawn darker as a zero
// line is; heights of a logarithm have none, so it is moved by nothing to see.
func powers(lo, hi float64) []gplot.Tick {
	steps := []float64{1}
	if hi-lo < 2.5 {
		steps = []float64{1, 2, 5}
	}
	var out []gplot.Tick
	for e := math.Floor(lo); e <= hi; e++ {
		for _, m := range steps {
			at := e + math.Log10(m)
			if at < lo || at > hi {
				continue
			}
			label := look.Number(m * math.Pow(10, e))
			if at == 0 {
				at = 1e-9
			}
			out = append(out, gplot.Tick{Value: at, Label: label})
		}
	}
	return out
}

// boundLine is the level below which a loop closes. Its label goes left, right or
// in the middle, below the level or at the foot, wherever it covers no dot.
func (d Data) boundLine(pan look.Panel, taken []box) []box {
	if d.Bound <= 0 {
		return taken
	}
	s, y := pan.Sheet, pan.Y(math.Log10(d.Bound))
	s.Line(pan.Left, y, pan.Right, y, 1, look.Ink, 3, 3)
	text := "closes within " + d.Within
	st := look.Style{Size: look.Small, Color: look.Ink, Align: -1}
	w := look.TextWidth(text, st)
	var places []vg.Point
	for _, y := range []vg.Length{max(y-look.Small, pan.Bottom+3), pan.Bottom + 5} {
		for _, x := range []vg.Length{pan.Left + 4, pan.Right - 4 - w, (pan.Left + pan.Right - w) / 2} {
			places = append(places, vg.Point{X: x, Y: y})
		}
	}
	at := func(p vg.Point) box { return box{p.X - 2, p.Y - 2, p.X + w + 2, p.Y + look.Small*0.9} }
	place := places[0]
	for _, p := range slices.Backward(places) {
		if !covered(at(p), taken, nowhere) {
			place = p
		}
	}
	// The curve may come through: its own ground keeps the label legible.
	b := at(place)
	s.Fill(b.x0, b.y0, b.x1, b.y1, look.Shade)
	s.Text(place.X, place.Y, text, st)
	return append(taken, b)
}

// box is where a label stands.
type box struct{ x0, y0, x1, y1 vg.Length }

// nowhere is in no box.
var nowhere = vg.Point{X: -1, Y: -1}

func (b box) meets(o box) bool { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }

// dots marks the loops nearest to a match: full where they close, hollow where
// not. Labels that would cover another are left out.
func (d Data) dots(pan look.Panel) {
	var taken []box
	each := func(do func(hue int, dot Dot, at vg.Point)) {
		for i, c := range d.Curves {
			for _, dot := range c.Dots {
				do(i, dot, pan.At(dot.Screen, lift(pan, dot.Off)))
			}
		}
	}
	each(func(_ int, _ Dot, at vg.Point) { taken = append(taken, box{at.X - 4, at.Y - 4, at.X + 4, at.Y + 4}) })
	taken = d.boundLine(pan, taken)
	each(func(hue int, dot Dot, at vg.Point) {
		if dot.Good {
			pan.Sheet.Dot(at, 4, look.Hue(hue))
			return
		}
		pan.Sheet.Ring(at, 2.6, 1.2, look.Hue(hue))
	})
	each(func(hue int, dot Dot, _ vg.Point) { taken = label(pan, dot, hue, taken) })
}

// label writes a dot's label beside, below or above it, where there is room.
func label(pan look.Panel, dot Dot, hue int, taken []box) []box {
	if dot.Label == "" {
		return taken
	}
	st := look.Style{Size: look.Small, Bold: dot.Good, Color: look.TextHue(hue), Align: -1}
	at := pan.At(dot.Screen, lift(pan, dot.Off))
	w := look.TextWidth(dot.Label, st)
	middle := min(max(at.X-w/2, pan.Left+2), pan.Right-w-2)
	for _, p := range []vg.Point{{X: middle, Y: at.Y - look.Small - 4}, {X: at.X + 8, Y: at.Y - 4}, {X: at.X - 8 - w, Y: at.Y - 4}} {
		b := box{p.X - 2, p.Y - 2, p.X + w + 2, p.Y + look.Small*0.8}
		if b.y0 < pan.Bottom || b.x0 < pan.Left || b.x1 > pan.Right || covered(b, taken, at) {
			continue
		}
		pan.Sheet.Text(p.X, p.Y, dot.Label, st)
		return append(taken, b)
	}
	return taken
}

// covered tells whether a box would cover a dot or a label other than its own.
func covered(b box, taken []box, own vg.Point) bool {
	for _, t := range taken {
		if b.meets(t) && !(own.X > t.x0 && own.X < t.x1 && own.Y > t.y0 && own.Y < t.y1) {
			return true
		}
	}
	return false
}
