package cli

import (
	"fmt"
	"sync"

	"seamrail/motion/effort"
	"seamrail/motion/ontime"
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
	f.once.Do(func() { f.chosen, f.err = ontime.Choose(t, int64(t.Plan().Rounds)) })
	return f.chosen, f.err
}

// blocks returns the take cut for the rig's controller, with what is expected
// of it.
func (j job) blocks() (ontime.Chosen, error) { return j.fitting.get(j.trajectory) }

// blocksOpened is blocks for a program that opens in its own way, or as it is
// driven if no blocks suit that.
func (j job) blocksOpened(o words.Opening) (ontime.Chosen, error) {
	driven, err := j.blocks()
	if err != nil || !driven.Expected.Follows() {
		return driven, err
	}
	c, err := ontime.ChooseOpened(j.trajectory, int64(j.plan.Rounds), o)
	if err != nil || !c.Expected.Follows() {
		return driven, err
	}
	return c, nil
}

// expected is what the controller is expected to make of the take; nil for a
// plan that must not run anyway, or that cannot be cut.
func (j job) expected() *ontime.Prediction {
	if j.trouble() != nil {
		return nil
	}
	c, err := j.blocks()
	if err != nil {
		return nil
	}
	return &c.Expected
}

// unable is trouble, or a LimitError where a motor has not the torque or the
// controller cannot follow the move.
func (j job) unable() error {
	if err := j.glanced(); err != nil {
		return err
	}
	if x := j.expected(); x != nil && !x.Follows() {
		return &LimitError{"the controller cannot follow the move"}
	}
	return nil
}

// glanced is unable but for the controller, which takes longer to look at than a
// shot takes to draw.
func (j job) glanced() error {
	if err := j.trouble(); err != nil {
		return err
	}
	if n := j.shortMotors(); n > 0 {
		return &LimitError{fmt.Sprintf("the move asks %s for more torque than it has", counted(n, "motor"))}
	}
	return nil
}

// shortMotors counts the motors that have not the torque.
func (j job) shortMotors() int {
	n := 0
	for _, a := range effort.Examine(j.plan) {
		if a.Level == effort.Short {
			n++
		}
	}
	return n
}
