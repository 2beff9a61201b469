package move

import (
	"fmt"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// Timing turns what a shot file says of time into real seconds. Where the clock
// itself is at fault a stand-in keeps the rest readable, and Known is false: then
// nothing that depends on the loop is checked.
type Timing struct {
	Clock clock.Clock
	Loop  clock.Loop
	Known bool
}

// Real reads a time on screen, of 0 or more, as real seconds.
func (t Timing) Real(report *source.Report, text source.Text, path string) (exact.Rat, bool) {
	q, ok := report.Quantity(text, path, unit.Time, unit.Frames)
	if !ok {
		return exact.Rat{}, false
	}
	if q.Value.Sign() < 0 {
		report.Wrong(text, path, "must be 0 or more", fmt.Sprintf("%q would do", unit.Format(-q.Float(), q.Dim)))
		return exact.Rat{}, false
	}
	screen := q.Value
	if q.Dim == unit.Frames {
		screen = screen.Quo(t.Clock.Playback)
	}
	return screen.Mul(t.Clock.Retime), true
}

// Frames returns how many timeline frames a real time is.
func (t Timing) Frames(real exact.Rat) exact.Rat {
	return real.Quo(t.Clock.Retime).Mul(t.Clock.Playback)
}
