// Package repeats tells whether a picture repeats itself, as a wallpaper does: then a shift by as
// much, or any whole number of times as much, looks like none, and several lay one frame on another
// as well.
package repeats

import (
	"math"
	"math/bits"

	"gonum.org/v1/gonum/dsp/fourier"

	"seamrail/motion/footage"
)

// Repeat is the shortest shift by which a picture lies on itself.
type Repeat struct {
	X, Y  float64 // recorded px, to the right and down; of the two ways there are the one to the right
	Alike float64 // how well it does, 1 wholly: the correlation of what overlaps
}

const (
	// widest is how wide the picture is looked at: what repeats within two of such pixels is even.
	widest = 256
	// leastAlike is how well it lies on itself where nothing in it tells one place from the next: a
	// fifth of what is in it may be something else.
	leastAlike = 0.8
	// valley is how well it may lie on itself half way, as a share of that: what changes gently
	// everywhere lies on itself anywhere.
	valley = 0.5
	// leastShared is the share of the picture that overlaps: by less, chance does.
	leastShared = 0.25
	// leastDetail is the root mean square of what is fine in it, 0 to 1: below is grain of an even
	// picture.
	leastDetail = 1.0 / 255
)

// Of looks for it in a picture whose pixels are so many recorded ones; false where it does not
// repeat itself, or is even. How a picture correlates with itself comes by way of its power
// spectrum, as textbooks have it.
func Of(g footage.Gray, step float64) (Repeat, bool) {
	by := max(1, (g.Width+widest-1)/widest)
	p := detail(smaller(g, by))
	if p.power() < leastDetail*leastDetail {
		return Repeat{}, false
	}
	c := newCorrelation(p)
	best, found := Repeat{}, false
	for dy := -p.h + 1; dy < p.h; dy++ {
		for dx := 0; dx < p.w; dx++ {
			if dx == 0 && dy <= 0 || float64(p.w-dx)*float64(p.h-abs(dy)) < leastShared*float64(p.w*p.h) {
				continue
			}
			a := c.at(dx, dy)
			if a < leastAlike || found && math.Hypot(float64(dx), float64(dy)) >= math.Hypot(best.X, best.Y) || !c.peak(dx, dy, a) {
				continue
			}
			best, found = Repeat{float64(dx), float64(dy), a}, true
		}
	}
	best.X, best.Y = best.X*float64(by)*step, best.Y*float64(by)*step
	return best, found
}

// peak tells whether a shift is better than those beside it, and than half of it by far.
func (c *correlation) peak(dx, dy int, a float64) bool {
	for y := -1; y <= 1; y++ {
		for x := -1; x <= 1; x++ {
			if c.at(dx+x, dy+y) > a {
				return false
			}
		}
	}
	low := a
	for k := 1; k < 8; k++ { // on the way there
		low = min(low, c.at(dx*k/8, dy*k/8))
	}
	return low < valley*a
}

// picture is one without its mean.
type picture struct {
	w, h int
	v    []float64
}

func (p picture) power() (sum float64) {
	for _, v := range p.v {
		sum += v * v
	}
	return sum / float64(len(p.v))
}

// smaller is the mean of squares of so many pixels.
func smaller(g footage.Gray, by int) picture {
	p := picture{w: g.Width / by, h: g.Height / by}
	p.v = make([]float64, p.w*p.h)
	for y := range p.h * by {
		for x, v := range g.Row(y)[:p.w*by] {
			p.v[y/by*p.w+x/by] += float64(v) / float64(by*by)
		}
	}
	return p
}

// coarse is how wide the light is that is taken out, as a share of the picture: a lamp's falling
// off tells no place from the next.
const coarse = 1.0 / 8

// detail takes out of each pixel the mean of those about it.
func detail(p picture) picture {
	r := max(1, int(coarse*float64(p.w)/2))
	sums := newSums(p, func(v float64) float64 { return v })
	out := picture{p.w, p.h, make([]float64, len(p.v))}
	for y := range p.h {
		for x := range p.w {
			x0, y0, x1, y1 := max(0, x-r), max(0, y-r), min(p.w, x+r+1), min(p.h, y+r+1)
			out.v[y*p.w+x] = p.v[y*p.w+x] - sums.over(x0, y0, x1, y1)/float64((x1-x0)*(y1-y0))
		}
	}
	return out
}

// sums are those of all that is above and left of a corner.
type sums struct {
	w int
	v []float64
}

func newSums(p picture, f func(v float64) float64) sums {
	s := sums{p.w + 1, make([]float64, (p.w+1)*(p.h+1))}
	for y := range p.h {
		row := 0.0
		for x := range p.w {
			row += f(p.v[y*p.w+x])
			s.v[(y+1)*s.w+x+1] = s.v[y*s.w+x+1] + row
		}
	}
	return s
}

func (s sums) over(x0, y0, x1, y1 int) float64 {
	return s.v[y1*s.w+x1] - s.v[y0*s.w+x1] - s.v[y1*s.w+x0] + s.v[y0*s.w+x0]
}

// correlation is of a picture with itself, at each shift over what overlaps.
type correlation struct {
	p       picture
	w, h    int // twice the picture, or more, so that nothing goes round
	sums    []float64
	squares sums
}

func newCorrelation(p picture) *correlation {
	c := &correlation{p: p, w: roomy(p.w), h: roomy(p.h), squares: newSums(p, func(v float64) float64 { return v * v })}
	s := make([]complex128, c.w*c.h)
	for y := range p.h {
		for x := range p.w {
			s[y*c.w+x] = complex(p.v[y*p.w+x], 0)
		}
	}
	both(s, c.w, c.h, func(t *fourier.CmplxFFT, l []complex128) { t.Coefficients(l, l) })
	for n, v := range s {
		s[n] = complex(real(v)*real(v)+imag(v)*imag(v), 0)
	}
	both(s, c.w, c.h, func(t *fourier.CmplxFFT, l []complex128) { t.Sequence(l, l) })
	c.sums = make([]float64, len(s))
	for n, v := range s {
		c.sums[n] = real(v) / float64(len(s))
	}
	return c
}

// roomy is a power of two, which is quick, of twice as much or more.
func roomy(n int) int { return 2 << bits.Len(uint(n-1)) }

// both applies a transform to all rows, then to all columns.
func both(s []complex128, w, h int, f func(t *fourier.CmplxFFT, line []complex128)) {
	across, down := fourier.NewCmplxFFT(w), fourier.NewCmplxFFT(h)
	for y := range h {
		f(across, s[y*w:(y+1)*w])
	}
	column := make([]complex128, h)
	for x := range w {
		for y := range h {
			column[y] = s[y*w+x]
		}
		f(down, column)
		for y := range h {
			s[y*w+x] = column[y]
		}
	}
}

// at is how alike the picture and itself are at a shift, -1 to 1.
func (c *correlation) at(dx, dy int) float64 {
	if abs(dx) >= c.p.w || abs(dy) >= c.p.h {
		return 0
	}
	x, y := max(dx, 0), max(dy, 0)
	w, h := c.p.w-abs(dx), c.p.h-abs(dy)
	here := c.squares.over(x, y, x+w, y+h)
	there := c.squares.over(x-dx, y-dy, x-dx+w, y-dy+h)
	if here <= 0 || there <= 0 {
		return 0
	}
	return c.sums[(dy+c.h)%c.h*c.w+(dx+c.w)%c.w] / math.Sqrt(here*there)
}

func abs(n int) int { return max(n, -n) }
