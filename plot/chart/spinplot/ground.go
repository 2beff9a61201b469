package spinplot

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

func (d Data) ground(pan style.Panel) {
	s := pan.Sheet
	if d.Bound > 0 {
		s.Fill(pan.Left, pan.Bottom, pan.Right, max(pan.Bottom, pan.Y(math.Log10(d.Bound))), style.Shade)
	}
	pan.GridX(style.Ticks(pan.X0, pan.X1, 6, false), true)
	ticks := powers(pan.Y0+cellar, pan.Y1)
	if d.exact() {
		ticks = append(ticks, style.Tick{Value: lift(pan, 0), Label: "exact"})
	}
	pan.GridY(ticks)
	s.Line(pan.Left, pan.Bottom, pan.Right, pan.Bottom, 1, style.Rule)
	s.Text((pan.Left+pan.Right)/2, pan.Bottom-18-style.Small, "seconds on screen", style.Style{Size: style.Small, Color: style.Muted})
}

// powers are the ticks of a logarithmic height: every power of ten, with twos
// and fives where there are few. A power of 0 would be drawn darker as a zero
// line is; heights of a logarithm have none, so it is moved by nothing to see.
func powers(lo, hi float64) []style.Tick {
	steps := []float64{1}
	if hi-lo < 2.5 {
		steps = []float64{1, 2, 5}
	}
	var out []style.Tick
	for e := math.Floor(lo); e <= hi; e++ {
		for _, m := range steps {
			at := e + math.Log10(m)
			if at < lo || at > hi {
				continue
			}
			label := style.Number(m * math.Pow(10, e))
			if at == 0 {
				at = 1e-9
			}
			out = append(out, style.Tick{Value: at, Label: label})
		}
	}
	return out
}

// boundLine is the level below which a loop closes. Its label goes left, right or
// in the middle, below the level or at the foot or above the level, wherever it
// covers no dot and no curve runs through it.
func (d Data) boundLine(pan style.Panel, f *crowd) {
	if d.Bound <= 0 {
		return
	}
	s, y := pan.Sheet, pan.Y(math.Log10(d.Bound))
	s.Line(pan.Left, y, pan.Right, y, 1, style.Ink, 3, 3)
	text := "closes within " + d.Within
	st := style.Style{Size: style.Small, Color: style.Ink, Align: -1}
	w := style.TextWidth(text, st)
	var places []vg.Point
	for _, y := range []vg.Length{y - style.Small, pan.Bottom + 5, y + 4} {
		for part := range boundPlaces {
			places = append(places, vg.Point{X: pan.Left + 4 + (pan.Right-pan.Left-8-w)*vg.Length(part)/(boundPlaces-1), Y: y})
		}
	}
	at := func(p vg.Point) box { return box{p.X - 2, p.Y - 2, p.X + w + 2, p.Y + style.Small*0.9} }
	for _, p := range places {
		if b := at(p); b.y0 >= pan.Bottom && !f.covers(b, nowhere) {
			s.Text(p.X, p.Y, text, st)
			f.boxes = append(f.boxes, b)
			return
		}
	}
	// There is no such place: above the panel nothing runs.
	s.Text(pan.Right-w, pan.Top+3, text, st)
}

// boundPlaces is how many places along the line are tried, from its left end.
const boundPlaces = 9

// box is where a label stands.
type box struct{ x0, y0, x1, y1 vg.Length }

// nowhere is in no box.
var nowhere = vg.Point{X: -1, Y: -1}

func (b box) meets(o box) bool { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }

// struck tells whether a line runs through the box: somewhere between two of its
// points, it is within both ranges at once.
func (b box) struck(line []vg.Point) bool {
	for k := 1; k < len(line); k++ {
		p, q := line[k-1], line[k]
		x0, x1 := within(p.X, q.X, b.x0, b.x1)
		y0, y1 := within(p.Y, q.Y, b.y0, b.y1)
		if max(x0, y0) < min(x1, y1) {
			return true
		}
	}
	return false
}

// within is from what share to what share of the way from p to q a value lies
// between lo and hi.
func within(p, q, lo, hi vg.Length) (from, to float64) {
	if p == q {
		if p > lo && p < hi {
			return 0, 1
		}
		return 1, 0
	}
	a, b := float64((lo-p)/(q-p)), float64((hi-p)/(q-p))
	return max(0, min(a, b)), min(1, max(a, b))
}

// crowd is what a label must keep off.
type crowd struct {
	boxes []box // of dots and labels
	lines [][]vg.Point
}

// covers tells whether a box would cover a dot or a label other than its own, or a
// curve would run through it.
func (f *crowd) covers(b box, own vg.Point) bool {
	for _, t := range f.boxes {
		if b.meets(t) && !(own.X > t.x0 && own.X < t.x1 && own.Y > t.y0 && own.Y < t.y1) {
			return true
		}
	}
	return slices.ContainsFunc(f.lines, b.struck)
}

// dots marks the loops nearest to a match: full where they close, hollow where
// not. Labels that would cover another, or that a curve would strike through, are
// left out.
func (d Data) dots(pan style.Panel) {
	f := &crowd{lines: d.lines(pan)}
	each := func(do func(hue int, dot Dot, at vg.Point)) {
		for i, c := range d.Curves {
			for _, dot := range c.Dots {
				do(i, dot, pan.At(dot.Screen, lift(pan, dot.Off)))
			}
		}
	}
	each(func(_ int, _ Dot, at vg.Point) {
		f.boxes = append(f.boxes, box{at.X - 4, at.Y - 4, at.X + 4, at.Y + 4})
	})
	d.boundLine(pan, f)
	each(func(hue int, dot Dot, at vg.Point) {
		if dot.Good {
			pan.Sheet.Dot(at, 4, style.Hue(hue))
			return
		}
		pan.Sheet.Ring(at, 2.6, 1.2, style.Hue(hue))
	})
	each(func(hue int, dot Dot, _ vg.Point) { label(pan, dot, hue, f) })
}

// label writes a dot's label below, beside or above it, where there is room.
func label(pan style.Panel, dot Dot, hue int, f *crowd) {
	if dot.Label == "" {
		return
	}
	st := style.Style{Size: style.Small, Bold: dot.Good, Color: style.TextHue(hue), Align: -1}
	at := pan.At(dot.Screen, lift(pan, dot.Off))
	w := style.TextWidth(dot.Label, st)
	middle := min(max(at.X-w/2, pan.Left+2), pan.Right-w-2)
	below, above := at.Y-style.Small-4, at.Y+8
	for _, p := range []vg.Point{
		{X: middle, Y: below}, {X: at.X + 8, Y: at.Y - 4}, {X: at.X - 8 - w, Y: at.Y - 4}, {X: middle, Y: above},
		{X: at.X + 5, Y: below}, {X: at.X - 5 - w, Y: below}, {X: at.X + 5, Y: above}, {X: at.X - 5 - w, Y: above},
		{X: middle, Y: below - style.Small},
	} {
		b := box{p.X - 2, p.Y - 2, p.X + w + 2, p.Y + style.Small*0.8}
		if b.y0 < pan.Bottom || b.y1 > pan.Top || b.x0 < pan.Left || b.x1 > pan.Right || f.covers(b, at) {
			continue
		}
		pan.Sheet.Text(p.X, p.Y, dot.Label, st)
		f.boxes = append(f.boxes, b)
		return
	}
}
