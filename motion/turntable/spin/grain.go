package spin

import (
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

// grain counts the loops of a clock that are whole in captured and in timeline
// frames: loop i has i*captured of the one and i*per of the other.
type grain struct {
	clock         clock.Clock
	captured, per int64 // per is 0 where no loop has an exact seam
	playback      float64
}

func grainOf(c clock.Clock) grain {
	r := c.PerScreen()
	num, den := r.Num(), r.Den()
	if !num.IsInt64() || !den.IsInt64() || num.Int64() > clock.MaxFrames || den.Int64() > clock.MaxFrames {
		return grain{clock: c}
	}
	return grain{c, num.Int64(), den.Int64(), c.Playback.Float()}
}

// limit is the last loop that is not too long.
func (g grain) limit() int64 { return clock.MaxFrames / max(g.captured, g.per) }

// screen returns how long loop i lasts on screen, in seconds.
func (g grain) screen(i int64) exact.Rat { return exact.Int(i * g.per).Quo(g.clock.Playback) }

// seconds is screen as a float, for sifting.
func (g grain) seconds(i int64) float64 { return float64(i*g.per) / g.playback }

// real returns how long loop i lasts while it is filmed, in seconds.
func (g grain) real(i int64) exact.Rat { return g.clock.FrameTime(i * g.captured) }

// span returns the first and last loop that last from..to seconds on screen.
// A span beyond the limit is not told apart from one that ends just after it.
func (g grain) span(from, to exact.Rat) (lo, hi int64) {
	if g.per == 0 {
		return 1, 0
	}
	one := g.screen(1)
	end := exact.Int(g.limit() + 1)
	first, last := from.Quo(one).Ceil(), to.Quo(one).Floor()
	return max(1, least(first, end).Whole()), least(last, end).Whole()
}

func least(a, b exact.Rat) exact.Rat {
	if b.Less(a) {
		return b
	}
	return a
}

// loop returns loop i. It panics if i is not within 1..limit.
func (g grain) loop(i int64) clock.Loop {
	l, err := g.clock.LoopFrames(i * g.per)
	if err != nil {
		panic("spin: " + err.Error())
	}
	return l
}
