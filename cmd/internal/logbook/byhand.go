package logbook

import (
	"errors"
	"fmt"
	"math"
	"time"

	"seamrail/cmd/internal/job"
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/base/exact"
	"seamrail/motion/turntable/spin"
)

// ByHand is a take that this program did not drive, of a rig that is set and started by
// hand, or that another program drove. It is logged when it is over.
type ByHand struct {
	Rounds      int64   // that were filmed; 0 = as many as the plan has
	Took        float64 // s from setting out to rest, by a stopwatch; 0 = nobody looked
	Driver      string
	Group, Pass string
}

// maxRounds bounds what is filmed at once, as a shot does.
const maxRounds = 1_000_000

// maxOff is how far off the plan a stopwatch may have a take before it is a slip of the
// hand: as far off as the clock of a rig is believed to be.
const maxOff = 0.1

// LogByHand logs a take of a job that is over, and returns its number.
func LogByHand(shotFile string, j *job.Job, h ByHand, now time.Time) (take int, err error) {
	begin, end, err := h.records(shotFile, j)
	if err != nil {
		return 0, err
	}
	before, log, err := Open(NameOf(shotFile))
	if err != nil {
		return 0, err
	}
	take = before.Next()
	for _, r := range []takelog.Record{begin, end} {
		r.Take, r.Time = take, now
		err = errors.Join(err, log.Add(r))
	}
	return take, errors.Join(err, log.Close())
}

// records are how it began and ended.
func (h ByHand) records(shotFile string, j *job.Job) (begin, end takelog.Record, err error) {
	if j.Plan.ByFrame != nil {
		return begin, end, errors.New("a take frame by frame is logged as its frames are taken, by the run that takes them")
	}
	if h.Rounds == 0 {
		h.Rounds = int64(j.Plan.Rounds)
	}
	if h.Rounds < 0 || h.Rounds > maxRounds {
		return begin, end, fmt.Errorf("%d rounds of a take are not believed; it has 1 to %d", h.Rounds, maxRounds)
	}
	planned := j.Trajectory.TakeTime(h.Rounds).Float()
	if set := j.Plan.Set; set != nil { // it rests at the near end when the last way back is over
		planned = exact.Int(h.Rounds).Mul(set.Round()).Sub(set.Rest()).Float()
	}
	doubt, err := h.timed(j, planned)
	if err != nil {
		return begin, end, err
	}
	begin = takelog.Record{
		Kind: takelog.Begun, Shot: shotFile, Plan: j.Plan.Hash(), Rig: j.Rig.Name, ByHand: true, Rounds: h.Rounds, Planned: planned, Driver: h.Driver,
	}
	if begin.Group, begin.Pass, begin.Start, err = Grouped(shotFile, h.Group, h.Pass, false, j); err != nil {
		return begin, end, err
	}
	if s := begin.Start; s != nil {
		for i := range s.Axes {
			s.Axes[i].From = "" // nobody has seen to it
		}
	}
	// A rig that is set by hand rests where it was set; where another program has left one
	// that is driven is not known here.
	end = takelog.Record{
		Kind: takelog.Ended, Rounds: h.Rounds, Planned: planned, Executed: h.Took, Uncertainty: doubt,
		Outcome: drive.Finished.String(), Known: !j.Rig.Controller.Kind.Driven(),
	}
	return begin, end, nil
}

// timed is how far a stopwatch may be out: two standard uncertainties of its two presses.
func (h ByHand) timed(j *job.Job, planned float64) (doubt float64, err error) {
	if h.Took == 0 {
		return 0, nil
	}
	press := j.Rig.Controller.Buttons.Press
	if press.Sign() == 0 {
		press = spin.Reaction
	}
	doubt = 2 * math.Sqrt2 * press.Float()
	if off := math.Abs(h.Took - planned); !(off <= doubt+maxOff*planned) {
		return 0, fmt.Errorf("a take that took %.3f s is not one of %d of the plan's rounds, %.3f s: time it from where it sets out to where it rests, and say how many rounds it had",
			h.Took, h.Rounds, planned)
	}
	return doubt, nil
}

// Grouped makes the names of a group and of a pass of it such as the log has them, and
// tells how a take of a job would begin. It is an error where that would not match the
// passes that the group has.
func Grouped(shotFile, group, pass string, virtual bool, j *job.Job) (string, string, *takelog.Start, error) {
	switch {
	case group == "" && pass == "":
		return "", "", nil, nil
	case group == "":
		return "", "", nil, errors.New("a pass is one of a group: name the group too")
	case pass == "":
		return "", "", nil, errors.New("a group has several passes: say which this is, such as light, product or clean plate")
	}
	group, err := takelog.Name("the group", group)
	if err != nil {
		return "", "", nil, err
	}
	if pass, err = takelog.Name("the pass", pass); err != nil {
		return "", "", nil, err
	}
	start := drive.StartOf(j.Trajectory)
	return group, pass, &start, joins(shotFile, group, virtual, PassOf(takelog.Take{Begin: takelog.Record{Plan: j.Plan.Hash(), Start: &start}}))
}
