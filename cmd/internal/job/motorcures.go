package job

import (
	"context"
	"math"
	"slices"

	"seamrail/export/report/planreport"
	"seamrail/motion/base/fault"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/reach"
)

// MotorCures are what would give the motors torque enough, as the report says it.
func (j *Job) MotorCures() fault.Cures {
	var out fault.Cures
	for _, a := range torque.Examine(j.Plan) {
		for i, words := range planreport.MotorCures(a) {
			x := fault.Cure{Words: a.Name + " " + words}
			if i == 0 && a.Cures.Slower > 1 {
				x.Edits = j.longerLoop(a)
			}
			out = append(out, x)
		}
	}
	return out
}

// longerTries are how many times as long as the whole move would have to be a loop is
// tried: dwells do not stretch with it.
var longerTries = []float64{1, 1.1, 1.5, 2}

// longerLoop makes a loop in which the motor of an axis does better, if there is one that the
// controller follows; none where none was found.
func (j *Job) longerLoop(a torque.Axis) []fault.Edit {
	var refused []fault.Edit
	for _, more := range longerTries {
		edits := []fault.Edit{{Path: "clock.loop", Text: move.FramesText(int64(math.Ceil(float64(j.Plan.Loop.Screen) * a.Cures.Slower * more)))}}
		s, err := reach.Changed(j.Shot, edits)
		if err != nil {
			continue
		}
		p, err := plan.Build(s, j.Rig)
		better := func(b torque.Axis) bool { return b.Name == a.Name && b.Level < a.Level }
		if err != nil || len(p.Breaches()) > 0 || !slices.ContainsFunc(torque.Examine(p), better) {
			continue
		}
		if x := run(context.Background(), p); x == nil || x.Follows() {
			return edits
		}
		if refused == nil {
			refused = edits // and the controller has cures of its own
		}
	}
	return refused
}
