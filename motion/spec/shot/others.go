package shot

import (
	"fmt"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// others reads what else would do: capture rates and lengths of the loop.
// Nobody asks for them but a shot with a stand.
func (raw RawClock) others(report *source.Report, t timing, s *Shot) {
	s.Offers = raw.offers(report)
	loop := t.Loop.OnScreen()
	s.Shortest, s.Longest = loop.Mul(half), loop.Add(loop)
	switch {
	case raw.Between.Set:
		raw.between(report, t, s)
	case t.Known && len(s.Spins) > 0:
		report.Default("clock.between", fmt.Sprintf("%s s to %s s", s.Shortest.Decimal(3), s.Longest.Decimal(3)),
			"half the loop to twice the loop, to look among for loops that close")
	}
}

// offers reads the other capture rates of the camera.
func (raw RawClock) offers(report *source.Report) []exact.Rat {
	var out []exact.Rat
	for i, t := range raw.Offers.Items {
		if r, ok := readRate(report, t, fmt.Sprintf("clock.offers[%d]", i+1), exact.Rat{}); ok && t.Set {
			out = append(out, r)
		}
	}
	return out
}

func (raw RawClock) between(report *source.Report, t timing, s *Shot) {
	const path = "clock.between"
	b := raw.Between
	if b.Single || len(b.Items) != 2 {
		report.Add(b.Place(), path, "", "must have two ends", `such as ["4 s", "12 s"]`)
		return
	}
	low, ok := t.screen(report, b.Items[0], path+"[1]")
	high, ok2 := t.screen(report, b.Items[1], path+"[2]")
	switch {
	case !ok || !ok2:
	case !low.Less(high):
		report.Wrong(b.Items[1], path+"[2]", "must be above the first end, "+low.Decimal(3)+" s", "an empty range holds no loop")
	default:
		s.Shortest, s.Longest = low, high
	}
}

// screen reads a time on screen above 0, of at most so many frames as a loop
// may have, in seconds.
func (t timing) screen(report *source.Report, text source.Text, path string) (exact.Rat, bool) {
	if !text.Set {
		return exact.Rat{}, false
	}
	q, ok := report.Quantity(text, path, unit.Time, unit.Frames)
	if !ok {
		return exact.Rat{}, false
	}
	sec := q.Value
	if q.Dim == unit.Frames {
		sec = sec.Quo(t.Clock.Playback)
	}
	if sec.Sign() <= 0 || exact.Int(clock.MaxFrames).Less(sec.Mul(t.Clock.Playback)) {
		report.Wrong(text, path, fmt.Sprintf("must be above 0 s and at most %d frames", clock.MaxFrames), "")
		return exact.Rat{}, false
	}
	return sec, true
}
