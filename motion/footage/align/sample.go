package align

import "seamrail/motion/footage"

// cubic are the weights of four pixels in a row for a place at t, 0 to 1, between the second and
// the third: a piece of the cubic convolution of R. G. Keys (IEEE Trans. Acoust. Speech Signal
// Process. 29:1153, 1981, DOI 10.1109/TASSP.1981.1163711), which is exact for parabolas. A straight
// line from pixel to pixel would soften a picture most where it is moved by half a pixel, and so
// draw what is measured towards whole ones.
func cubic(t float32) (a, b, c, d float32) {
	u := 1 - t
	return -0.5 * t * u * u, 1 + t*t*(1.5*t-2.5), 1 + u*u*(1.5*u-2.5), -0.5 * u * t * t
}

// reach is how many pixels beside a place its value hangs on.
const reach = 2

// inside tells whether a place has pixels all around it.
func inside(g *footage.Gray, x, y float64) bool {
	return x >= reach-1 && y >= reach-1 && x < float64(g.Width-reach) && y < float64(g.Height-reach)
}

// at is a picture at a place that is inside it.
func at(g *footage.Gray, x, y float64) float32 {
	ix, iy := int(x), int(y)
	a, b, c, d := cubic(float32(x - float64(ix)))
	e, f, h, k := cubic(float32(y - float64(iy)))
	n := (iy-1)*g.Width + ix - 1
	row := func(n int) float32 {
		p := g.Pix[n : n+4 : n+4]
		return a*p[0] + b*p[1] + c*p[2] + d*p[3]
	}
	return e*row(n) + f*row(n+g.Width) + h*row(n+2*g.Width) + k*row(n+3*g.Width)
}
