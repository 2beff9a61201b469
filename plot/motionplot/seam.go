package motionplot

import (
	"fmt"
	"strconv"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// The seam panels: two to a row, each a few frames either side.
const (
	around     = 6 // frames shown either side of the seam
	seamHead   = vg.Length(48)
	seamRow    = vg.Length(130)
	seamPlot   = vg.Length(84)
	seamGutter = vg.Length(58)
)

func (p *page) seamHeight() vg.Length {
	h := seamHead
	for i := range p.d.subjects() {
		h += seamRow + p.captionHeight(i)
	}
	return h
}

// seams draws the end of the loop running into its start, axis by axis:
// position at the left, speed at the right.
func (p *page) seams() {
	n := min(around, max(1, p.d.shown()/2))
	p.seamTitle(n)
	for i := range p.d.subjects() {
		p.caption(i)
		half := (width - left - edge - seamGutter) / 2
		p.seamPanel(i, n, left, half, quantity{name: "position", pick: position})
		p.seamPanel(i, n, left+half+seamGutter, half, rates[0])
		p.y -= seamRow
	}
}

func (p *page) seamTitle(n int64) {
	s := p.sheet
	y := p.y - style.Large - 2
	s.Text(edge, y, "The seam, magnified", style.Style{Size: style.Large, Bold: true, Color: style.Ink, Align: -1})
	st := style.Style{Size: style.Small, Color: style.Muted, Align: -1}
	y -= 19
	x := edge
	s.Dot(vg.Point{X: x + 4, Y: y + 4}, 3.2, style.Muted)
	x += 12
	x += s.Text(x, y, fmt.Sprintf("last %d frames, then the first again", n), st) + 16
	s.Ring(vg.Point{X: x + 4, Y: y + 4}, 3.6, 1.4, style.Muted)
	s.Text(x+12, y, fmt.Sprintf("frame %d: not delivered", p.d.shown()), st)
	p.y -= seamHead
}

// seamPanel draws one magnified curve: before the seam from the loop's end,
// after it from the loop's start, moved on by what the loop gains or the cut
// takes back.
func (p *page) seamPanel(i int, n int64, x, w vg.Length, q quantity) {
	a := p.d.subject(i)
	step := p.d.Period / float64(p.d.Captured)
	gain := 0.0
	if q.per == "" {
		gain = a.Gain
		if p.d.Shown > 0 {
			gain = a.Cut
		}
	}
	xs, ys := p.before(a, n, step, q.pick)
	xs2, ys2 := p.after(a, n, step, gain, q.pick)
	lo, hi := style.Extent(append(append([]float64{}, ys...), ys2...))
	pan := style.Panel{Sheet: p.sheet, Left: x, Right: x + w, Top: p.y - 20, Bottom: p.y - 20 - seamPlot,
		X0: -float64(n) - 0.4, X1: float64(n) + 0.4}
	pan.Y0, pan.Y1 = style.Pad(lo, hi)
	p.sheet.Text(x, p.y-14, q.name+", "+a.Unit+q.per, style.Style{Size: style.Small, Color: style.Ink, Align: -1})
	pan.GridY(style.Ticks(pan.Y0, pan.Y1, 4, a.Unit == "deg"))
	p.seamMarks(pan, n)
	pan.Curve(xs, ys, i)
	pan.Curve(xs2, ys2, i)
	p.dots(pan, i, xs, ys)
	p.dots(pan, i, xs2, ys2)
	p.sheet.Ring(pan.At(0, ys[len(ys)-1]), 5, 1.6, style.Hue(i))
	p.sheet.Dot(pan.At(0, ys2[0]), 2.2, style.Hue(i))
}

// fine is how many points of the curve lie between two frames.
const fine = 8

func (p *page) before(a Axis, n int64, step float64, pick func(State) float64) (xs, ys []float64) {
	for j := -n * fine; j <= 0; j++ {
		x := float64(j) / fine
		xs = append(xs, x)
		if j == 0 {
			ys = append(ys, pick(a.before()(p.d.seam())))
			continue
		}
		ys = append(ys, pick(a.At(p.d.seam()+x*step)))
	}
	return xs, ys
}

func (p *page) after(a Axis, n int64, step, gain float64, pick func(State) float64) (xs, ys []float64) {
	for j := int64(0); j <= n*fine; j++ {
		x := float64(j) / fine
		xs = append(xs, x)
		ys = append(ys, pick(a.At(x*step))+gain)
	}
	return xs, ys
}

func (p *page) dots(pan style.Panel, i int, xs, ys []float64) {
	for k := 0; k < len(xs); k += fine {
		if xs[k] != 0 {
			p.sheet.Dot(pan.At(xs[k], ys[k]), 2.6, style.Hue(i))
		}
	}
}

// seamMarks draws the seam and numbers the frames either side of it.
func (p *page) seamMarks(pan style.Panel, n int64) {
	s := p.sheet
	s.Line(pan.X(0), pan.Bottom, pan.X(0), pan.Top, 1, style.Rule)
	s.Line(pan.Left, pan.Bottom, pan.Right, pan.Bottom, 0.8, style.Rule)
	st := style.Style{Size: style.Small, Color: style.Muted}
	y := pan.Bottom - style.Small - 3
	for _, k := range []int64{-n, -n / 2, 0, n / 2, n} {
		f := k
		if k < 0 {
			f += p.d.shown()
		}
		s.Line(pan.X(float64(k)), pan.Bottom, pan.X(float64(k)), pan.Bottom-3, 1, style.Muted)
		s.Text(pan.X(float64(k)), y, strconv.FormatInt(f, 10), st)
	}
}
