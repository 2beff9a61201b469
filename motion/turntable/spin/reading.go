package spin

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
)

// Reaction is the standard uncertainty of one press of a stopwatch that is taken
// unless another is stated: a tenth of a second, common practice for a button
// pressed by eye. What all presses are late by alike cancels.
var Reaction = exact.New(1, 10)

// Reading is one timing of a stand.
type Reading struct {
	Text     string
	Turns    exact.Rat
	Seconds  exact.Rat
	Variance exact.Rat // of Seconds, s^2; what is assumed, not what is seen
	Picture  bool      // counted in captured frames
}

// Assume is what readings are taken to be made with.
type Assume struct {
	Reaction exact.Rat // standard uncertainty of each press, s; 0 means Reaction
	Capture  exact.Rat // frames a second of the camera; 0 where there is none
}

// ParseReading reads "20 turns in 412.3 s", "3 turns in 7339 frames", or "2446
// frames" and "20.4 s", which are one turn. Frames are captured frames.
//
// A stopwatch is pressed twice, so the variance is twice the square of a press.
// Of frames, each end is the frame nearest to the instant at which the mark
// passes its place; the two are off by up to half a frame each, evenly spread, so
// their difference is spread like a triangle of half width one frame, whose
// variance is 1/6 of a frame squared (JCGM 100, 4.3.9).
func ParseReading(text string, a Assume) (Reading, error) {
	turns, amount, many := strings.Cut(text, " in ")
	n := unit.Quantity{Value: exact.Int(1), Dim: unit.Turns}
	if many {
		q, err := unit.ParseAs(turns, unit.Turns)
		if err != nil {
			return Reading{}, err
		}
		n = q
	} else {
		amount = text
	}
	if !strings.ContainsAny(amount, "0123456789") {
		return Reading{}, fmt.Errorf("%q is no reading; write it like \"20 turns in 412.3 s\" or \"2446 frames\"", clip(text))
	}
	q, err := unit.ParseAs(amount, unit.Time, unit.Frames)
	if err != nil {
		return Reading{}, fmt.Errorf("%w; write it like \"20 turns in 412.3 s\" or \"2446 frames\"", err)
	}
	if n.Value.Sign() <= 0 || q.Value.Sign() <= 0 {
		return Reading{}, fmt.Errorf("%q must be of more than 0 turns and take more than 0 %s", clip(text), q.Dim.Unit())
	}
	return reading(clip(text), n.Value, q, a)
}

func reading(text string, turns exact.Rat, q unit.Quantity, a Assume) (Reading, error) {
	out := Reading{Text: text, Turns: turns, Seconds: q.Value}
	if q.Dim == unit.Frames {
		if a.Capture.Sign() <= 0 {
			return Reading{}, fmt.Errorf("%q counts frames, and no capture rate says how long one is", text)
		}
		out.Picture = true
		out.Seconds = q.Value.Quo(a.Capture)
		out.Variance = exact.New(1, 6).Quo(a.Capture.Mul(a.Capture))
		return out, nil
	}
	press := a.Reaction
	if press.Sign() == 0 {
		press = Reaction
	}
	out.Variance = press.Mul(press).Mul(exact.Int(2))
	return out, nil
}
