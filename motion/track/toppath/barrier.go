package toppath

import (
	"math"

	"seamrail/motion/track"
)

// barrier looks for the pace of least time directly, jerk and all. With z the pace's
// square as a function of s, speed is q' z^1/2, acceleration q” z + q' z'/2 and jerk
// z^1/2 (q”' z + 3/2 q” z' + q' z”/2). z is a quadratic B-spline; limits are held at
// both ends and in the middle of each cell. Time plus a logarithmic barrier of what is
// left of each limit is made least by Newton's steps, ever steeper (interior point
// method: S. Boyd and L. Vandenberghe, Convex Optimization, Cambridge 2004, 11.3,
// DOI 10.1017/CBO9780511804441). Jerk is not convex in z, so that what is found is the
// least nearby, not proven to be of all.
type barrier struct {
	n      int
	h      float64 // of the path in a cell
	points []point
	steep  float64 // what a second counts as, in barriers
	hess   *band
	grad   []float64
	count  int  // limits
	moves  bool // anything, anywhere
}

// point is a place of a cell at which limits are held: what z, z' and z” are of the
// control points of the cell before, its own and the next, and what each axis asks.
type point struct {
	cell   int
	weight float64 // s of the path for which it stands in the time
	z, dz  [3]float64
	still  bool
	asks   []ask
}

// ask is what one axis asks, as shares of its limits.
type ask struct {
	vel, bend, push  float64
	jerk             bool
	jolt, sway, kick float64 // of jerk: q''', 3/2 q'', q'/2
}

// places are where limits are held in a cell, and their weights in Simpson's rule.
// Ends are held just inside: the path's own jerk may jump there.
var places = [3][2]float64{{inside, 1. / 6}, {0.5, 4. / 6}, {1 - inside, 1. / 6}}

const inside = 1e-9

func newBarrier(p Path, limits []Limit, n int) *barrier {
	b := &barrier{n: n, h: p.Length() / float64(n), hess: newBand(n), grad: make([]float64, n)}
	at := make([]track.State, len(limits))
	var vel, bend float64
	for i := range n {
		for _, place := range places {
			u := place[0]
			p.At((float64(i)+u)*b.h, at)
			x := point{cell: i, weight: place[1] * b.h,
				z:  [3]float64{(1 - u) * (1 - u) / 2, (1 + 2*u - 2*u*u) / 2, u * u / 2},
				dz: [3]float64{-(1 - u) / b.h, (1 - 2*u) / b.h, u / b.h}}
			for k, l := range limits {
				a := ask{vel: at[k].Vel / l.Speed, bend: at[k].Acc / l.Acc, push: at[k].Vel / l.Acc / 2, jerk: l.Jerk > 0}
				if a.jerk {
					a.jolt, a.sway, a.kick = at[k].Jerk/l.Jerk, 1.5*at[k].Acc/l.Jerk, at[k].Vel/l.Jerk/2
				}
				vel, bend = max(vel, math.Abs(a.vel)), max(bend, math.Abs(a.bend))
				x.asks = append(x.asks, a)
			}
			b.points = append(b.points, x)
		}
	}
	for i := range b.points {
		x := &b.points[i]
		x.still = true
		for _, a := range x.asks {
			x.still = x.still && math.Abs(a.vel) <= stillShare*vel && math.Abs(a.bend) <= stillShare*bend
			b.count += 3
			if a.jerk {
				b.count += 2
			}
		}
		b.moves = b.moves || !x.still
	}
	return b
}

// start is a pace that is even and well within every limit.
func (b *barrier) start() []float64 {
	const well = 0.3
	z := math.Inf(1)
	for i := range b.points {
		x := &b.points[i]
		if x.still {
			z = min(z, 1)
		}
		for _, a := range x.asks {
			z = min(z, 1/(a.vel*a.vel), 1/math.Abs(a.bend), math.Pow(math.Abs(a.jolt), -2./3))
		}
	}
	c := make([]float64, b.n)
	for i := range c {
		c[i] = well * z
	}
	return c
}

const (
	// steeper is by how much the barrier gets steeper at a time, gap the share of the
	// time at which it ends, and newtons bounds the steps for each.
	steeper = 8
	gap     = 3e-4
	newtons = 25
	// settledStep is the decrement at which a barrier counts as solved.
	settledStep = 0.05
)

// least returns the control points of the least time near an even pace, or nil where
// none is within all limits.
func (b *barrier) least() []float64 {
	c := b.start()
	value, sec := b.value(c)
	if math.IsInf(value, 0) || math.IsNaN(value) {
		return nil
	}
	for b.steep = float64(b.count) / sec; ; b.steep *= steeper {
		for range newtons {
			if b.step(c) < settledStep {
				break
			}
		}
		_, sec = b.value(c)
		if float64(b.count)/b.steep < gap*sec {
			return c
		}
	}
}

