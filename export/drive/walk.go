package drive

import (
	"errors"

	"seamrail/motion/plan/trajectory"
)

// Walk is a plan gone through slowly: the motion along the same path, in one round.
type Walk struct {
	Trajectory *trajectory.Trajectory
	Source     func() Source              // as of Options
	Foretold   func(rounds int64) float64 // as of Options
	Words      string                     // how slowly, for the operator and the log
}

// walk goes through the plan slowly, with all that a take has but the count: cautions,
// a stop that rests, going on after it, and the way back to the start. The log tells it
// apart from takes.
func (e *engine) walk(w *Walk) error {
	if w == nil {
		return nil
	}
	usual := e.job
	// What else a take has, such as a count for hands and what it switches, a walk has not.
	e.job = newJob(Options{
		Trajectory: w.Trajectory, Source: w.Source, Foretold: w.Foretold, Walk: w, Rounds: 1,
		Observer: usual.Observer, Log: usual.Log, Virtual: usual.Virtual, Shot: usual.Shot, Plan: usual.Plan,
		Takes: usual.Takes, Confirmed: usual.Confirmed, Way: usual.Way,
	})
	e.job.controller = usual.controller
	e.Observer.Say("Walking through the plan, " + w.Words + ".")
	_, err := e.take()
	var fault *Failure
	if !errors.As(err, &fault) { // what ends with a fault is written down as the walk that it was
		e.job = usual
	}
	return err
}
