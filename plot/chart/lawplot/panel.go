package lawplot

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"seamrail/motion/law"
	"seamrail/plot/internal/style"
)

// samples is how many points a curve gets, about one a pixel.
const samples = 500

// near is how many times the highest curve a limit may lie and still be drawn.
const near = 1.8

func (d Data) panel(s *style.Sheet, y vg.Length, r row, last bool) vg.Length {
	st := style.Style{Size: style.Large, Bold: true, Color: style.Ink, Align: -1}
	x := left + s.Text(left, y-style.Large, r.name, st)
	s.Text(x+6, y-style.Large, d.Unit+r.per, style.Style{Size: style.Body, Color: style.Muted, Align: -1})
	y -= titleRoom
	pan := style.Panel{Sheet: s, Left: left, Right: width - right, Top: y, Bottom: y - plotHeight, X1: d.Seconds}
	xs := make([][]float64, len(d.Laws))
	ys := make([][]float64, len(d.Laws))
	var every []float64
	for i, l := range d.Laws {
		xs[i], ys[i] = d.sample(l, r)
		every = append(every, ys[i]...)
	}
	lo, hi := style.Extent(every)
	limit := d.limit(r.order)
	shown := limit > 0 && limit <= near*hi
	if shown {
		hi = max(hi, limit)
		if lo < 0 {
			lo = min(lo, -limit)
		}
	}
	pan.Y0, pan.Y1 = style.Pad(lo, hi)
	d.ground(pan, last)
	if shown {
		pan.Limit(limit, "limit "+style.Number(limit)+" "+d.Unit+r.per, slices.Concat(xs...), every)
	}
	if shown && lo < 0 {
		pan.Limit(-limit, "", nil, nil)
	}
	for i := range d.Laws {
		pan.Curve(xs[i], ys[i], i)
	}
	return y - plotHeight - rowGap
}

func (d Data) ground(pan style.Panel, last bool) {
	pan.GridY(style.Ticks(pan.Y0, pan.Y1, 6, d.Unit == "deg"))
	pan.GridX(style.Ticks(0, d.Seconds, 5, false), last)
	if last {
		pan.Sheet.Text((pan.Left+pan.Right)/2, pan.Bottom-18-style.Small, "real seconds",
			style.Style{Size: style.Small, Color: style.Muted})
	}
}

// sample walks a law piece by piece, so that a jump is drawn upright. The
// point before a break is taken one representable u below it.
func (d Data) sample(l law.Law, r row) (xs, ys []float64) {
	k := d.scale(r.order)
	add := func(x, u float64) {
		xs, ys = append(xs, x*d.Seconds), append(ys, k*r.pick(l.At(u)))
	}
	ends := []float64{1}
	if b, ok := l.(law.Breaker); ok {
		ends = append(b.Breaks(), 1)
	}
	if r.order > 0 {
		xs, ys = append(xs, 0), append(ys, 0) // from rest
	}
	from := 0.0
	for _, to := range ends {
		n := max(2, int(math.Round(samples*(to-from))))
		for i := range n {
			u := from + (to-from)*float64(i)/float64(n)
			add(u, u)
		}
		if to < 1 {
			add(to, math.Nextafter(to, 0))
		} else {
			add(1, 1)
		}
		from = to
	}
	if r.order > 0 {
		xs, ys = append(xs, d.Seconds), append(ys, 0) // to rest
	}
	return xs, ys
}
