package judge

import (
	"context"
	"slices"
	"strings"

	"seamrail/motion/base/list"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
	"seamrail/motion/vibration/survey"
)

// Judged is a planned shot and all that is said of it. Nothing of it changes once New
// has made it.
type Judged struct {
	// Verdict is the one verdict on the plan: what the verifier found, what the run-up
	// and run-out break, what would strike the lens, and by name what else fails or is
	// not known.
	Verdict verify.Verdict
	Others  []picture.Verdict // those that are none of the picture's
	Shakes  []survey.Axis     // the axes whose swing is known
	// Schedule is how it is taken frame by frame; nil where the camera runs.
	Schedule *stepwise.Schedule
	Glanced  Headline // the headline before it is known whether the controller follows

	of Case
}

// New judges a planned shot, with what is seen of it, nil for nothing.
func New(s shot.Shot, p *plan.Plan, seen *picture.Report, cues cue.Sheet) Judged {
	return Checked(context.Background(), verify.Check(trajectory.New(p)), s, p, seen, cues)
}

// Checked is New of a plan that the verifier has looked at, until ctx ends: from then on
// nothing is tried that would help.
func Checked(ctx context.Context, found verify.Verdict, s shot.Shot, p *plan.Plan, seen *picture.Report, cues cue.Sheet) Judged {
	t := trajectory.New(p)
	frames := stepwise.New(p, lensview.PixelsPerMM(s, p.Rig, t))
	if frames != nil {
		found = found.With(frames.Findings(t)...)
	}
	found = found.With(broken(p, found.OK)...).With(strikes(seen)...)
	c := Case{Shot: s, Rig: p.Rig, Plan: p, Verified: found, Picture: seen, Shakes: shakes(s, p), Cues: cues, Frames: frames, Pending: frames == nil, until: ctx}
	others := c.Verdicts()
	c.until = nil
	h := c.Headline(others)
	return Judged{Verdict: found.Beside(h.Fails, h.Unknown), Others: others, Shakes: c.Shakes, Schedule: frames, Glanced: h, of: c}
}

// Headline is what is said first, once it is known what the controller is expected to
// make of the take; nil where that has not been foretold.
func (j Judged) Headline(controller *ontime.Prediction) Headline {
	c := j.of
	c.Pending, c.Controller = false, controller
	return c.Headline(j.Others)
}

// broken are the limits that a plan breaks, those of its loop only where the verifier
// has not found that for itself.
func broken(p *plan.Plan, sound bool) []verify.Finding {
	var out []verify.Finding
	for _, b := range p.Breaches() {
		if (b.Phase == "loop" || b.Phase == plan.TakingUp) && (!sound || len(out) > 0) {
			continue
		}
		f := p.Fault(b)
		out = append(out, verify.Finding{
			Axis: b.Axis, Check: b.Quantity + " in the " + b.Phase,
			Text: strings.Join([]string{b.Quantity, f.Value, f.Bound, f.Where}, " "),
		})
	}
	return out
}

// strikes are what would come against the lens.
func strikes(seen *picture.Report) []verify.Finding {
	return list.Map(lensview.Blocking(seen), func(b picture.Verdict) verify.Finding {
		return verify.Finding{Check: b.Check, Text: b.Text}
	})
}

// shakes are the axes of the plan whose swing the rig knows, while the camera runs.
func shakes(s shot.Shot, p *plan.Plan) []survey.Axis {
	if p.ByFrame != nil || !slices.ContainsFunc(p.Rig.Axes, func(a rig.Axis) bool { return a.Shake.Spring.Known() }) {
		return nil
	}
	return survey.OfPlan(p, lensview.PixelsPerMM(s, p.Rig, trajectory.New(p)))
}
