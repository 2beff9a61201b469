package job

import (
	"fmt"
	"sync"

	"seamrail/cmd/internal/exit"
	"seamrail/motion/effort"
	"seamrail/motion/ontime"
	"seamrail/motion/plain"
	"seamrail/motion/trajectory"
	"seamrail/motion/words"
)

// fitting is the take cut for the rig's controller, worked out when it is
// first asked for.
type fitting struct {
	once   sync.Once
	chosen ontime.Chosen
	err    error
}

func (f *fitting) get(t *trajectory.Trajectory) (ontime.Chosen, error) {
	f.once.Do(func() { f.chosen, f.err = ontime.Choose(t, t.Rounds()) })
	return f.chosen, f.err
}

// Blocks returns the take cut for the rig's controller, with what is expected
// of it.
func (j *Job) Blocks() (ontime.Chosen, error) { return j.fitting.get(j.Trajectory) }

// BlocksOpened is Blocks for a program that opens in its own way, or as it is
// driven if no blocks suit that.
func (j *Job) BlocksOpened(o words.Opening) (ontime.Chosen, error) {
	driven, err := j.Blocks()
	if err != nil || !driven.Expected.Follows() {
		return driven, err
	}
	c, err := ontime.ChooseOpened(j.Trajectory, int64(j.Plan.Rounds), o)
	if err != nil || !c.Expected.Follows() {
		return driven, err
	}
	return c, nil
}

// Expected is what the controller is expected to make of the take; nil for a
// plan that must not run anyway, or that cannot be cut.
func (j *Job) Expected() *ontime.Prediction {
	if j.Trouble() != nil {
		return nil
	}
	c, err := j.Blocks()
	if err != nil {
		return nil
	}
	return &c.Expected
}

// Unable is Trouble, or a LimitError where a motor has not the torque or the
// controller cannot follow the move.
func (j *Job) Unable() error {
	if err := j.Trouble(); err != nil {
		return err
	}
	if n := j.shortMotors(); n > 0 {
		return &exit.LimitError{Text: fmt.Sprintf("the move asks %s for more torque than it has", plain.Counted(n, "motor"))}
	}
	if x := j.Expected(); x != nil && !x.Follows() {
		return &exit.LimitError{Text: "the controller cannot follow the move"}
	}
	return nil
}

// shortMotors counts the motors that have not the torque.
func (j *Job) shortMotors() int {
	n := 0
	for _, a := range effort.Examine(j.Plan) {
		if a.Level == effort.Short {
			n++
		}
	}
	return n
}
