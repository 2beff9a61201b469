package toppath

import (
	"math"
	"sort"
)

// profile is s as a function of time, of constant acceleration in each cell.
type profile struct {
	knots  []knot
	length float64 // s from end to end
	closed bool
}

// knot is the start of a cell: time, s, its integral over time from 0, pace, and
// the pace's change a second within the cell.
type knot struct{ t, s, area, v, a float64 }

func newProfile(g *grid, z []float64) *profile {
	p := &profile{knots: make([]knot, g.n+1), length: g.h * float64(g.n), closed: g.closed}
	for i := range g.n {
		k := &p.knots[i]
		k.s, k.v, k.a = float64(i)*g.h, math.Sqrt(z[i]), (z[i+1]-z[i])/(2*g.h)
		dt := 2 * g.h / (k.v + math.Sqrt(z[i+1]))
		next := &p.knots[i+1]
		next.t = k.t + dt
		next.area = k.area + dt*(k.s+dt*(k.v/2+dt*k.a/6))
	}
	last := &p.knots[g.n]
	last.s, last.v = p.length, math.Sqrt(z[g.n])
	return p
}

func (p *profile) cells() int { return len(p.knots) - 1 }

func (p *profile) seconds() float64 { return p.knots[len(p.knots)-1].t }

// at returns the state at t as a knot. Before and after an open path all rest;
// a closed one goes on for ever.
func (p *profile) at(t float64) knot {
	last := p.knots[len(p.knots)-1]
	switch {
	case p.closed:
		n := math.Floor(t / last.t)
		k := p.within(t - n*last.t)
		// The integral of s over n rounds before this one, each higher by
		// its length.
		k.area += n*last.area + n*p.length*(t-n*last.t) + p.length*last.t*n*(n-1)/2
		k.s += n * p.length
		return k
	case t <= 0:
		return knot{}
	case t >= last.t:
		return knot{s: p.length, area: last.area + p.length*(t-last.t)}
	}
	return p.within(t)
}

func (p *profile) within(t float64) knot {
	i := sort.Search(len(p.knots), func(i int) bool { return p.knots[i].t > t })
	k := p.knots[min(max(i-1, 0), len(p.knots)-2)]
	t -= k.t
	return knot{
		s:    k.s + t*(k.v+t*k.a/2),
		area: k.area + t*(k.s+t*(k.v/2+t*k.a/6)),
		v:    k.v + t*k.a,
		a:    k.a,
	}
}

// mean returns s averaged over width seconds about t, with three derivatives.
func (p *profile) mean(t, width float64) PathState {
	a, b := p.at(t-width/2), p.at(t+width/2)
	return PathState{
		S:    (b.area - a.area) / width,
		Vel:  (b.s - a.s) / width,
		Acc:  (b.v - a.v) / width,
		Jerk: (b.a - a.a) / width,
	}
}
