package track

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

const (
	// pullShare is how strongly, as a share of the stiffness of the curve at a
	// knot, a key that may be passed near still pulls: enough to say which of
	// many equally smooth curves, and a millionth of the way elsewhere.
	pullShare = 1e-6
	// maxGuesses bounds the quick search: where it ends at all a few are enough.
	maxGuesses = 30
	// maxWalks is how many steps, for each key that may be passed near, the slow
	// search is given; it takes about two.
	maxWalks = 20
	// releaseSlack is the share of the pull at a bound below which it is rounding.
	releaseSlack = 1e-9
)

var errRestless = errors.New("no curve that passes the keys within what they allow could be settled on; allow less of some")

// relax is smooth with the keys that have a within moved by up to that, so that
// the integral of squared jerk is the least of all curves that pass them so. It
// is a quadratic programme with bounds. Where each key is, at a bound or not,
// is guessed first and mended from the solution, which is quick but may go in
// circles; then it is walked to, which cannot.
func (r *keySpline) relax() error {
	at := make([]float64, len(r.knots)) // the bound each knot is held at; NaN if let go
	count := 0
	for i, k := range r.knots {
		if k.within > 0 {
			at[i] = math.NaN()
			count++
		}
	}
	if count == 0 {
		return r.smooth()
	}
	if done, err := r.guess(at); done || err != nil {
		return err
	}
	return r.walk(at, maxWalks*count)
}

// guess mends a guess of the bounds that hold until it needs no mending: a key
// past its bound is held there, one that pulls away from its bound let go
// (M. Hintermueller, K. Ito and K. Kunisch, SIAM J. Optim. 13:865-888, 2002,
// DOI 10.1137/S1052623401383558). Then the conditions of Karush, Kuhn and
// Tucker hold, and the least is reached.
func (r *keySpline) guess(at []float64) (done bool, err error) {
	for range maxGuesses {
		r.hold(at)
		if err := r.smoothed(func(i int) bool { return math.IsNaN(at[i]) }); err != nil {
			return false, err
		}
		if !r.mend(at) {
			return true, nil
		}
	}
	return false, nil
}

func (r *keySpline) hold(at []float64) {
	for i := range at {
		if r.knots[i].within > 0 && !math.IsNaN(at[i]) {
			r.move(i, at[i])
		}
	}
}

// mend corrects the guess, and tells whether it had to.
func (r *keySpline) mend(at []float64) bool {
	slopes, stiff := r.slopes()
	changed := false
	for i := range r.knots {
		k := &r.knots[i]
		switch {
		case k.within == 0:
		case math.IsNaN(at[i]) && math.Abs(k.off) > k.within:
			at[i], changed = math.Copysign(k.within, k.off), true
		case !math.IsNaN(at[i]) && slopes[i]*at[i] > releaseSlack*stiff[i]*k.within*k.within:
			at[i], changed = math.NaN(), true
		}
	}
	return changed
}

// slopes returns by how much half the integral grows with the shift of each
// knot, and with its square.
func (r *keySpline) slopes() (slope, stiff []float64) {
	n := len(r.knots)
	slope, stiff = make([]float64, n), make([]float64, n)
	for i := range r.gaps {
		g, j := r.gaps[i], r.next(i)
		a, b, s := r.knots[i], r.knots[j], r.gaps[i].length
		weight, pull := 1/math.Pow(s, 5), 0.0
		for q, value := range [5]float64{g.rise, a.vel * s, a.acc * s * s, b.vel * s, b.acc * s * s} {
			pull += weight * jerkForm[0][q] * value
		}
		slope[i] -= pull
		slope[j] += pull
		stiff[i] += weight * jerkForm[0][0]
		stiff[j] += weight * jerkForm[0][0]
	}
	for i, k := range r.knots {
		slope[i] += pullShare * stiff[i] * k.off
	}
	return slope, stiff
}

// pull adds to the system what draws keys to their places.
func (r *keySpline) pull(at []unknown, h *mat.SymDense) {
	_, stiff := r.slopes()
	for i, u := range at {
		if u.off >= 0 {
			h.SetSym(u.off, u.off, h.At(u.off, u.off)+pullShare*stiff[i])
		}
	}
}

// move shifts knot i to off from its key.
func (r *keySpline) move(i int, off float64) {
	k := &r.knots[i]
	by := off - k.off
	before, after := &r.gaps[r.previous(i)], &r.gaps[i]
	k.off, k.pos = off, k.pos+by
	before.rise, before.goal = before.rise+by, before.goal+by
	after.rise -= by
}
