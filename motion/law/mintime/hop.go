package mintime

import "math"

// hop is what a move does beyond the direct change of speed: up from both end
// speeds to a greater one, and down again. It is in units in which the limits
// of acceleration and jerk are 1, or without a limit of jerk those of speed and
// acceleration.
//
// A change of speed by x takes 2 sqrt(x) if x <= 1, else x + 1. Let x be how
// far the peak is above the higher end speed, e the time beyond T*, and K what
// the hop gains over the higher end speed, so that the distance beyond D* is
//
//	E(e) = high e + K(e).
//
// With u = sqrt(gap), at most 1, c = (1-u)^2, k = u^2 c, r = sqrt(x):
//
//	peak up to 1 above the lower end:  with h = e/2, r = h (2u+h)/(2(u+h)),
//	    K = h^2 (h + u (2u+3h)/(u+h))/4
//	peak up to 1 above the higher end: e = 2r + r^2 + c, K = r^3 + (r^4 + r^2 - k)/2
//	peak higher still:                 e = 2x + 1 + c,   K = x^2 + x - k/2
//	peak at the limit, held:           E grows by the limit each second
//
// Every term is above 0, so nothing cancels, and K' rises throughout: E is
// convex, and where it is above 0 it has one root.
type hop struct {
	time, speed float64 // units, in s and in the leg's own
	per         float64 // 1/speed
	high        float64 // the higher end speed
	gap         float64 // between the end speeds
	top         float64 // speed limit
	soft        float64 // 1, or 0 without a limit of jerk
	u, c, k     float64
	e1, e2, ev  float64 // e where the peak is 1 above the lower end, 1 above the higher, and at the limit
	gainV       float64 // E at ev
}

// set makes h the hop upwards.
func (h *hop) set(l *Leg) {
	h.time = l.Acc / l.Jerk
	h.speed = l.Acc * h.time
	h.soft = 1
	switch {
	case h.time == 0:
		h.time, h.speed, h.soft = l.Speed/l.Acc, l.Speed, 0
	case h.speed > 2*l.Speed:
		// No change of speed is greater than twice the limit, so the
		// acceleration limit is never reached.
		h.time, h.speed = math.Sqrt(2*l.Speed/l.Jerk), 2*l.Speed
	}
	h.per = 1 / h.speed
	high, low := max(l.Start, l.End), min(l.Start, l.End)
	h.high = high * h.per
	h.gap = (high - low) * h.per
	h.top = l.Speed * h.per
	h.breaks((l.Speed - high) * h.per)
}

// breaks sets what depends on the units alone; room is what is left from the
// higher end speed to the limit.
func (h *hop) breaks(room float64) {
	if h.soft == 0 {
		h.ev = 2 * room
		h.gainV = h.high*h.ev + room*room
		return
	}
	switch {
	case h.gap == 0:
		h.c, h.e1 = 1, 4
	case h.gap >= 1:
		h.u = 1
	default:
		h.u = math.Sqrt(h.gap)
		h.c = (1 - h.u) * (1 - h.u)
		h.k = h.gap * h.c
		h.e1 = 2 * (math.Sqrt((1-h.u)*(1+h.u)) + 1 - h.u)
	}
	h.e2 = 3 + h.c
	h.ev = h.excess(room)
	h.gainV = h.high*h.ev + h.peak(h.ev).gain
}

// excess returns e of the hop that is x above the higher end speed.
func (h *hop) excess(x float64) float64 {
	switch {
	case x == 0:
		return 0
	case x >= 1:
		return 2*x + 1 + h.c
	case x+h.gap >= 1:
		return 2*math.Sqrt(x) + x + h.c
	}
	r := math.Sqrt(x)
	if h.gap == 0 {
		return 4 * r
	}
	return 2 * (r + x/(math.Sqrt(x+h.gap)+h.u))
}

// peak is a hop below the limit of speed, as its duration makes it.
type peak struct {
	near, far float64 // rise times from the higher and the lower end speed
	x         float64 // above the higher end speed
	gain      float64 // K
	slope     float64 // dK/de
}

// peak returns the hop that takes e, at most ev.
func (h *hop) peak(e float64) peak {
	switch {
	case e >= h.e2:
		x := (e - h.soft - h.c) / 2
		return peak{near: h.soft, far: h.soft, x: x, gain: x*(x+h.soft) - h.k/2, slope: x + h.soft/2}
	case e >= h.e1:
		e -= h.c
		r := e / (1 + math.Sqrt(1+e))
		x := r * r
		return peak{near: r, far: 1, x: x, gain: x*(x+2*r+1)/2 - h.k/2, slope: r * (r + 0.5)}
	}
	u, half := h.u, e/2
	switch {
	case u == 0:
		r := half / 2
		x := r * r
		return peak{near: r, far: r, x: x, gain: 2 * x * r, slope: 1.5 * x}
	case half == 0:
		return peak{far: u}
	}
	p := u + half
	inv := 1 / p
	near := half * (u + p) * inv / 2
	return peak{
		near: near, far: (p + u*u*inv) / 2, x: near * near,
		gain:  half * half * (half + u*(2*u+3*half)*inv) / 4,
		slope: near * (3*p - u*u*inv) / 4,
	}
}

// distance returns E at e.
func (h *hop) distance(e float64) float64 {
	if e > h.ev {
		return h.gainV + h.top*(e-h.ev)
	}
	return h.high*e + h.peak(e).gain
}
