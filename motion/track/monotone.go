package track

import (
	"fmt"
	"math"
)

// monotone chooses velocities and accelerations so that the axis turns only at
// knots and never passes them: position stays between neighbouring keys.
//
// Velocities begin as the weighted harmonic mean of the slopes on both sides
// (F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5(2):300-304, 1984,
// DOI 10.1137/0905021), and accelerations as the change of slope. Both are then
// reduced until every Bernstein coefficient of the velocity of every gap, with
// velocities v0, v1, accelerations a0, a1, length h and rise D,
//
//	v0, v0 + a0 h/4, 5 D/h - 2 (v0 + v1) - h (a0 - a1)/4, v1 - a1 h/4, v1,
//
// has the sign of D: a polynomial lies between its Bernstein coefficients
// (R. T. Farouki, Computer Aided Geometric Design 29:379-419, 2012,
// DOI 10.1016/j.cagd.2012.03.001).
func (r *keySpline) monotone() error {
	for i := range r.knots {
		if err := r.estimate(i); err != nil {
			return err
		}
	}
	reduce := make([]float64, len(r.knots))
	for i := range reduce {
		reduce[i] = 1
	}
	for i := range r.gaps {
		share, err := r.share(i)
		if err != nil {
			return err
		}
		j := r.next(i)
		reduce[i], reduce[j] = min(reduce[i], share), min(reduce[j], share)
	}
	for i := range r.knots {
		if k := &r.knots[i]; !k.fixVel {
			k.vel *= reduce[i]
			k.acc *= reduce[i]
		}
	}
	return nil
}

// estimate sets the first guess at knot i. Where the slopes on both sides
// differ in sign, or one is flat, the axis is at rest.
func (r *keySpline) estimate(i int) error {
	k := &r.knots[i]
	before, after := r.gaps[r.previous(i)], r.gaps[i]
	s0, s1 := before.rise/before.length, after.rise/after.length
	if k.fixVel {
		k.fixAcc = true
		return k.fits(s0, s1)
	}
	k.fixAcc = false
	if s0*s1 <= 0 {
		return nil
	}
	h0, h1 := before.length, after.length
	w0, w1 := h0+2*h1, 2*h0+h1
	k.vel = (w0 + w1) / (w0/s0 + w1/s1)
	limit := 4 * math.Abs(k.vel) / max(h0, h1)
	k.acc = min(max(2*(s1-s0)/(h0+h1), -limit), limit)
	return nil
}

// fits tells whether a stated speed goes the same way as both slopes.
func (k *knot) fits(s0, s1 float64) error {
	if k.vel == 0 || (sign(s0) == sign(k.vel) && sign(s1) == sign(k.vel)) {
		return nil
	}
	return fmt.Errorf("key %d: a speed of %g would carry the axis beyond its keys, which go at %g before and %g after on average; leave the speed out or let the curve be smooth",
		k.key, k.vel, s0, s1)
}

// share returns the factor in [0, 1] by which the free ends of gap i must be
// reduced to keep its middle Bernstein coefficient from changing sign.
func (r *keySpline) share(i int) (float64, error) {
	g, a, b := r.gaps[i], r.knots[i], r.knots[r.next(i)]
	h := g.length
	needA := math.Abs(0.4*a.vel*h + a.acc*h*h/20)
	needB := math.Abs(0.4*b.vel*h - b.acc*h*h/20)
	room, free := math.Abs(g.rise), 0.0
	for _, e := range []struct {
		need  float64
		fixed bool
	}{{needA, a.fixVel}, {needB, b.fixVel}} {
		if e.fixed {
			room -= e.need
		} else {
			free += e.need
		}
	}
	if room < 0 {
		return 0, fmt.Errorf("the stated speeds at key %d and after it are too fast for the %g between the keys; their sum must be at most %g",
			a.key, math.Abs(g.rise), 2.5*math.Abs(g.rise)/h)
	}
	if free <= room {
		return 1, nil
	}
	return room / free, nil
}
