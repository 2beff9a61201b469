package reach

import (
	"fmt"
	"seamrail/motion/base/fault"

	"seamrail/motion/move"

	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// byHandFits is what would do on a rig that is set and started by hand, whose law and times
// nobody chooses: the next slower way that its buttons offer.
func byHandFits(s shot.Shot, r rig.Rig, p *plan.Plan) []Fit {
	for _, o := range p.Slower() {
		f := Fit{Kind: "loop", Shot: s, Edits: []fault.Edit{{Path: "clock.loop", Text: move.FramesText(o.Loop.Screen)}}}
		f.Text = fmt.Sprintf("a loop of %d frames (%s s), with a way of %s s", o.Loop.Screen, o.Loop.OnScreen().Decimal(3), o.Set.Way.Decimal(2))
		f.Shot.Loop = o.Loop
		if fit := tried(r, f); len(fit) > 0 {
			return fit
		}
	}
	return nil
}
