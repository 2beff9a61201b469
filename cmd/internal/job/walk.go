package job

import (
	"math"

	"seamrail/cmd/internal/exit"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/controller/program"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
)

// Walk is one round of a plan gone through slowly, along the very same path, to be looked
// at with a hand on the stop.
type Walk struct {
	// Times is how many times as long as in a take all of it lasts; below 1 the shot is
	// slower than anybody would walk.
	Times      exact.Rat
	Trajectory *trajectory.Trajectory
	Chosen     ontime.Chosen // its lines; a step player needs none
}

const (
	// walkTimes is how many times as long as a take a walk lasts where nothing is said
	// against it: what takes a second of a take can be followed with the eye.
	walkTimes = 10
	// walkSeconds is as long as a hand stays on the stop, and what boards can go slowly for.
	walkSeconds = 60
	// walkShare is the share of an axis' speed that a walk never goes beyond: that of the
	// way to the start.
	walkShare = 0.1
)

// Walk is the plan as it is walked through: ten times as slowly as in a take, or less where
// that would last longer than a hand stays on the stop or the controller cannot go so
// slowly, and never faster than gently.
func (j *Job) Walk() (Walk, error) {
	if j.Schedule != nil {
		return Walk{}, exit.Limited("the shot is taken frame by frame, and there is no run to walk through; go to single frames instead")
	}
	least := j.gently()
	once := trajectory.New(j.Plan).TakeTime(1).Float()
	times := math.Max(least, math.Min(walkTimes, walkSeconds/once))
	for ; times >= least; times /= 2 {
		w := Walk{Times: tidy(times)}
		w.Trajectory = trajectory.New(j.Plan.Slowed(w.Times))
		if j.Rig.Controller.Kind.PlaysSteps() {
			return w, nil
		}
		var err error
		if w.Chosen, err = ontime.Try(w.Trajectory, 1); err != nil {
			return w, err
		}
		if w.Chosen.Expected.Follows() {
			return w, nil
		}
	}
	return Walk{}, exit.Limited("the controller can follow the plan at no pace that is gentle enough to walk through; go to single frames instead")
}

// gently is the least that a take has to be slowed by for no axis to go faster than is
// gentle, or beyond its limits. Acceleration falls with the square of that, jerk with its cube.
func (j *Job) gently() float64 {
	least := 0.0
	for _, a := range j.Plan.Axes {
		speed, acc, jerk := a.Extremes.Speed.Value, a.Extremes.Acc.Value, a.Extremes.Jerk.Value
		for _, r := range []*plan.Ramp{a.RunUp, a.RunOut} {
			if r != nil {
				acc = math.Max(math.Abs(acc), r.Peak())
			}
		}
		least = math.Max(least, math.Abs(speed)/(walkShare*a.Rig.MaxSpeed))
		least = math.Max(least, math.Sqrt(math.Abs(acc)/a.Rig.MaxAcc))
		if a.Rig.MaxJerk > 0 {
			least = math.Max(least, math.Cbrt(math.Abs(jerk)/a.Rig.MaxJerk))
		}
	}
	return least
}

// tidy is a number of two figures that is no less.
func tidy(times float64) exact.Rat {
	grain := math.Pow(10, math.Floor(math.Log10(times))-1)
	n := math.Ceil(times/grain - 1e-9)
	if grain >= 1 {
		return exact.Int(int64(n * grain))
	}
	return exact.New(int64(n), int64(math.Round(1/grain)))
}

// Program is its lines.
func (w Walk) Program() *program.Program { return program.New(w.Trajectory, w.Chosen.Take) }

// Words says how slowly it goes.
func (w Walk) Words() string {
	switch w.Times.Cmp(exact.Int(1)) {
	case 0:
		return "at the pace of a take"
	case -1:
		return exact.Int(1).Quo(w.Times).Decimal(1) + " times as fast as a take"
	}
	return w.Times.Decimal(1) + " times as slowly as a take"
}
