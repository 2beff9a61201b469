package motionplot

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// near is how many times the curve's own reach a limit may lie away and still
// be drawn; beyond it the curve would be squeezed flat, and the limit is told
// in words only.
const near = 2.2

func (p *page) axis(i int) {
	a := p.d.Axes[i]
	l := p.lanes[i]
	p.positionRow(i, a, l.trace)
	for k, q := range p.rows {
		p.rateRow(i, a, l.trace, q, l.heights[k])
	}
	p.y -= axisGap
}

// title writes "rail  position, mm" and, at the right, what is to be
// noted: bold where a limit is passed, so that it shows without colour.
func (p *page) title(i int, name, what, unit, note string, over bool) {
	s := p.sheet
	y := p.y - style.Large
	bold := style.Style{Size: style.Large, Bold: true, Color: style.TextHue(i), Align: -1}
	x := left + s.Text(left, y, style.Fit(name, 130, bold), bold)
	plain := style.Style{Size: style.Body, Color: style.Ink, Align: -1}
	x += 6 + s.Text(x+6, y, what+", "+unit, plain)
	st := style.Style{Size: style.Small, Color: style.Muted, Align: 1}
	if over {
		st.Bold, st.Color = true, style.Ink
	}
	s.Text(width-right, y, style.Fit(note, width-right-x-8, st), st)
	p.y -= titleRoom
}

func (p *page) positionRow(i int, a Axis, t sampled) {
	ys := t.values(position)
	lo, hi := style.Extent(ys)
	p.title(i, a.Name, "position", a.Unit, travels(lo, hi, a.Limits, a.Unit), beyond(lo, hi, a.Limits))
	pan := p.panel(p.lanes[i].pos)
	reach := max(hi-lo, 1e-6*max(math.Abs(lo), math.Abs(hi)), 1e-9)
	showMin := lo-a.Limits.Min < reach*(near-1)
	showMax := a.Limits.Max-hi < reach*(near-1)
	y0, y1 := lo, hi
	if showMin {
		y0 = min(y0, a.Limits.Min)
	}
	if showMax {
		y1 = max(y1, a.Limits.Max)
	}
	pan.Y0, pan.Y1 = style.Pad(y0, y1)
	p.ground(pan, a)
	p.nameDwells(pan, a, t.x, ys)
	if showMin {
		pan.Limit(a.Limits.Min, "end of travel", t.x, ys)
	}
	if showMax {
		pan.Limit(a.Limits.Max, "end of travel", t.x, ys)
	}
	p.curve(pan, i, a, t.x, ys)
	p.y -= p.lanes[i].pos + rowGap
}

func (p *page) rateRow(i int, a Axis, t sampled, q quantity, height vg.Length) {
	ys := t.values(q.pick)
	limit := q.limit(a.Limits)
	peak := p.d.peakOf(t, ys)
	if a.Peaks != nil {
		peak = q.peak(*a.Peaks)
	}
	p.title(i, a.Name, q.name, a.Unit+q.per, told(peak.Value, limit, a.Unit, q.per), exceeds(peak.Value, limit))
	pan := p.panel(height)
	up, down := p.span(&pan, ys, limit)
	p.ground(pan, a)
	label := "limit " + amount(limit, a.Unit, q.per)
	if up {
		pan.Limit(limit, label, t.x, ys)
		label = "" // told once
	}
	if down {
		pan.Limit(-limit, label, t.x, ys)
	}
	p.curve(pan, i, a, t.x, ys)
	if lo, hi := style.Extent(ys); !math.IsInf(peak.Value, 0) && !style.Level(lo, hi) {
		p.sheet.Dot(pan.At(peak.Time*p.d.stretch(), peak.Value), 3, style.Hue(i))
	}
	p.y -= height + rowGap
}

