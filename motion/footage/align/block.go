package align

import (
	"math"

	"seamrail/motion/footage"
)

const (
	// block is the side of a block, in pixels of its level: large enough for some structure in it,
	// small enough that a turn or a hand spoils a part of the blocks only.
	block = 24
	// columns and rows are how the picture is shared out: the best block of each part is taken, so
	// that turn and scale have levers.
	columns, rows = 8, 5
	// grain is the least change from pixel to pixel, root mean square and in the direction that has
	// least, that something can hold on to: a quarter of a step of 8 bits.
	grain = 0.25 / 255
)

// anchor is a block of a picture that is looked for in others.
type anchor struct {
	x, y     float64   // its middle, from the middle of the picture
	value    []float32 // row by row, its mean taken out
	gx, gy   []float32 // how it changes, means taken out
	contrast float64   // the root of the sum of the squares of value
	ixx, ixy float64   // the inverse of what gx and gy make with each other
	iyy      float64
	least    float64 // the lesser eigenvalue of it, a pixel
}

// anchorsOf are the best blocks of a picture, one of each part of it that has one.
func anchorsOf(g *footage.Gray) []anchor {
	var out []anchor
	for r := range rows {
		for c := range columns {
			x0, x1 := span(c, columns, g.Width)
			y0, y1 := span(r, rows, g.Height)
			if a, ok := bestIn(g, x0, x1, y0, y1); ok {
				out = append(out, a)
			}
		}
	}
	return out
}

// span are the first and the last place of a block in one part of many, within the picture with
// a pixel to spare for its slope.
func span(part, of, size int) (from, to int) {
	room := size - block - 2
	return 1 + part*room/of, 1 + (part+1)*room/of
}

func bestIn(g *footage.Gray, x0, x1, y0, y1 int) (anchor, bool) {
	best, found := anchor{least: grain * grain}, false
	step := max(block/3, 1)
	for y := y0; y <= y1; y += step {
		for x := x0; x <= x1; x += step {
			if x < 1 || y < 1 {
				continue
			}
			if l := leastChange(g, x, y); l > best.least {
				best.least, best.x, best.y, found = l, float64(x), float64(y), true
			}
		}
	}
	if found {
		best.fill(g, int(best.x), int(best.y))
	}
	return best, found
}

// leastChange is the lesser eigenvalue of the structure of a block, a pixel, looked at in every
// second pixel.
func leastChange(g *footage.Gray, x0, y0 int) float64 {
	var xx, xy, yy float32
	for y := y0; y < y0+block; y += 2 {
		above, here, below := g.Row(y-1), g.Row(y), g.Row(y+1)
		for x := x0; x < x0+block; x += 2 {
			dx, dy := (here[x+1]-here[x-1])/2, (below[x]-above[x])/2
			xx, xy, yy = xx+dx*dx, xy+dx*dy, yy+dy*dy
		}
	}
	return lesser(float64(xx), float64(xy), float64(yy)) / (block * block / 4)
}

// lesser is the lesser eigenvalue of a symmetric matrix.
func lesser(xx, xy, yy float64) float64 {
	return (xx+yy)/2 - math.Hypot((xx-yy)/2, xy)
}

func (a *anchor) fill(g *footage.Gray, x0, y0 int) {
	mx, my := middle(*g)
	a.x, a.y = float64(x0)+(block-1)/2.0-mx, float64(y0)+(block-1)/2.0-my
	n := block * block
	all := make([]float32, 3*n)
	a.value, a.gx, a.gy = all[:n:n], all[n:2*n:2*n], all[2*n:]
	for y := range block {
		above, here, below := g.Row(y0+y-1), g.Row(y0+y), g.Row(y0+y+1)
		for x := range block {
			at := y*block + x
			a.value[at] = here[x0+x]
			a.gx[at], a.gy[at] = (here[x0+x+1]-here[x0+x-1])/2, (below[x0+x]-above[x0+x])/2
		}
	}
	for _, list := range [][]float32{a.value, a.gx, a.gy} {
		center(list)
	}
	a.contrast = math.Sqrt(float64(dot(a.value, a.value)))
	xx, xy, yy := float64(dot(a.gx, a.gx)), float64(dot(a.gx, a.gy)), float64(dot(a.gy, a.gy))
	if d := xx*yy - xy*xy; d > 0 {
		a.ixx, a.ixy, a.iyy = yy/d, -xy/d, xx/d
	}
}

func center(list []float32) {
	var sum float32
	for _, v := range list {
		sum += v
	}
	sum /= float32(len(list))
	for n := range list {
		list[n] -= sum
	}
}

func dot(a, b []float32) float32 {
	var sum float32
	b = b[:len(a)]
	for n, v := range a {
		sum += v * b[n]
	}
	return sum
}
