// Package canvas fills polygons with soft edges, in amounts of light.
//
// A pixel holds light and not the code of a screen, so that pixels can be added
// up as film adds up what falls on it. Coordinates are pixels, x right and y
// down from the upper left corner.
package canvas

import "math"

// Light is a colour as amounts of light; 65535 is as bright as a screen gets.
type Light struct{ R, G, B uint16 }

// Point is a place on the canvas.
type Point struct{ X, Y float32 }

// Canvas is a picture being painted.
type Canvas struct {
	wide, high int
	pix        []Light
	// turn holds, for the polygon in hand, by how much coverage changes from
	// each pixel to the one right of it; it is all zero between polygons.
	turn     []float32
	from, to []int // pixels of each row that turn was written to
}

// New returns a black canvas.
func New(wide, high int) *Canvas {
	c := &Canvas{
		wide: wide, high: high, pix: make([]Light, wide*high), turn: make([]float32, (wide+2)*high),
		from: make([]int, high), to: make([]int, high),
	}
	for y := range high {
		c.untouched(y)
	}
	return c
}

// Size is the canvas' in pixels.
func (c *Canvas) Size() (wide, high int) { return c.wide, c.high }

// At is the light of a pixel of the canvas.
func (c *Canvas) At(x, y int) Light { return c.pix[y*c.wide+x] }

// Row paints a whole row.
func (c *Canvas) Row(y int, l Light) {
	row := c.pix[y*c.wide : (y+1)*c.wide]
	for x := range row {
		row[x] = l
	}
}

func (c *Canvas) untouched(y int) { c.from[y], c.to[y] = math.MaxInt, -1 }

// Fill lays paint of an opacity of 0..1 on what the contours enclose. A contour
// closes by itself; a hole is one that runs the other way round. Edges are as
// soft as the share of each pixel that they cover, exactly, but where edges of
// one fill meet within a pixel.
func (c *Canvas) Fill(l Light, opacity float32, contours ...[]Point) {
	top, bottom := c.high, 0
	for _, p := range contours {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			first, last := c.edge(a, b)
			top, bottom = min(top, first), max(bottom, last)
		}
	}
	for y := top; y < bottom; y++ {
		c.paint(y, l, opacity)
	}
}

// edge notes one edge and returns the rows it crosses.
func (c *Canvas) edge(a, b Point) (first, last int) {
	way := float32(1)
	if a.Y > b.Y {
		a, b, way = b, a, -1
	}
	high := float32(c.high)
	if !(b.Y > a.Y) || b.Y <= 0 || a.Y >= high {
		return c.high, 0
	}
	slope := (b.X - a.X) / (b.Y - a.Y)
	low, end := max(a.Y, 0), min(b.Y, high)
	first, last = int(low), int(math.Ceil(float64(end)))
	for y := first; y < last; y++ {
		next := min(float32(y+1), end)
		c.cross(y, a.X+slope*(low-a.Y), a.X+slope*(next-a.Y), way*(next-low))
		low = next
	}
	return first, last
}

// cross notes the part of an edge within one row, from x0 to x1: to its right
// a share of that row's height is covered.
func (c *Canvas) cross(y int, x0, x1, share float32) {
	row := c.turn[y*(c.wide+2) : (y+1)*(c.wide+2)]
	x0, x1 = min(x0, x1), max(x0, x1)
	if x1 >= float32(c.wide) { // what is covered goes on to the end of the row
		c.to[y] = c.wide
	}
	x0, x1, share, left := c.trimmed(x0, x1, share)
	if left != 0 {
		row[0] += left
		c.from[y], c.to[y] = 0, max(c.to[y], 0)
	}
	if share == 0 {
		return
	}
	first := int(x0)
	c.from[y] = min(c.from[y], first)
	if x1 <= float32(first+1) {
		right := share * ((x0+x1)/2 - float32(first))
		row[first] += share - right
		row[first+1] += right
		c.to[y] = max(c.to[y], first+1)
		return
	}
	per := share / (x1 - x0)
	before := float32(0)
	last := int(math.Ceil(float64(x1)))
	for x := first; x <= last; x++ {
		covered := per * (filled(float32(x+1)-x0) - filled(float32(x+1)-x1))
		row[x] += covered - before
		before = covered
	}
	c.to[y] = max(c.to[y], last)
}

// trimmed cuts a piece of an edge to the canvas. What lies left of it covers
// the whole row by a share of its own; what lies right of it covers nothing.
func (c *Canvas) trimmed(x0, x1, share float32) (from, to, rest, left float32) {
	wide := float32(c.wide)
	switch {
	case x1 <= 0:
		return 0, 0, 0, share
	case !(x0 < wide):
		return 0, 0, 0, 0
	}
	if x1 > wide {
		share *= (wide - x0) / (x1 - x0)
		x1 = wide
	}
	if x0 < 0 {
		left = share * -x0 / (x1 - x0)
		share -= left
		x0 = 0
	}
	return x0, x1, share, left
}

// filled is the integral from 0 to x of how much of a pixel lies right of an
// edge that has entered it by that much: x within 0..1, then 1.
func filled(x float32) float32 {
	switch {
	case x <= 0:
		return 0
	case x < 1:
		return x * x / 2
	}
	return x - 0.5
}

// Below nearlyNone a pixel is left alone and above nearlyAll it is painted
// over: one part in 4096 is below what a screen shows.
const (
	nearlyNone = 1.0 / 4096
	nearlyAll  = 1 - nearlyNone
)

// paint lays paint on one row as turn says, and clears turn.
func (c *Canvas) paint(y int, l Light, opacity float32) {
	from, to := c.from[y], c.to[y]
	if to < from {
		return
	}
	c.untouched(y)
	turn := c.turn[y*(c.wide+2)+from : y*(c.wide+2)+to+1]
	pix := c.pix[y*c.wide : (y+1)*c.wide][from:]
	covered, share := float32(0), float32(0)
	for x, by := range turn[:min(len(turn), len(pix))] {
		if by != 0 {
			covered += by
			turn[x] = 0
			share = opacity * min(max(covered, -covered), 1)
		}
		switch {
		case share > nearlyAll:
			pix[x] = l
		case share >= nearlyNone:
			pix[x] = mixed(pix[x], l, int(share*65536))
		}
	}
	clear(turn[min(len(turn), len(pix)):])
}

// mixed is a share of 65536 parts of b over a.
func mixed(a, b Light, share int) Light {
	mix := func(a, b uint16) uint16 { return uint16(int(a) + (int(b)-int(a))*share>>16) }
	return Light{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B)}
}
