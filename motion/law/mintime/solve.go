package mintime

import "math"

const (
	// settled ends an iteration when a step changes the result by less than
	// this share, four roundings.
	settled = 0x1p-50
	// quadratic is the share below which a step of Newton's rule leaves an
	// error of about its square, below a rounding. At the bottom of E, where it
	// leaves more, E itself does not tell the difference.
	quadratic = 0x1p-30
	// maxSteps is far more than Newton's rule needs on a convex function, and
	// enough for bisection alone.
	maxSteps = 200
)

// solve returns e at which the hop has covered want beyond D*, on the side
// where E rises. want is not below the least E.
func (h *hop) solve(want float64) float64 {
	switch {
	case want >= h.gainV:
		return h.ev + (want-h.gainV)/h.top
	case h.u == 0 && h.high == 0 && want < 2*h.soft:
		return 2 * math.Cbrt(4*want)
	}
	low := 0.
	if h.high < 0 {
		low = h.lowest()
	}
	if low >= h.e2 || want >= h.high*h.e2+2*h.soft-h.k/2 {
		return h.solveHigh(want)
	}
	high := max(low, min(h.ev, h.beyond(want, low)))
	return h.newton(want, high, low, high)
}

// solveHigh solves the square equation of a peak far above both ends,
// x^2 + (soft+2 high) x = left, in the form in which nothing cancels.
func (h *hop) solveHigh(want float64) float64 {
	b := h.soft/2 + h.high
	left := want + h.k/2 - h.high*(h.soft+h.c)
	root := math.Sqrt(max(0, b*b+left))
	x := root - b
	if b > 0 {
		x = left / (root + b)
	}
	return 2*x + h.soft + h.c
}

// beyond returns an e past the solution, near enough for Newton's rule to be
// quick. It solves E > want with the lesser terms of K left out.
func (h *hop) beyond(want, low float64) float64 {
	down := max(0, -h.high)
	e := h.e2
	if low >= h.e1 || want >= h.high*h.e1+h.peak(h.e1).gain {
		// r^2/2 <= down (3r + c) + want + k/2, as r is at most 1.
		b := 3 * down
		r := b + math.Sqrt(max(0, b*b+2*(want+down*h.c)+h.k))
		e = min(e, r*(2+r)+h.c)
	} else {
		// h^3/4 <= 2 down h + want, where h = e/2.
		e = min(h.e1, 2*(4*math.Sqrt(down)+math.Cbrt(4*max(0, want))))
		if h.u > 0 {
			// h^2 u/2 <= 2 down h + want
			e = min(e, 2*(4*down/h.u+math.Sqrt(2*max(0, want)/h.u)))
		}
	}
	if h.high > 0 {
		e = min(e, want/h.high)
	}
	return e
}

// newton finds E(e) = want between less, where E is not above it, and more, where
// it is not below, by Newton's rule from e. A step out of the bracket is replaced
// by its middle (Numerical Recipes, section 9.4).
func (h *hop) newton(want, e, less, more float64) float64 {
	for range maxSteps {
		p := h.peak(e)
		over := h.high*e + p.gain - want
		if over > 0 {
			more = e
		} else {
			less = e
		}
		next := e - over/(h.high+p.slope)
		if !(next >= min(less, more) && next <= max(less, more)) {
			next = (less + more) / 2
		}
		if math.Abs(next-e) <= quadratic*next {
			return next
		}
		e = next
	}
	return e
}

// lowest returns e at which E is least, for a higher end speed below 0: where
// the slope of K is m, minus that speed.
func (h *hop) lowest() float64 {
	m := -h.high
	if m >= 1.5*h.soft {
		return 2*(m-h.soft/2) + h.soft + h.c
	}
	if r1 := math.Sqrt(max(0, 1-h.gap)); m >= r1*(r1+0.5) {
		r := 4 * m / (1 + math.Sqrt(1+16*m))
		return r*(2+r) + h.c
	}
	b := 2*h.gap + 4*m // 3 p^4 - 2 b p^2 + u^4 = 0
	p := math.Sqrt((b + math.Sqrt(b*b-3*h.gap*h.gap)) / 3)
	return 2 * max(0, p-h.u)
}
