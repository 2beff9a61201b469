// Package job is a shot on its rig as the commands and the page have it: read, planned,
// checked and judged, with what its controller is expected to make of it.
package job

import (
	"fmt"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/exit"
	"seamrail/motion/cue"
	"seamrail/motion/judge"
	"seamrail/motion/picture"
	"seamrail/motion/plain"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/sight"
	"seamrail/motion/trajectory"
)

// Job is a shot that has been read, planned, checked and judged. Nothing of it changes
// afterwards, and it may be asked by several at once.
type Job struct {
	Shot       shot.Shot
	Rig        rig.Rig
	Plan       *plan.Plan
	Trajectory *trajectory.Trajectory
	Picture    *picture.Report // nil in a shot without a camera and a scene
	Cues       cue.Sheet
	judge.Judged

	fitting *fitting
}

// Plan plans a shot on its rig, checks it and judges it. With ahead, what the
// controller makes of it is begun to be worked out meanwhile.
func Plan(s shot.Shot, r rig.Rig, ahead bool) (*Job, error) {
	p, err := plan.Build(s, r)
	if err != nil {
		return nil, withCues(err, s, r)
	}
	hands, unheard := cue.New(p, s)
	t, fit := trajectory.New(p), &fitting{}
	if ahead && unheard == nil && len(p.Breaches()) == 0 {
		deadman.Go(func() { _, _ = fit.get(t) }) // which keeps the error too
	}
	seen, err := sight.Examine(t, s)
	if err := atOnce(unheard, err); err != nil {
		return nil, err
	}
	return &Job{
		Shot: s, Rig: r, Plan: p, Trajectory: t, Picture: seen, Cues: hands, Judged: judge.New(s, p, seen, hands), fitting: fit,
	}, nil
}

// WithCues is the job with another sheet of cues: its own, by what is known of the hands.
func (j *Job) WithCues(s cue.Sheet) *Job {
	out := *j
	out.Cues = s
	return &out
}

// Trouble is a LimitError when the plan must not run as it is, else nil.
func (j *Job) Trouble() error {
	type limit struct{ axis, quantity string }
	broken := map[limit]bool{}
	for _, b := range j.Plan.Breaches() {
		broken[limit{b.Axis, b.Quantity}] = true
	}
	if n := len(broken); n > 0 {
		return &exit.LimitError{Text: fmt.Sprintf("the plan breaks %s of the rig", plain.Counted(n, "limit"))}
	}
	if n := len(j.Verdict.Failed()); n > 0 {
		return &exit.LimitError{Text: fmt.Sprintf("the plan fails %s", plain.Counted(n, "check"))}
	}
	return nil
}

// Headline is what is said first of the job, wherever anything is. It waits for what
// the controller makes of it.
func (j *Job) Headline() judge.Headline { return j.Judged.Headline(j.Expected()) }

// Refuse is err, some trouble of a plan, unless forced, with what to do about it.
func Refuse(err error, force bool) error {
	if err == nil || force {
		return nil
	}
	return &exit.LimitError{Text: err.Error() + ", and nothing was written\n" +
		"see \"seamrail plan\" for what would fit; --force writes it all the same, and the file will say so"}
}

// CountIn is how many seconds are counted before a take unless told: time to take the
// hand away from the keys.
const CountIn = 3

// MostCountIn is longer than anyone waits, in s.
const MostCountIn = 600
