package topview

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

// lanes are how far a dimension is moved aside of what it measures, in points.
var lanes = []vg.Length{0, 15, -15, 30, -30, 45, -45, 60, -60, 75, -75, 90, -90}

// slips are where along a dimension its number may stand.
var slips = []vg.Length{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8}

// dimensions draws every distance, the shortest first, so that a longer one
// beside it lies outside it.
func (p *page) dimensions() {
	var all []picture.Item
	out := outlying(p.d.Above)
	p.d.of(picture.DistanceItem, func(i picture.Item) {
		if !out[i.Points[0]] && length(i) > noLength && p.scale.Length(length(i)) >= smallest {
			all = append(all, i)
		}
	})
	slices.SortStableFunc(all, func(a, b picture.Item) int {
		if la, lb := length(a), length(b); math.Abs(la-lb) > onSide {
			return cmp.Compare(la, lb)
		}
		return 0
	})
	for _, i := range all {
		p.dimension(i)
	}
}

// noLength is a length, in mm, that is nothing from above: a lamp right overhead.
const noLength = 0.05

func length(i picture.Item) float64 { return r2.Norm(r2.Sub(i.Points[0], i.Points[1])) }

// lane is one way to draw a dimension.
type lane struct {
	line segment // of the arrows
	text box
}

func (p *page) dimension(i picture.Item) {
	own := segment{p.at(i.Points[0]), p.at(i.Points[1])}
	text := mm(length(i)) // from above: what is measured aslant is told in the list
	best, ok := p.bestLane(own, text)
	if !ok {
		return
	}
	if best.line != own {
		p.leads(own, best.line)
	}
	p.arrows(best.line)
	p.lines, p.spines = append(p.lines, best.line), append(p.spines, best.line)
	if !best.line.cuts(best.text) {
		p.tie(best.text, best.line.middle(), style.Muted)
	}
	p.write(best.text, text, style.Ink)
}

// bestLane is the cheapest free way to draw a dimension.
func (p *page) bestLane(own segment, text string) (best lane, ok bool) {
	w, h := size(text)
	least := math.Inf(1)
	for k, by := range lanes {
		line := own.moved(by)
		if !p.open(line) || !p.uncovered(segment{line.p, own.p}) || !p.uncovered(segment{line.q, own.q}) {
			continue
		}
		b, price, free := p.number(line, w, h)
		price += priceLane * float64((k+1)/2)
		if free && price < least-priceSlack {
			best, least, ok = lane{line, b}, price, true
		}
	}
	return best, ok
}

// open tells whether a dimension may run there: within the drawing, along no
// other line, and over no label but from what it names.
func (p *page) open(line segment) bool {
	if !p.area.holds(about(line)) {
		return false
	}
	for _, t := range p.taken {
		if line.cuts(t) && !t.has(line.p) && !t.has(line.q) {
			return false
		}
	}
	return !slices.ContainsFunc(p.spines, func(s segment) bool { return alongside(line, s) })
}

// about is the box about a line.
func about(s segment) box {
	return box{min(s.p.X, s.q.X), min(s.p.Y, s.q.Y), max(s.p.X, s.q.X), max(s.p.Y, s.q.Y)}
}

// number is the cheapest free place for a dimension's number: on its line, or
// about its middle where it is too short.
func (p *page) number(line segment, w, h vg.Length) (best box, price float64, ok bool) {
	d := line.q.Sub(line.p).Scale(1 / line.length())
	reach := min(w/vg.Length(math.Abs(float64(d.X))), h/vg.Length(math.Abs(float64(d.Y)))) // of the line under the number
	if line.length() < reach+4*arrow {
		best, ok = p.around(line.middle(), w, h, math.Atan2(float64(line.left().Y), float64(line.left().X)))
		return best, float64(p.cuts(best)), ok
	}
	price = math.Inf(1)
	for _, t := range slips {
		at := line.along(t)
		b := box{at.X - w/2, at.Y - h/2, at.X + w/2, at.Y + h/2}
		cost := priceSlip*math.Abs(float64(t-0.5)) + priceCut*float64(p.cuts(b))
		if p.free(b) && cost < price-priceSlack {
			best, price, ok = b, cost, true
		}
	}
	return best, price, ok
}

// Lines nearer than this, in points, and within a few degrees of parallel, are
// read as one.
const (
	together = 7.0
	parallel = 0.07 // sine of four degrees
)

// alongside tells whether two lines lie along each other somewhere.
func alongside(a, b segment) bool {
	if a.length() == 0 || b.length() == 0 {
		return false
	}
	u, v := a.left(), b.left()
	if math.Abs(float64(u.X*v.Y-u.Y*v.X)) > parallel {
		return false
	}
	off := func(q vg.Point) float64 { d := q.Sub(a.p); return math.Abs(float64(d.X*u.X + d.Y*u.Y)) }
	if min(off(b.p), off(b.q)) > together {
		return false
	}
	way := func(q vg.Point) vg.Length { d := q.Sub(a.p); return d.X*u.Y - d.Y*u.X }
	lo, hi := min(way(b.p), way(b.q)), max(way(b.p), way(b.q))
	return hi > together && lo < a.length()-together
}

// Arrowheads, in points: slender, as ISO 129-1 draws them.
const (
	arrow     vg.Length = 7
	arrowHalf vg.Length = 1.3
	overshoot vg.Length = 3 // of the leads past the arrows
)

// leads draws the thin lines from what is measured to its dimension.
func (p *page) leads(own, line segment) {
	for _, ends := range [2][2]vg.Point{{own.p, line.p}, {own.q, line.q}} {
		way := segment{ends[0], ends[1]}
		to := way.along(1 + overshoot/way.length())
		p.sheet.Line(ends[0].X, ends[0].Y, to.X, to.Y, 0.5, style.Muted)
	}
}

// arrows draws a dimension's line with its heads, from outside where it is
// short.
func (p *page) arrows(line segment) {
	d := line.q.Sub(line.p).Scale(1 / line.length())
	from, to := line.p, line.q
	if line.length() < 3*arrow {
		from, to = from.Sub(d.Scale(2*arrow)), to.Add(d.Scale(2*arrow))
		d = d.Scale(-1)
	}
	p.sheet.Line(from.X, from.Y, to.X, to.Y, 0.6, style.Muted)
	p.arrowhead(line.p, d, style.Muted)
	p.arrowhead(line.q, d.Scale(-1), style.Muted)
}

// arrowhead draws a head with its tip at a point, its body towards d.
func (p *page) arrowhead(tip, d vg.Point, c color.Color) {
	back := tip.Add(d.Scale(arrow))
	n := vg.Point{X: -d.Y * arrowHalf, Y: d.X * arrowHalf}
	p.sheet.FillPolygon(c, []vg.Point{tip, back.Add(n), back.Sub(n)})
}
