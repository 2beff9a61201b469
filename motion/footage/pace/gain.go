package pace

import "math"

// model is what the change of the picture may depend on.
type model struct {
	order int  // terms of the gain beside the constant one
	round bool // the gain comes again with what a round gains, else it is of waves over the travel
	spins bool // something turns that the plan does not have: a term in the steps themselves
}

// orders are how many terms a gain may have. Sixteen are eight waves over what a round gains: what
// is finer, all that is seen of a product at a time averages out.
var orders = [...]int{0, 2, 4, 8, mostOrder}

const mostOrder = 16

// models are those that a plan may have, with no more unknowns than a number of frames carries.
func (t track) models(frames int) (out []model) {
	for _, n := range orders {
		for _, m := range []model{{order: n}, {order: n, spins: true}, {order: n, round: true}, {order: n, round: true, spins: true}} {
			if m.round && (n == 0 || math.Abs(t.moving[t.leading()].gained) < leastGained) {
				continue
			}
			if t.unknowns(m)*framesEach <= frames {
				out = append(out, m)
			}
		}
	}
	return out
}

const (
	// leastGained is the share of what an axis goes through in a round that it must gain by it for
	// the gain to come again.
	leastGained = 0.02
	// framesEach is how many moving frames an unknown wants: with fewer it follows chance.
	framesEach = 6
)

// leading is the axis whose position the gain depends on: one that turns, else the first.
func (t track) leading() int {
	for k, a := range t.moving {
		if a.turning {
			return k
		}
	}
	return 0
}

// unknowns are what a model has to fit.
func (t track) unknowns(m model) int {
	n := len(t.moving)
	out := 1 + n*(n+1)/2 + n + n*m.order
	if m.spins {
		out += n
	}
	return out
}

// terms are what the square of a change is a sum of, from a planned frame to another: 1, products
// of two steps, their fourth powers, as a picture moved far differs no more than two that have
// nothing in common, and squares of each step times the gain's terms.
func (t track) terms(m model, from, to float64, out []float64) []float64 {
	out = append(out[:0], 1)
	var room [8]float64
	steps := room[:0]
	for _, a := range t.moving {
		steps = append(steps, (t.at(a, to)-t.at(a, from))*unitSteps)
	}
	for i, s := range steps {
		for _, r := range steps[:i+1] {
			out = append(out, s*r)
		}
	}
	for _, s := range steps {
		out = append(out, s*s*s*s)
	}
	if m.spins {
		out = append(out, steps...)
	}
	if m.order == 0 {
		return out
	}
	a := t.moving[t.leading()]
	u := (t.at(a, to) + t.at(a, from)) / 2
	if m.round {
		u /= a.gained
	}
	var shapes [mostOrder]float64
	for _, g := range m.shapes(u, shapes[:0]) {
		for _, s := range steps {
			out = append(out, s*s*g)
		}
	}
	return out
}

// unitSteps makes steps of a hundredth of the travel count as 1, so that terms are of like size.
const unitSteps = 100

// wider is how much wider than the travel half a wave is that a gain is made of: a gain may then
// rise at its ends, and never faster there than elsewhere. What rises fast at an end would pass for
// another law.
const wider = 1.5

// shapes are the terms of a gain at a position: waves over what a round gains, or half waves over
// the travel, each from those before.
func (m model) shapes(u float64, out []float64) []float64 {
	if !m.round {
		x := math.Cos(math.Pi * ((u-0.5)/wider + 0.5))
		before, now := 1.0, x
		for range m.order {
			out = append(out, now)
			before, now = now, 2*x*now-before
		}
		return out
	}
	sin, cos := math.Sincos(2 * math.Pi * u)
	c, s := cos, sin
	for range m.order / 2 {
		out = append(out, c, s)
		c, s = c*cos-s*sin, s*cos+c*sin
	}
	return out
}
