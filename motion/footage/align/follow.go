package align

import (
	"math"

	"seamrail/motion/footage"
)

const (
	// closeEnough is where a block has come to rest, in pixels: a tenth of what is promised.
	closeEnough = 0.005
	// tries are how often a block is moved: it comes to rest in three or four, or not at all.
	tries = 10
	// farthest is how far a block may go from where it was looked for, in pixels: beyond that it
	// has found something else.
	farthest = block / 3
	// alike is the least correlation of a block with what it was laid on: what is less alike is no
	// longer the same thing.
	alike = 0.6
)

// moved is where a block was found.
type moved struct {
	n      int     // which of the reference's blocks
	x, y   float64 // its middle in the reference
	dx, dy float64 // by how much further than the pose has it, in pixels of the reference
	lever  lever
	sure   whiten // makes of a difference how many standard uncertainties it is, each way by itself
}

// whiten is a symmetric matrix (xx xy; xy yy).
type whiten struct{ xx, xy, yy float64 }

func (w whiten) of(x, y float64) (float64, float64) { return w.xx*x + w.xy*y, w.xy*x + w.yy*y }

// whitened is the inverse of the root of a covariance.
func whitened(xx, xy, yy float64) whiten {
	root := math.Sqrt(xx*yy - xy*xy) // that of the determinant, which the root has
	trace := math.Sqrt(xx + yy + 2*root)
	a, b, c := (xx+root)/trace, xy/trace, (yy+root)/trace
	return whiten{c / root, -b / root, a / root}
}

// follow looks for a block in a picture, about where the pose has it.
func (a *anchor) follow(g *footage.Gray, p footage.Pose, found []float32) (moved, bool) {
	m := moved{x: a.x, y: a.y, lever: a.lever}
	if a.contrast == 0 || a.ixx == 0 {
		return m, false
	}
	for range tries {
		if !a.read(g, p, m.dx, m.dy, found) {
			return m, false
		}
		center(found)
		size := math.Sqrt(float64(dot(found, found)))
		if size == 0 {
			return m, false
		}
		k := float32(a.contrast / size)
		var ex, ey, rest float32
		for n, v := range a.value {
			e := k*found[n] - v
			ex, ey, rest = ex+a.gx[n]*e, ey+a.gy[n]*e, rest+e*e
		}
		sx, sy := a.ixx*float64(ex)+a.ixy*float64(ey), a.ixy*float64(ex)+a.iyy*float64(ey)
		m.dx, m.dy = m.dx-sx, m.dy-sy
		if math.Hypot(m.dx, m.dy) > farthest {
			return m, false
		}
		if math.Hypot(sx, sy) < closeEnough {
			correlation := float64(dot(found, a.value)) / (size * a.contrast)
			noise := float64(rest)/(block*block) + grain*grain
			m.sure = whitened(own*own+noise*a.ixx, noise*a.ixy, own*own+noise*a.iyy)
			return m, correlation >= alike
		}
	}
	return m, false
}

// read is what the picture has where the block is thought to be; false where that is not all in it.
func (a *anchor) read(g *footage.Gray, p footage.Pose, dx, dy float64, into []float32) bool {
	mx, my := middle(*g)
	const half = (block - 1) / 2.0
	x0, y0 := p.At(a.x+dx-half, a.y+dy-half)
	ux, uy := p.At(a.x+dx-half+1, a.y+dy-half)
	ax, bx := ux-x0, uy-y0 // a step to the right; one down is (-bx, ax)
	x0, y0 = x0+mx, y0+my
	for _, corner := range [4][2]float64{{0, 0}, {block - 1, 0}, {0, block - 1}, {block - 1, block - 1}} {
		if !inside(g, x0+ax*corner[0]-bx*corner[1], y0+bx*corner[0]+ax*corner[1]) {
			return false
		}
	}
	for r := range block {
		x, y := x0-bx*float64(r), y0+ax*float64(r)
		line := into[r*block : (r+1)*block]
		if bx == 0 && ax == 1 {
			straight(g, x, y, line)
			continue
		}
		for c := range line {
			line[c] = at(g, x+ax*float64(c), y+bx*float64(c))
		}
	}
	return true
}

// straight is a row of places one pixel apart, which share their weights.
func straight(g *footage.Gray, x, y float64, line []float32) {
	ix, iy := int(x), int(y)
	a, b, c, d := cubic(float32(x - float64(ix)))
	e, f, h, k := cubic(float32(y - float64(iy)))
	n, w := (iy-1)*g.Width+ix-1, g.Width
	var column [block + 3]float32
	r0, r1, r2, r3 := g.Pix[n:n+block+3], g.Pix[n+w:n+w+block+3], g.Pix[n+2*w:n+2*w+block+3], g.Pix[n+3*w:n+3*w+block+3]
	for i := range column {
		column[i] = e*r0[i] + f*r1[i] + h*r2[i] + k*r3[i]
	}
	for i := range line {
		line[i] = a*column[i] + b*column[i+1] + c*column[i+2] + d*column[i+3]
	}
}
