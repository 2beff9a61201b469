package clock

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
)

// step is the least count of timeline frames that uses a whole number of
// captured frames: the denominator of PerScreen. False means that it is above
// MaxFrames, so that no loop has an exact seam.
func (c Clock) step() (exact.Rat, bool) {
	den := c.PerScreen().Den()
	if !den.IsInt64() || den.Int64() > MaxFrames {
		return exact.Rat{}, false
	}
	return exact.Int(den.Int64()), true
}

// nearest returns the count of timeline frames with an exact seam nearest to
// wanted, and false where there is none.
func (c Clock) nearest(wanted exact.Rat) (exact.Rat, bool) {
	step, ok := c.step()
	if !ok {
		return exact.Rat{}, false
	}
	n := wanted.Quo(step).Round().Mul(step)
	switch {
	case n.Sign() == 0:
		return step, true
	case exact.Int(MaxFrames).Less(n):
		return n.Sub(step), true
	}
	return n, true
}

// fits names what would have an exact seam: the counts of timeline frames next
// to wanted, each printed by show, and the retimes next to the clock's own at
// which the nearest whole count has one.
func (c Clock) fits(wanted exact.Rat, show func(Clock, exact.Rat) string) string {
	var out []string
	if step, ok := c.step(); ok {
		q := wanted.Quo(step)
		out = c.show(out, q.Floor().Mul(step), show)
		if !q.IsInt() {
			out = c.show(out, q.Ceil().Mul(step), show)
		}
	}
	if whole := wanted.Round(); whole.Sign() > 0 && !whole.Mul(c.PerScreen()).IsInt() {
		out = append(out, c.wholeRetimes(whole))
	}
	last := len(out) - 1
	if last < 1 {
		return strings.Join(out, "") + " would do"
	}
	return strings.Join(out[:last], ", ") + " or " + out[last] + " would do"
}

func (c Clock) show(out []string, n exact.Rat, show func(Clock, exact.Rat) string) []string {
	if n.Sign() <= 0 || exact.Int(MaxFrames).Less(n) {
		return out
	}
	return append(out, show(c, n))
}

// wholeRetimes names the retimes around the clock's own at which n timeline
// frames use a whole number of captured frames.
func (c Clock) wholeRetimes(n exact.Rat) string {
	captured := n.Mul(c.PerScreen())
	retime := func(frames exact.Rat) exact.Rat {
		return frames.Mul(c.Playback).Quo(n.Mul(c.Capture))
	}
	low, high := retime(captured.Floor()), retime(captured.Ceil())
	if low.Sign() == 0 {
		return fmt.Sprintf("%s with a retime of %s", Clock.count(c, n), high)
	}
	return fmt.Sprintf("%s with a retime of %s or %s", Clock.count(c, n), low, high)
}

// count prints a whole number of timeline frames: "144 frames".
func (Clock) count(n exact.Rat) string {
	if n.Equal(exact.Int(1)) {
		return "1 frame"
	}
	return n.String() + " frames"
}

// duration prints a count with how long it lasts on screen:
// "144 frames (6.006 s)".
func (c Clock) duration(n exact.Rat) string {
	s := n.Quo(c.Playback)
	short := s.Decimal(secondPlaces)
	if back, err := exact.Parse(short); err == nil && back.Equal(s) {
		return fmt.Sprintf("%s (%s s)", c.count(n), short)
	}
	return fmt.Sprintf("%s (%s s, exactly %s)", c.count(n), short, s)
}

// secondPlaces prints seconds to the microsecond, below any frame's length.
const secondPlaces = 6

// seconds prints a time so that one above 0 never looks like 0.
func seconds(s exact.Rat) string {
	if text := s.Decimal(secondPlaces); text != "0" {
		return text
	}
	return s.String()
}

// fraction prints a count that is not whole so that it does not look whole.
func fraction(n exact.Rat) string {
	if s := n.Decimal(3); strings.Contains(s, ".") || n.IsInt() {
		return s
	}
	return n.String()
}
