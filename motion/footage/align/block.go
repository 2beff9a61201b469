package align

import (
	"cmp"
	"math"
	"slices"

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
	lever    lever
}

// lever is what a growth a and a turn b do to where a block is found, looked for in the form that it
// has without them: (a*[0] + b*[1], a*[2] + b*[3]). Were all of the block alike that would be
// (a*x - b*y, b*x + a*y) of its middle. As it is, what it has to hold on to lies to one side.
type lever [4]float64

// anchorsOf are the best blocks of a picture: in turn the best of each part of it that is left, so
// that a small thing before nothing has as many as a wall.
func anchorsOf(g *footage.Gray) []anchor {
	parts := make([][]place, 0, columns*rows)
	for r := range rows {
		for c := range columns {
			x0, x1 := span(c, columns, g.Width)
			y0, y1 := span(r, rows, g.Height)
			parts = append(parts, places(g, x0, x1, y0, y1))
		}
	}
	aboveGrain(parts)
	var out []anchor
	var taken []place
	for more := true; more && len(out) < columns*rows; {
		more = false
		for n := range parts {
			p, ok := next(&parts[n], taken)
			if !ok || len(out) == columns*rows {
				continue
			}
			more, taken = true, append(taken, p)
			out = append(out, anchor{})
			out[len(out)-1].fill(g, p.x, p.y)
		}
	}
	return out
}

// place is where a block may be, by its left upper corner, and how much it has to hold on to.
type place struct {
	x, y  int
	least float64
}

// span are the first and the last place of a block in one part of many, within the picture with
// a pixel to spare for its slope; the last is before the first where the picture has no room for one.
func span(part, of, size int) (from, to int) {
	room := size - block - 2
	if room < 0 {
		return 1, 0
	}
	return 1 + part*room/of, 1 + (part+1)*room/of
}

// places are those of a part that have something to hold on to, best first.
func places(g *footage.Gray, x0, x1, y0, y1 int) []place {
	var out []place
	const step = block / 3
	for y := y0; y <= y1; y += step {
		for x := x0; x <= x1; x += step {
			if x < 1 || y < 1 {
				continue
			}
			if l := leastChange(g, x, y); l > grain*grain {
				out = append(out, place{x, y, l})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b place) int { return cmp.Compare(b.least, a.least) })
	return out
}

const (
	// quiet is the share of the places of a picture that are taken to show what grain alone does,
	// which no block may hold on to, and beyond by how many times its own must go beyond that.
	quiet, beyond = 0.1, 3.0
	// enoughOf is the share of the best block's that is enough all the same: in a picture that has
	// structure everywhere no place shows grain alone.
	enoughOf = 0.25
)

// aboveGrain leaves those places that have more to hold on to than grain.
func aboveGrain(parts [][]place) {
	var all []float64
	for _, p := range parts {
		for _, x := range p {
			all = append(all, x.least)
		}
	}
	if len(all) == 0 {
		return
	}
	slices.Sort(all)
	least := min(beyond*all[int(quiet*float64(len(all)))], enoughOf*all[len(all)-1])
	for n, p := range parts {
		parts[n] = slices.DeleteFunc(p, func(x place) bool { return x.least < least })
	}
}

// clear is how far blocks are from each other at least, each way: those that share more than a
// quarter of their pixels say the same twice.
const clear = block / 2

// next takes the best place of a part that is clear of those that are taken.
func next(list *[]place, taken []place) (place, bool) {
	for len(*list) > 0 {
		p := (*list)[0]
		*list = (*list)[1:]
		if !slices.ContainsFunc(taken, func(t place) bool { return max(t.x-p.x, p.x-t.x) < clear && max(t.y-p.y, p.y-t.y) < clear }) {
			return p, true
		}
	}
	return place{}, false
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
	a.lever = a.levers()
}

// levers sums what least squares make of a growth and a turn about the middle of the block: of a
// displacement D(u) by place they make the inverse of the sum of g g', times the sum of g g' D(u),
// with g the slope there.
func (a *anchor) levers() lever {
	var grown, round [2]float64
	for n, gx := range a.gx {
		u, v := float64(n%block)-(block-1)/2.0, float64(n/block)-(block-1)/2.0
		x, y := float64(gx), float64(a.gy[n])
		g, r := x*u+y*v, y*u-x*v
		grown[0], grown[1] = grown[0]+x*g, grown[1]+y*g
		round[0], round[1] = round[0]+x*r, round[1]+y*r
	}
	return lever{
		a.x + a.ixx*grown[0] + a.ixy*grown[1], -a.y + a.ixx*round[0] + a.ixy*round[1],
		a.y + a.ixy*grown[0] + a.iyy*grown[1], a.x + a.ixy*round[0] + a.iyy*round[1],
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
