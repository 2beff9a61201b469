package clock

import (
	"fmt"

	"seamrail/motion/base/exact"
)

// MaxFrames is the greatest number of frames, captured or on the timeline, that
// a loop may have: more than a day at 100 a second, and a bound on memory.
const MaxFrames = 10_000_000

// maxChange is how far rounding may change a loop, as a share of what was
// asked, when it is also more than half a frame: beyond a tenth it is another
// loop, and the retime is what needs changing.
var maxChange = exact.New(1, 10)

// Loop is a whole number of timeline frames that is also a whole number of
// captured frames, so that its seam is exact.
type Loop struct {
	Clock    Clock
	Screen   int64  // timeline frames, at least 1
	Captured int64  // captured frames, at least 1; frame Captured is frame 0 of the next round
	Asked    string // what was asked: "6 s" or "144 frames"
	Rounded  bool   // Screen is the nearest to what was asked, not exactly it
}

// Real returns how long a loop lasts while it is filmed, in seconds.
func (l Loop) Real() exact.Rat { return l.Clock.FrameTime(l.Captured) }

// OnScreen returns how long a loop lasts when it is played, in seconds.
func (l Loop) OnScreen() exact.Rat { return exact.Int(l.Screen).Quo(l.Clock.Playback) }

// LoopFrames returns the loop of n timeline frames. It returns an error if n is
// not within 1..MaxFrames, or n does not use a whole number of captured frames;
// the error names the nearest counts and retimes that do.
func (c Clock) LoopFrames(n int64) (Loop, error) {
	asked := c.count(exact.Int(n))
	if n < 1 || n > MaxFrames {
		return Loop{}, fmt.Errorf("loop of %s must have 1 to %d frames", asked, MaxFrames)
	}
	captured := exact.Int(n).Mul(c.PerScreen())
	if !captured.IsInt() {
		return Loop{}, fmt.Errorf("loop of %s uses %s captured frames, and an exact seam needs a whole number; %s",
			asked, fraction(captured), c.fits(exact.Int(n), Clock.count))
	}
	return c.loop(n, asked, false)
}

// LoopSeconds returns the loop nearest to s seconds on screen. Asked holds what
// was asked. It returns an error, naming the neighbours that are whole, if s is
// not above 0, if rounding is forbidden and s is not whole in both timeline and
// captured frames, or if rounding would change s by more than a tenth and by
// more than half a frame.
func (c Clock) LoopSeconds(s exact.Rat, forbidRounding bool) (Loop, error) {
	asked := seconds(s) + " s"
	wanted := s.Mul(c.Playback)
	if s.Sign() <= 0 || exact.Int(MaxFrames).Less(wanted) {
		return Loop{}, fmt.Errorf("loop of %s must be above 0 s and have at most %d frames, %s s",
			asked, MaxFrames, exact.Int(MaxFrames).Quo(c.Playback).Decimal(3))
	}
	n, ok := c.nearest(wanted)
	change := n.Sub(wanted).Abs()
	switch {
	case ok && change.Sign() == 0:
		return c.loop(n.Whole(), asked, false)
	case forbidRounding:
		return Loop{}, fmt.Errorf("loop of %s is %s timeline frames and %s captured frames, and rounding is forbidden; %s",
			asked, fraction(wanted), fraction(wanted.Mul(c.PerScreen())), c.fits(wanted, Clock.duration))
	case !ok || exact.New(1, 2).Less(change) && wanted.Mul(maxChange).Less(change):
		return Loop{}, fmt.Errorf("loop of %s would have to change by more than a tenth to have an exact seam; %s",
			asked, c.fits(wanted, Clock.duration))
	}
	return c.loop(n.Whole(), asked, true)
}

func (c Clock) loop(n int64, asked string, rounded bool) (Loop, error) {
	captured := exact.Int(n).Mul(c.PerScreen())
	if exact.Int(MaxFrames).Less(captured) {
		return Loop{}, fmt.Errorf("loop of %s uses %s captured frames; it must use at most %d",
			asked, captured, MaxFrames)
	}
	return Loop{Clock: c, Screen: n, Captured: captured.Whole(), Asked: asked, Rounded: rounded}, nil
}
