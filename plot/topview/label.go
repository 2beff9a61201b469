package topview

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

const pi = math.Pi

// How far from what it names a label may stand, in points, nearest first, and
// in how many directions.
var rings = []vg.Length{7, 12, 19, 28, 40, 55, 73}

const directions = 24

// The price of a place for a label, in rings: a ring farther out costs 1.
const (
	priceCut  = 1.3 // for each line it would cover
	priceTurn = 2.5 // for standing on the far side of where it was wanted
	priceOver = 6.0 // for a tie that runs over another label
	priceBody = 1.0 // for each outline of a thing that a tie runs across
	priceSlip = 4.0 // for standing at the end of a dimension, not in its middle
	priceLane = 1.6 // for each lane that a dimension is moved aside
)

// around is the cheapest free place for a label w by h about a point, wanted in
// a direction in radians.
func (p *page) around(anchor vg.Point, w, h vg.Length, wanted float64) (best box, ok bool) {
	least := math.Inf(1)
	for ring, r := range rings {
		for k := range directions {
			turn := 2 * pi * float64(k) / directions
			b := beside(anchor, w, h, r, wanted+turn)
			price := float64(ring) + priceTurn*(1-math.Cos(turn))/2
			if price >= least || !p.free(b) {
				continue
			}
			tie := segment{b.nearest(anchor), anchor}
			price += priceCut*float64(p.cuts(b)) + priceBody*float64(p.through(tie))
			if !p.uncovered(tie) {
				price += priceOver
			}
			if price < least-priceSlack {
				best, least, ok = b, price, true
			}
		}
	}
	return best, ok
}

// priceSlack keeps the first of two places that cost the same, however they
// round.
const priceSlack = 1e-9

// beside is a box whose edge is r from a point in a direction.
func beside(anchor vg.Point, w, h, r vg.Length, direction float64) box {
	s, c := math.Sincos(direction)
	x := anchor.X + vg.Length(c)*(r+w/2)
	y := anchor.Y + vg.Length(s)*(r+h/2)
	return box{x - w/2, y - h/2, x + w/2, y + h/2}
}

// free tells whether a label may stand there.
func (p *page) free(b box) bool {
	if !p.area.holds(b) {
		return false
	}
	for _, t := range p.taken {
		if t.meets(b) {
			return false
		}
	}
	return !slices.ContainsFunc(p.bodies, func(s segment) bool { return s.cuts(b) })
}

// uncovered tells whether a line runs over no label, the one it ends in aside.
func (p *page) uncovered(s segment) bool {
	return !slices.ContainsFunc(p.taken, func(t box) bool {
		return s.cuts(t) && !t.has(s.q)
	})
}

// through is how many outlines of things a tie runs across, that of what it names
// included.
func (p *page) through(tie segment) int {
	n := 0
	for _, s := range p.bodies {
		if tie.crosses(s) {
			n++
		}
	}
	return n
}

// cuts is how many lines a label there would cover.
func (p *page) cuts(b box) int {
	n := 0
	for _, s := range p.lines {
		if s.cuts(b) {
			n++
		}
	}
	return n
}

// air is the room about the letters of a label.
const air vg.Length = 2

// size is the room that a label takes.
func size(text string) (w, h vg.Length) {
	return style.TextWidth(text, noteStyle) + 2*air, noteSize*0.95 + 2*air
}

// write sets a label on a ground of its own.
func (p *page) write(b box, text string, c color.Color) {
	p.clear(b)
	st := noteStyle
	st.Color = c
	p.sheet.Text(b.x0+air, b.y0+air+noteSize*0.14, text, st)
}

// clear makes room for a label.
func (p *page) clear(b box) {
	p.sheet.Fill(b.x0, b.y0, b.x1, b.y1, style.Paper)
	p.taken = append(p.taken, b.grown(1))
}

// far is from what distance on a label is tied to what it names.
const far vg.Length = 14

// smallest is how long a thing is on paper that has its label or its dimension
// beside it, in points: it is no lower than the letters. About smaller ones there
// would be nothing to see but labels.
const smallest vg.Length = noteSize

// name writes a label of something so long on paper about a point, with a thin line
// to it where it stands far off. Where there is no room, and of what is too small, it
// is left to the list, and that is told.
func (p *page) name(anchor vg.Point, text string, long vg.Length, c color.Color, wanted float64) bool {
	w, h := size(text)
	b, ok := p.around(anchor, w, h, wanted)
	if long < smallest || !ok {
		return false
	}
	p.tie(b, anchor, c)
	p.write(b, text, c)
	return true
}

func (p *page) tie(b box, anchor vg.Point, c color.Color) {
	from := b.nearest(anchor)
	if span(from, anchor) > far {
		p.sheet.Line(from.X, from.Y, anchor.X, anchor.Y, 0.5, c)
		p.lines = append(p.lines, segment{from, anchor})
	}
}
