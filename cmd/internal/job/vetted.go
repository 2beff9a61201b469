package job

import (
	"context"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/plan"
	"seamrail/motion/plan/reach"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// run is what the controller is expected to make of a plan within the limits; nil where
// nothing is foretold.
func run(ctx context.Context, p *plan.Plan) *ontime.Prediction {
	if p.ByFrame != nil || !p.Rig.Controller.Kind.Driven() {
		return nil
	}
	c, err := ontime.TryUntil(ctx, trajectory.New(p), int64(p.Rounds))
	if err != nil || ctx.Err() != nil {
		return nil
	}
	return &c.Expected
}

// limitFits are what would bring a shot inside the limits of its rig. A longer loop is the
// shortest that the limits allow, and leaves an axis nothing to spare: where the controller
// cannot follow it, it is the next longer one that it follows. What would do for one axis
// has not been run on the model of the controller, which has cures of its own then.
func limitFits(s shot.Shot, r rig.Rig) []reach.Fit {
	fits := reach.Fits(s, r)
	for i, f := range fits {
		if f.In != nil {
			fits[i] = roomier(s, r, f)
		}
	}
	return fits
}

// roomier is a fit in a loop that the controller follows, or as it is where there is none.
func roomier(s shot.Shot, r rig.Rig, f reach.Fit) reach.Fit {
	ctx := context.Background()
	changed, err := reach.Changed(s, f.Edits)
	if err != nil {
		return f
	}
	j, err := looked(ctx, changed, r, lensview.Sketch, false)
	if err != nil || j.Beyond() != nil {
		return f
	}
	x := run(ctx, j.Plan)
	if x == nil || x.Follows() {
		return f
	}
	for _, c := range j.follow(ctx, s, *x, f.In) {
		f.Text, f.Edits = c.String(), c.Edits
	}
	return f
}
