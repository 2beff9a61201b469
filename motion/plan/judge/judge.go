// Package judge gives the verdicts on a planned shot that are none of the
// picture's: on its cadence, on how its turning looks, on what comes round at the
// seam, on after-shake, motors and hands; and the headline that all verdicts make.
// Whatever would help has been planned and looked at in the same way.
package judge

import (
	"context"
	"fmt"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/camera/picture"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/cue"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/scene"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
	"seamrail/motion/vibration/survey"
)

// Case is a planned shot with what has been found of it.
type Case struct {
	Shot     shot.Shot
	Rig      rig.Rig
	Plan     *plan.Plan
	Verified verify.Verdict
	Picture  *picture.Report // nil in a shot without a camera and a scene
	Shakes   []survey.Axis   // the axes whose swing is known
	Cues     cue.Sheet
	Frames   *stepwise.Schedule // nil where the camera runs
	// Controller is what the rig's controller is expected to make of the take, nil
	// where that has not been foretold; Pending says that it is being worked out.
	Controller *ontime.Prediction
	Pending    bool

	until context.Context // who waits for what would help; nil for ever
}

// Verdicts gives those that are none of the picture's, in the order of a report.
func (c Case) Verdicts() []picture.Verdict {
	out := []picture.Verdict{c.cadence()}
	out = append(out, c.strobes()...)
	out = append(out, c.closings()...)
	out = append(out, c.byHand()...)
	if c.Frames != nil {
		out = append(out, c.rested()...)
	} else {
		out = append(out, c.swings()...)
	}
	out = append(out, c.motors()...)
	out = append(out, c.falls()...)
	out = append(out, c.handles()...)
	out = append(out, c.doubts()...)
	return append(out, c.hands()...)
}

// bounds are those that the shot states, and the usual ones beside them.
func (c Case) bounds() scene.Bounds {
	if c.Shot.Scene == nil {
		return scene.DefaultBounds()
	}
	return c.Shot.Scene.Bounds.Filled()
}

// with plans the shot with other values at some paths, and tells whether the rig
// can do that and every check of the verifier holds.
func (c Case) with(over ...source.Override) (Case, bool) {
	s, err := c.Shot.Changed(over...)
	if err != nil {
		return Case{}, false
	}
	p, err := plan.Build(s, c.Rig)
	if err != nil || len(p.Breaches()) > 0 {
		return Case{}, false
	}
	until := c.until
	if until == nil {
		until = context.Background()
	}
	v, err := verify.CheckUntil(until, trajectory.New(p))
	return Case{Shot: s, Rig: c.Rig, Plan: p, Verified: v}, err == nil && v.OK
}

// after is with of what a cure writes.
func (c Case) after(x fault.Cure) (Case, bool) {
	return c.with(list.Map(x.Edits, func(e fault.Edit) source.Override {
		return source.Override{Path: e.Path, Text: e.Text, Origin: "what would help"}
	})...)
}

// cure is what one value would do.
func cure(path, text, words string, args ...any) fault.Cure {
	return fault.Cure{Words: fmt.Sprintf(words, args...), Edits: []fault.Edit{{Path: path, Text: text}}}
}

// aLoop is a loop of other frames as a cure, and what more is said of it.
func aLoop(frames int64, more string) fault.Cure {
	return cure("clock.loop", move.FramesText(frames), "a loop of %d frames%s", frames, more)
}

// rounds is a take of other rounds as a cure.
func rounds(n int64, more string) fault.Cure {
	return cure("take.rounds", fmt.Sprint(n), "rounds = %d%s", n, more)
}
