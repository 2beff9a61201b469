package plan

import (
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

// nearby is how many timeline frames to either side Nearest looks: some minutes
// of any timeline. A loop further away is no neighbour.
const nearby = 5000

// Nearest returns the longest loop below the plan's own, and the shortest above
// it, in which every stand closes at the speed and the rates the shot has:
// none, one or both. It looks at each loop from Shortest to Longest, and at most
// nearby frames away.
func (p *Plan) Nearest() []clock.Loop { return p.NearestTo(p.Loop) }

// NearestTo is Nearest about another loop.
func (p *Plan) NearestTo(loop clock.Loop) []clock.Loop {
	var out []clock.Loop
	n := loop.Screen
	lo := max(p.frames(p.Shortest).Ceil().Whole(), n-nearby, 1)
	hi := min(p.frames(p.Longest).Floor().Whole(), n+nearby)
	sieves := p.sieves()
	look := func(from, step, count int64) {
		for i := range count {
			if l, ok := p.closing(from+i*step, sieves); ok {
				out = append(out, l)
				return
			}
		}
	}
	look(n-1, -1, max(0, n-lo))
	look(n+1, 1, max(0, hi-n))
	return out
}

// ClosesAt tells whether every stand would close in a loop, at its speed and
// with its bound.
func (p *Plan) ClosesAt(l clock.Loop) bool {
	for _, s := range p.Stands {
		if !s.Spin.Product(s.Rig.Stand).Seam(l, s.Speed).Closes() {
			return false
		}
	}
	return true
}

// closing returns the loop of n timeline frames if it is one and closes. Only
// what passes every sieve is worked out exactly.
func (p *Plan) closing(n int64, sieves []sieve) (clock.Loop, bool) {
	for _, s := range sieves {
		if !s.passes(n) {
			return clock.Loop{}, false
		}
	}
	l, err := p.Loop.Clock.LoopFrames(n)
	return l, err == nil && p.ClosesAt(l)
}

// sieve throws out loops that are surely no match.
type sieve struct {
	faces float64 // turned in a timeline frame
	bound float64 // faces
}

// sieveSlack, in faces, is added to a bound. A loop of ten million frames of a
// stand that turns by less than a face a frame has rounded by some 1e-9 of one.
const sieveSlack = 1e-8

func (s sieve) passes(n int64) bool {
	turned := float64(n) * s.faces
	return math.Abs(turned-math.Round(turned)) <= s.bound+sieveSlack*(1+s.faces)
}

func (p *Plan) sieves() []sieve {
	frame := p.Loop.Clock.Retime.Quo(p.Loop.Clock.Playback) // real s
	var out []sieve
	for _, s := range p.Stands {
		symmetry := exact.Int(s.Spin.Symmetry)
		out = append(out, sieve{
			faces: frame.Quo(s.Speed.Period).Mul(symmetry).Float(),
			bound: s.Seam.Bound.Mul(symmetry).Float(),
		})
	}
	return out
}

// frames returns how many timeline frames a time on screen is.
func (p *Plan) frames(screen exact.Rat) exact.Rat { return screen.Mul(p.Loop.Clock.Playback) }
