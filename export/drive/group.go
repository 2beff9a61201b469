package drive

import (
	"math"

	"seamrail/export/drive/takelog"
	"seamrail/motion/plan/trajectory"
)

// leastTakeUp is from how far at least an axis of a group comes to its start, in mm or
// degrees: more than the play of a belt, a screw or a worm that anybody films with (common
// practice: tenths). Where the rig file states the play, twice that counts if it is more.
const leastTakeUp = 1

// beside is from where each axis comes to its start in a take of a group, so that whatever
// play there is lies on one side in every pass. It is a place of the axis' own way in the
// round, and so one that has been looked at; an axis that rests there has none, and stays.
func (j *job) beside() []float64 {
	out := append([]float64(nil), j.start...)
	for i, a := range j.axes {
		by := float64(leastTakeUp)
		if a.Backlash != nil {
			by = max(by, 2**a.Backlash)
		}
		low, high := j.ends(i)
		above, below := high-j.start[i], j.start[i]-low
		if above >= below {
			out[i] += min(by, above)
		} else {
			out[i] -= min(by, below)
		}
	}
	return out
}

// ends is from where to where an axis goes in a round and the run-up to it.
func (j *job) ends(i int) (low, high float64) {
	x := j.Trajectory.Extremes(i)
	return min(x.Min.Value, j.start[i]), max(x.Max.Value, j.start[i])
}

// fromBeside goes to the start from beside it, as all passes of the group do, and asks where
// the axes then stand.
func (e *engine) fromBeside() error {
	if err := e.goTo(e.start); err != nil {
		return err
	}
	if err := e.m.fresh(); err != nil {
		return err
	}
	e.stood, _ = e.m.position()
	return nil
}

// placeGrain is what places of a start are written to, in mm or degrees: a thousandth of
// what any controller reports.
const placeGrain = 1e-6

// StartOf is how a pass of a group of a trajectory begins, but for where the axes then
// stand.
func StartOf(t *trajectory.Trajectory) takelog.Start {
	j := newJob(Options{Trajectory: t})
	s := takelog.Start{Capture: t.Clock().Capture.String(), Frames: t.RoundFrames(), RunUp: j.runUp}
	from := j.beside()
	for i, a := range j.axes {
		low, high := j.ends(i)
		s.Axes = append(s.Axes, takelog.StartPlace{
			Axis: a.Name, Unit: a.Unit(), Planned: grained(j.start[i]), From: sideOf(from[i], j.start[i]), Low: grained(low), High: grained(high),
		})
	}
	return s
}

// sideOf is the side of a place that an axis comes to it from.
func sideOf(from, to float64) string {
	switch {
	case from < to:
		return takelog.FromBelow
	case from > to:
		return takelog.FromAbove
	}
	return ""
}

func grained(x float64) float64 { return math.Round(x/placeGrain) * placeGrain }

// began is how a pass of a group begins, for the log; nil where it is of none.
func (e *engine) began() *takelog.Start {
	if e.Group == "" {
		return nil
	}
	s := StartOf(e.Trajectory)
	for i := range s.Axes {
		if e.stood != nil {
			at := grained(e.stood[i])
			s.Axes[i].Stood = &at
		}
	}
	return &s
}