// span sets the heights that a rate's panel covers, zero included, and tells
// whether the limit is drawn above and below zero.
func (p *page) span(pan *style.Panel, ys []float64, limit float64) (up, down bool) {
	lo, hi := style.Extent(ys)
	if style.Level(lo, hi) {
		pan.Y0, pan.Y1 = style.Pad(lo, hi)
		return false, false
	}
	shown := limit > 0 && limit <= near*max(math.Abs(lo), math.Abs(hi))
	up, down = shown && hi > 0, shown && lo < 0
	y0, y1 := min(lo, 0), max(hi, 0)
	if up {
		y1 = max(y1, limit)
	}
	if down {
		y0 = min(y0, -limit)
	}
	pan.Y0, pan.Y1 = style.Pad(y0, y1)
	return up, down
}

// ground draws what lies under a curve: dwells, the grid, and the seam at
// both ends.
func (p *page) ground(pan style.Panel, a Axis) {
	k := p.d.stretch()
	for _, w := range a.Dwells {
		pan.Band(w[0]*k, w[1]*k)
	}
	p.wayBack(pan)
	n := max(1, int((pan.Top-pan.Bottom)/(1.2*style.Small)))
	pan.GridX(style.Ticks(0, p.d.OnScreen, 6, false), false)
	ticks := style.Ticks(pan.Y0, pan.Y1, n, a.Unit == "deg")
	if pan.Top-pan.Bottom <= flatPlot { // one level, told exactly
		v := (pan.Y0 + pan.Y1) / 2
		ticks = []style.Tick{{Value: v, Label: style.Number(v)}}
	}
	pan.GridY(ticks)
	for _, x := range []vg.Length{pan.Left, pan.Right} {
		p.sheet.Line(x, pan.Bottom, x, pan.Top, 1, style.Rule)
	}
}

// nameDwells writes into each shaded stretch how long it is, clear of the curve.
func (p *page) nameDwells(pan style.Panel, a Axis, xs, ys []float64) {
	k := p.d.stretch()
	for _, w := range a.Dwells {
		frames := math.Round((w[1] - w[0]) / p.d.Period * float64(p.d.Captured))
		text := fmt.Sprintf("dwell, %.0f frames", frames)
		st := style.Style{Size: style.Small, Color: style.Muted}
		half := style.TextWidth(text, st) / 2
		x := min(max(pan.X((w[0]+w[1])/2*k), pan.Left+half+4), pan.Right-half-4)
		p.sheet.Text(x, dwellHeight(pan, a, a.At(w[0]).Pos, x-half, 2*half, xs, ys), text, st)
	}
}

// dwellHeight is where a label of width w that begins at x, for a dwell at a level, is clear of the curve and of the
// limits: away from that level, if that will do.
func dwellHeight(pan style.Panel, a Axis, level float64, x, w vg.Length, xs, ys []float64) vg.Length {
	best, most := vg.Length(0), vg.Length(-1)
	lower, upper := []float64{0.32, 0.2, 0.1, 0.45}, []float64{0.62, 0.75, 0.85}
	if level < (pan.Y0+pan.Y1)/2 {
		lower, upper = upper, lower
	}
	for _, share := range slices.Concat(lower, upper) {
		y := pan.Bottom + (pan.Top-pan.Bottom)*vg.Length(share)
		middle := y + style.Small*0.35
		gap := pan.Clearance(x, w, middle, xs, ys)
		for _, limit := range []float64{a.Limits.Min, a.Limits.Max} {
			gap = min(gap, vg.Length(math.Abs(float64(pan.Y(limit)-middle)))-style.Small) // its own label stands beside it
		}
		if gap > most+1 { // a point of room decides
			best, most = y, gap
		}
	}
	return best
}

// curve draws the line and, at its right end, the axis' name.
func (p *page) curve(pan style.Panel, i int, a Axis, xs, ys []float64) {
	pan.Curve(xs, ys, i)
	end := ys[len(ys)-1]
	st := style.Style{Size: style.Small, Color: style.TextHue(i), Align: -1}
	y := min(max(pan.Y(end)-style.Small*0.35, pan.Bottom), pan.Top-style.Small*0.7)
	p.sheet.Text(pan.Right+6, y, style.Fit(a.Name, right-10, st), st)
}
