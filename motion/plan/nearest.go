package plan

import (
	"seamrail/motion/clock"
	"seamrail/motion/exact"
)

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

// Nearest returns the longest loop below the plan's own, and the shortest above
// it, in which every stand closes at the speed and the rates the shot has:
// none, one or both. It looks at each loop from Shortest to Longest.
func (p *Plan) Nearest() []clock.Loop {
	var out []clock.Loop
	lo, hi := p.frames(p.Shortest).Ceil().Whole(), p.frames(p.Longest).Floor().Whole()
	for n := p.Loop.Screen - 1; n >= lo && len(out) == 0; n-- {
		out = p.closing(out, n)
	}
	for n, below := p.Loop.Screen+1, len(out); n <= hi && len(out) == below; n++ {
		out = p.closing(out, n)
	}
	return out
}

// closing adds the loop of n timeline frames if it is one and closes.
func (p *Plan) closing(out []clock.Loop, n int64) []clock.Loop {
	l, err := p.Loop.Clock.LoopFrames(n)
	if err != nil || !p.ClosesAt(l) {
		return out
	}
	return append(out, l)
}

// frames returns how many timeline frames a time on screen is.
func (p *Plan) frames(screen exact.Rat) exact.Rat { return screen.Mul(p.Loop.Clock.Playback) }
