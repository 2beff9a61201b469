package stepwise

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// everyGrain is what a time from frame to frame is rounded up to, s.
var everyGrain = exact.New(1, 10)

// stepMore is what a move may take longer, s, where another time from frame to frame
// rounds a place to the next step.
const stepMore = 0.001

// Whole is the need, rounded up to what a time from frame to frame is told in.
func (n Need) Whole() exact.Rat {
	return exact.FromFloat(n.Seconds() + stepMore).Quo(everyGrain).Ceil().Mul(everyGrain)
}

// Timed returns a shot whose frames are as close upon each other as the one that needs most
// lets them be, where it is taken frame by frame and does not say how close; else the shot
// itself. perMM tells the pixels of the picture to a millimetre for a plan, 0 for not known.
func Timed(s shot.Shot, r rig.Rig, perMM func(shot.Shot, *plan.Plan) float64) (shot.Shot, error) {
	if s.ByFrame == nil || s.ByFrame.Asked {
		return s, nil
	}
	p, err := plan.Build(s, r)
	if err != nil {
		return s, err
	}
	most := New(p, perMM(s, p)).Needs
	text := most.Whole().Decimal(1) + " s"
	out, err := s.Changed(source.Override{Path: "frame-by-frame.every", Text: text, Origin: "what the frames need"})
	if err != nil {
		return s, err
	}
	out.Defaults = append(out.Defaults, shot.Default{Key: "frame-by-frame.every", Value: text,
		Why: fmt.Sprintf("frame %d needs most, %s", most.Frame, most)})
	return out, nil
}
