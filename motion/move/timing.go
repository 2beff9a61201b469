package move

import (
	"fmt"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/music"
)

// Timing turns what a shot file says of time into real seconds. Where the clock
// itself is at fault a stand-in keeps the rest readable, and Known is false: then
// nothing that depends on the loop is checked.
type Timing struct {
	Clock clock.Clock
	Loop  clock.Loop
	Known bool
	Music *music.Score // what times may be named by; nil for nothing
}

// At reads a moment of the loop as real seconds: a time on screen, of 0 or more, or one
// that the music names, on the whole frame that is nearest to it.
func (t Timing) At(report *source.Report, text source.Text, path string) (exact.Rat, bool) {
	if t.Music == nil || !music.Named(text.Text) {
		return t.Real(report, text, path)
	}
	spot, ok := t.Music.Place(report, text, path)
	if !ok {
		report.Unsound()
		return exact.Rat{}, false
	}
	if t.Known && spot.Frame >= t.Loop.Screen {
		report.Wrong(text, path, fmt.Sprintf("is at %s s, frame %d, and the loop has %d frames", spot.At.Decimal(3), spot.Frame, t.Loop.Screen), "name an earlier one, or make the loop longer")
		return exact.Rat{}, false
	}
	t.Music.Spots = append(t.Music.Spots, spot)
	return exact.Int(spot.Frame).Quo(t.Clock.Playback).Mul(t.Clock.Retime), true
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