// step makes one Newton's step and returns its decrement.
func (b *barrier) step(c []float64) float64 {
	b.slopes(c)
	dir := make([]float64, b.n)
	for i, g := range b.grad {
		dir[i] = -g
	}
	if !b.hess.solve(dir) {
		return 0
	}
	fall := 0.0
	for i, g := range b.grad {
		fall -= g * dir[i]
	}
	before, _ := b.value(c)
	next := make([]float64, b.n)
	for share := 1.; share > 1e-8; share /= 2 {
		for i := range c {
			next[i] = c[i] + share*dir[i]
		}
		if after, _ := b.value(next); after <= before-share*fall/10 {
			copy(c, next)
			return fall
		}
	}
	return 0
}

// near are the control points that a point sees.
func (b *barrier) near(x *point) [3]int {
	return [3]int{(x.cell + b.n - 1) % b.n, x.cell, (x.cell + 1) % b.n}
}

// square is z, z' and z” at a point.
func (b *barrier) square(x *point, at [3]int, c []float64) (z, dz, ddz float64) {
	for k, i := range at {
		z += x.z[k] * c[i]
		dz += x.dz[k] * c[i]
	}
	return z, dz, (c[at[0]] - 2*c[at[1]] + c[at[2]]) / (b.h * b.h)
}

// value is time in steepness plus the barrier, +Inf beyond a limit, and the time.
func (b *barrier) value(c []float64) (value, sec float64) {
	for i := range b.points {
		x := &b.points[i]
		z, dz, ddz := b.square(x, b.near(x), c)
		if !(z > 0) || x.still && z >= 1 {
			return math.Inf(1), 0
		}
		root := math.Sqrt(z)
		sec += x.weight / root
		left := 1.
		if x.still {
			left = 1 - z
		}
		for k := range x.asks {
			a := &x.asks[k]
			acc := a.bend*z + a.push*dz
			jerk := 0.
			if a.jerk {
				jerk = root * (a.jolt*z + a.sway*dz + a.kick*ddz)
			}
			s, t, u := 1-a.vel*a.vel*z, 1-acc*acc, 1-jerk*jerk
			if !(s > 0 && t > 0 && u > 0) {
				return math.Inf(1), 0
			}
			left *= s * t * u
		}
		value -= math.Log(left)
	}
	return value + b.steep*sec, sec
}

// slopes sets gradient and curvature. Of the barrier of a limit only the part with the
// squares of its slopes is taken (Gauss and Newton), which is never below nothing.
func (b *barrier) slopes(c []float64) {
	clear(b.grad)
	b.hess.clear()
	for i := range b.points {
		x := &b.points[i]
		at := b.near(x)
		z, dz, ddz := b.square(x, at, c)
		root := math.Sqrt(z)
		b.curve(x, at, -b.steep*x.weight/(2*z*root), 0, 0, 3*root/(b.steep*x.weight)) // of z^-1/2
		if x.still {
			b.limit(x, at, 1-z, 1, 0, 0)
		}
		for k := range x.asks {
			a := &x.asks[k]
			b.limit(x, at, 1-a.vel*a.vel*z, a.vel*a.vel, 0, 0)
			acc := a.bend*z + a.push*dz
			b.limit(x, at, 1-acc, a.bend, a.push, 0)
			b.limit(x, at, 1+acc, -a.bend, -a.push, 0)
			if a.jerk {
				sum := a.jolt*z + a.sway*dz + a.kick*ddz
				jerk, by := root*sum, sum/(2*root)+root*a.jolt
				b.limit(x, at, 1-jerk, by, root*a.sway, root*a.kick)
				b.limit(x, at, 1+jerk, -by, -root*a.sway, -root*a.kick)
			}
		}
	}
}

// limit adds -log(left), left falling by so much for each of z, z' and z”.
func (b *barrier) limit(x *point, at [3]int, left, z, dz, ddz float64) {
	b.curve(x, at, z/left, dz/left, ddz/left, 1)
}

// curve adds a slope by z, z' and z”, and its square times so much of curvature.
func (b *barrier) curve(x *point, at [3]int, z, dz, ddz, curvature float64) {
	second := [3]float64{1, -2, 1}
	var g [3]float64
	for k := range g {
		g[k] = z*x.z[k] + dz*x.dz[k] + ddz*second[k]/(b.h*b.h)
		b.grad[at[k]] += g[k]
	}
	for k := range g {
		for m := range k + 1 {
			b.hess.add(at[k], at[m], curvature*g[k]*g[m])
		}
	}
}
