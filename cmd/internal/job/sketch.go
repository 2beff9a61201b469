package job

import (
	"context"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// looking is how the picture of a plan is looked at.
type looking func(context.Context, *trajectory.Trajectory, shot.Shot) (*picture.Report, error)

// PlanUntil is Plan until ctx ends, whose error it then returns. The verifier and who looks
// at the picture ask for that with each step and each frame.
func PlanUntil(ctx context.Context, s shot.Shot, r rig.Rig) (*Job, error) {
	return looked(ctx, s, r, lensview.ExamineUntil, false)
}

// Sketch is PlanUntil for a shot that is still being changed: the picture is looked at in
// some of its frames, and what might cure it is not tried.
func Sketch(ctx context.Context, s shot.Shot, r rig.Rig) (*Job, error) {
	return looked(ctx, s, r, lensview.Sketch, false)
}

// Sound is Posed where nothing keeps all the rest from being planned, which it looks for.
func Sound(ctx context.Context, s shot.Shot, r rig.Rig) (*Job, error) {
	return unjudged(ctx, s, r, lensview.Peek, false)
}

// Posed is a shot on its rig with where everything stands at any instant, and nothing
// else: no picture is looked at and nothing judged. It is for those who draw.
func Posed(s shot.Shot, r rig.Rig) (*Job, error) {
	s, p, err := moved(s, r)
	if err != nil {
		return nil, err
	}
	return &Job{Shot: s, Rig: r, Plan: p, Trajectory: trajectory.New(p)}, nil
}

// moved plans how a shot moves.
func moved(s shot.Shot, r rig.Rig) (shot.Shot, *plan.Plan, error) {
	s, err := stepwise.Timed(s, r, func(s shot.Shot, p *plan.Plan) float64 { return lensview.PixelsPerMM(s, r, trajectory.New(p)) })
	if err != nil {
		return s, nil, withCues(err, s, r)
	}
	p, err := plan.Build(s, r)
	if err != nil {
		return s, nil, withCues(err, s, r)
	}
	return s, p, nil
}
