package vibration

import (
	"math"

	"seamrail/motion/vibration/spring"

	"gonum.org/v1/gonum/integrate/quad"
)

// nodes is how many points the quadrature of a panel has. Over a panel of one
// radian of swing eight leave 1e-17 of what they integrate; a panel is also no
// more than a quarter of a smooth stretch, in which no law makes more than a
// quarter of a wave.
const (
	nodes      = 8
	panelSwing = 1.0 // rad
	minPanels  = 4
)

// gauss is the rule of Gauss and Legendre over [0, 1] (M. Abramowitz and
// I. A. Stegun, Handbook of Mathematical Functions, Dover 1965, 25.4.29,
// ISBN 978-0-486-61272-0).
var gauss = func() (g [nodes]struct{ at, weight float64 }) {
	var x, w [nodes]float64
	quad.Legendre{}.FixedLocations(x[:], w[:], 0, 1)
	for i := range g {
		g[i].at, g[i].weight = x[i], w[i]
	}
	return g
}()

// stretch is a span of time over which the acceleration is smooth.
type stretch struct {
	from, to float64
	kick     float64                   // units/s, by which the foot's speed jumps as it begins
	acc      func(sec float64) float64 // units/s2
}

// panel is a short part of a stretch: what the foot does to the load in it.
type panel struct {
	from, length float64
	move         spring.Matrix
	push         spring.State // from rest at its start, what it ends in
	kick         float64
	acc          func(float64) float64
}

// pushed integrates the answer to the acceleration over sec seconds from a
// state of rest (Duhamel's integral: Inman, Engineering Vibration,
// section 3.2).
func pushed(s spring.Spring, acc func(float64) float64, from, sec float64) spring.State {
	var out spring.State
	for _, g := range gauss {
		push := s.Free(sec * (1 - g.at)).Times(spring.State{Vel: 1})
		a := sec * g.weight * acc(from+sec*g.at)
		out.Pos -= a * push.Pos
		out.Vel -= a * push.Vel
	}
	return out
}

// panels cuts stretches up.
func panels(s spring.Spring, all []stretch) []panel {
	var out []panel
	for _, st := range all {
		span := st.to - st.from
		n := max(minPanels, int(math.Ceil(span*s.Omega()/panelSwing)))
		h := span / float64(n)
		move := s.Free(h)
		for i := range n {
			p := panel{from: st.from + span*float64(i)/float64(n), length: h, move: move, acc: st.acc}
			if i == 0 {
				p.kick = st.kick
			}
			if p.acc != nil {
				p.push = pushed(s, p.acc, p.from, h)
			}
			out = append(out, p)
		}
	}
	return out
}

// begin is the state as the panel begins, given that just before it.
func (p *panel) begin(x spring.State) spring.State {
	return spring.State{Pos: x.Pos, Vel: x.Vel - p.kick}
}

// end is the state as the panel ends, given that just before it.
func (p *panel) end(x spring.State) spring.State { return p.move.Times(p.begin(x)).Plus(p.push) }

// run takes a state through all panels.
func run(panels []panel, x spring.State) spring.State {
	for i := range panels {
		x = panels[i].end(x)
	}
	return x
}
