package toppath

import (
	"math"
	"sort"
)

// spline is a closed path's pace whose square is a quadratic B-spline of s (de Boor, A
// Practical Guide to Splines, chapter IX): continuous, with the change of the pace,
// which is half the slope of its square.
type spline struct {
	bends  []bend
	length float64
	total  float64 // s
}

// bend is one cell: when it begins, at which s, and the pace's square there, alpha +
// beta x + gamma x^2, x being the way since.
type bend struct{ t, s, alpha, beta, gamma float64 }

// newSpline returns the spline of control points c on cells of length h.
func newSpline(c []float64, h float64) *spline {
	n := len(c)
	out := &spline{bends: make([]bend, n), length: h * float64(n)}
	for i := range n {
		a, b, d := c[(i+n-1)%n], c[i], c[(i+1)%n]
		k := bend{t: out.total, s: float64(i) * h, alpha: (a + b) / 2, beta: (b - a) / h, gamma: (a - 2*b + d) / (2 * h * h)}
		out.bends[i] = k
		out.total += k.takes(h)
	}
	return out
}

// gauss are the places and weights of Gauss' rule of five points on [0, 1] (Abramowitz
// and Stegun, table 25.4; the tests hold it to what it is exact for).
var gauss = [...][2]float64{
	{0.5, 0.2844444444444444},
	{0.2307653449471585, 0.2393143352496832}, {0.7692346550528415, 0.2393143352496832},
	{0.04691007703066800, 0.1184634425280946}, {0.9530899229693320, 0.1184634425280946},
}

// takes is how long the way h takes: by quadrature, then by Newton's steps on the
// closed form.
func (k bend) takes(h float64) float64 {
	sec := 0.0
	for _, g := range gauss {
		x := g[0] * h
		sec += g[1] * h / math.Sqrt(k.alpha+x*(k.beta+x*k.gamma))
	}
	for range 3 {
		p := k.after(sec)
		sec += (h - p.S) / p.Vel
	}
	return sec
}

// after is the way after some time in the cell: x” = beta/2 + gamma x.
func (k bend) after(t float64) PathState {
	c, s := cosh(k.gamma, t)
	v := math.Sqrt(k.alpha)
	x := k.beta/2*c + v*s
	vel := v*(1+k.gamma*c) + k.beta/2*s
	return PathState{S: x, Vel: vel, Acc: k.beta/2 + k.gamma*x, Jerk: k.gamma * vel}
}

// smallTurn is from where on the series of cosh is exact to rounding.
const smallTurn = 1e-2

// cosh returns (cosh(wt)-1)/w^2 and sinh(wt)/w for w^2 = g of either sign.
func cosh(g, t float64) (c, s float64) {
	q := g * t * t
	switch {
	case math.Abs(q) < smallTurn:
		c = t * t * (1 + q/12*(1+q/30*(1+q/56*(1+q/90)))) / 2
		return c, t * (1 + q/6*(1+q/20*(1+q/42*(1+q/72))))
	case g > 0:
		w := math.Sqrt(g)
		h := math.Sinh(w * t / 2)
		return 2 * h * h / g, math.Sinh(w*t) / w
	}
	w := math.Sqrt(-g)
	h := math.Sin(w * t / 2)
	return -2 * h * h / g, math.Sin(w*t) / w
}

func (c *spline) at(t float64) PathState {
	rounds := math.Floor(t / c.total)
	t -= rounds * c.total
	i := sort.Search(len(c.bends), func(i int) bool { return c.bends[i].t > t })
	k := c.bends[max(i-1, 0)]
	p := k.after(t - k.t)
	p.S += k.s + rounds*c.length
	return p
}

// jumps returns by how much the jerk of the pace jumps at the start of each cell.
func (c *spline) jumps() []float64 {
	out := make([]float64, len(c.bends))
	for i, k := range c.bends {
		before := c.bends[(i+len(out)-1)%len(out)].gamma
		out[i] = math.Abs(k.gamma-before) * math.Sqrt(k.alpha)
	}
	return out
}
