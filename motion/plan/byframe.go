package plan

import (
	"fmt"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// releases are what keeps a shot that is taken frame by frame from the output of the rig
// that it names for the release.
func releases(s shot.Shot, r rig.Rig) fault.List {
	by := s.ByFrame
	switch {
	case by == nil || len(r.Axes) == 0:
		return nil
	case !r.Controller.Kind.Driven():
		return fault.List{{File: s.File, Line: by.Line, Quantity: "frame-by-frame",
			Bound: "is nothing for a rig whose ends and time are set by hand: it does not stop on its way", Fit: "leave the table out, or use a rig that is driven"}}
	case by.Output == "":
		return nil
	}
	f := fault.Fault{File: s.File, Line: by.Line, Quantity: "frame-by-frame.output", Value: fmt.Sprintf("%q", by.Output)}
	o, there := r.Output(by.Output)
	switch {
	case !there && len(r.Outputs) == 0:
		f.Bound = "is not on the rig, which states no outputs"
		f.Fit = fmt.Sprintf("[output.%s] in the rig's file says what switches it; or leave output out, and take the frames by hand", by.Output)
	case !there:
		f.Bound, f.Fit = "is not on the rig", "it has "+strings.Join(r.OutputNames(), ", ")
	case o.Faulty:
		return nil
	case o.Serves != rig.ServesShutter:
		f.Bound, f.Fit = "serves a "+o.Serves.String()+" and no shutter", `serves = "shutter" in the rig's file, where the release hangs on it`
	case by.Bulb && by.Exposure.Float() < o.Pulse:
		f.Quantity, f.Value = "frame-by-frame.exposure", by.Exposure.Decimal(3)+" s"
		f.Bound = fmt.Sprintf("must be at least the %.3f s for which the release has to be held", o.Pulse)
		f.Fit = `shutter = "camera" has the camera time it`
	default:
		return nil
	}
	return fault.List{f}
}
