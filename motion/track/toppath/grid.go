package toppath

import (
	"math"

	"seamrail/motion/track"
)

// share is what the path asks of one axis, as shares of its limits:
//
//	speed |vel v| <= 1, acceleration |bend v^2 + push dv/dt| <= 1
//
// and |wrench v^3| <= 1 for the part of jerk that is there at an even pace.
type share struct{ vel, bend, push, wrench float64 }

// grid is a path sampled at n+1 nodes.
type grid struct {
	h      float64 // the path's own seconds in a cell
	n      int     // cells
	axes   int
	shares []share   // node by node, axis by axis
	bound  []float64 // greatest v^2 at each node that one node tells
	still  []bool    // whether every axis rests there
	closed bool
}

// stillShare is the share of its greatest value along the path below which a
// derivative counts as nothing. A hold of a track is exactly still.
const stillShare = 1e-9

func newGrid(p Path, limits []Limit, n int) (*grid, error) {
	g := &grid{h: p.Length() / float64(n), n: n, axes: len(limits), closed: p.Closed()}
	g.shares = make([]share, 0, (n+1)*g.axes)
	at := make([]track.State, g.axes)
	for i := range n + 1 {
		p.At(float64(i)*g.h, at)
		for k, l := range limits {
			s := share{vel: at[k].Vel / l.Speed, bend: at[k].Acc / l.Acc, push: at[k].Vel / l.Acc}
			s.wrench = at[k].Jerk / l.jerk()
			if sum := s.vel + s.bend + s.push; math.IsNaN(sum - sum) {
				return nil, ErrPath
			}
			g.shares = append(g.shares, s)
		}
	}
	g.bounds()
	return g, nil
}

func (g *grid) node(i int) []share { return g.shares[i*g.axes : (i+1)*g.axes] }

// bounds sets the greatest v^2 of each node. Where every axis rests v is at most
// 1: a hold lasts no less than in the path's own seconds. An open path rests at
// its ends.
func (g *grid) bounds() {
	var vel, bend float64
	for _, s := range g.shares {
		vel, bend = max(vel, math.Abs(s.vel)), max(bend, math.Abs(s.bend))
	}
	g.bound, g.still = make([]float64, g.n+1), make([]bool, g.n+1)
	for i := range g.bound {
		z, still := math.Inf(1), true
		for _, s := range g.node(i) {
			still = still && math.Abs(s.vel) <= stillShare*vel && math.Abs(s.bend) <= stillShare*bend
			z = min(z, 1/(s.vel*s.vel))
			if s.push == 0 {
				z = min(z, 1/math.Abs(s.bend))
			}
		}
		if g.bound[i], g.still[i] = z, still; still {
			g.bound[i] = 1
		}
	}
	if !g.closed {
		g.bound[0], g.bound[g.n] = 0, 0
	}
}

// tighten lowers the bounds to loose times what jerk allows at an even pace, and
// those of a hold to those beside it, so that a path much slowed does not leap
// through it.
func (g *grid) tighten(loose float64) {
	for i := range g.bound {
		for _, s := range g.node(i) {
			even := math.Cbrt(1 / math.Abs(s.wrench))
			g.bound[i] = min(g.bound[i], loose*even*even)
		}
	}
	for range 2 { // a hold may run through the seam
		for i := 1; i <= g.n; i++ {
			g.hold(i-1, i)
		}
		for i := g.n; i > 0; i-- {
			g.hold(i, i-1)
		}
		if g.closed {
			g.hold(0, g.n)
			g.hold(g.n, 0)
		}
	}
}

// hold bounds a node at which all rest by its neighbour.
func (g *grid) hold(from, to int) {
	if g.still[to] {
		g.bound[to] = min(g.bound[to], g.bound[from])
	}
}
