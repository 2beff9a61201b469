package clock

import (
	"fmt"

	"seamrail/motion/base/exact"
)

// Clock relates what the camera captures to what the timeline shows. Capture
// and Playback are frames a second, Retime is picture speed over real speed:
// below 1 is slow motion. Make one with New.
type Clock struct{ Capture, Playback, Retime exact.Rat }

// maxRetime bounds the retime and its inverse; it is the bound of the rates,
// whose quotient it usually is.
var maxRetime = exact.Int(1_000_000)

// New returns a clock. A retime of 0 means that every captured frame is shown
// once: playback/capture. It returns an error if a rate is not above 0 and
// within 1/1000000..1000000, or the retime is not above 0 and within the same.
func New(capture, playback, retime exact.Rat) (Clock, error) {
	if err := checkRate("capture rate", capture); err != nil {
		return Clock{}, err
	}
	if err := checkRate("playback rate", playback); err != nil {
		return Clock{}, err
	}
	if retime.Sign() == 0 {
		retime = playback.Quo(capture)
	}
	if retime.Sign() < 0 || maxRetime.Less(retime) || retime.Less(maxRetime.Inv()) {
		return Clock{}, fmt.Errorf("retime %s must be above 0, at least 1/1000000 and at most 1000000; "+
			"%s shows every captured frame once", retime, playback.Quo(capture))
	}
	return Clock{Capture: capture, Playback: playback, Retime: retime}, nil
}

// PerScreen returns how many captured frames one timeline frame uses:
// Retime*Capture/Playback.
func (c Clock) PerScreen() exact.Rat { return c.Retime.Mul(c.Capture).Quo(c.Playback) }

// Stills returns the clock of stills that are exposed one by one, as edit programs take them:
// files that follow each other at the rate of the timeline.
func (c Clock) Stills() Clock { return Clock{c.Playback, c.Playback, exact.Int(1)} }

// FrameTime returns when captured frame k begins, in real seconds from captured
// frame 0: k/Capture, never a sum. Any k will do.
func (c Clock) FrameTime(k int64) exact.Rat { return exact.Int(k).Quo(c.Capture) }

// ScreenTime returns when captured frame k, whole or not, comes on screen, in
// seconds of the timeline from captured frame 0: k/(Retime*Capture).
func (c Clock) ScreenTime(k exact.Rat) exact.Rat { return k.Quo(c.Retime.Mul(c.Capture)) }
