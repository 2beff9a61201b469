package job

import (
	"errors"
	"fmt"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Joined reads the rig of a shot and tells all that is wrong with the two.
func (x Source) Joined(s *shot.Shot, faults fault.List) (rig.Rig, error) {
	r, wrong, err := x.loadRig(s)
	faults = append(append(faults, wrong...), x.onRig(*s, r)...)
	return r, errors.Join(cue.Beside(faults, *s, r).Err(), err)
}

// withCues adds to the faults of a plan those of the cues that it does not hide.
func withCues(err error, s shot.Shot, r rig.Rig) error {
	p, _ := plan.Partly(s, r)
	return atOnce(err, cue.Partly(p, s).Err())
}

// atOnce is several lists of faults as one, which is sorted.
func atOnce(errs ...error) error {
	var all fault.List
	for _, err := range errs {
		var list fault.List
		switch {
		case errors.As(err, &list):
			all = append(all, list...)
		case err != nil:
			return errors.Join(errs...)
		}
	}
	return all.Err()
}

// onRig is the fault of an axis that the flags name and neither shot nor rig has.
func (x Source) onRig(s shot.Shot, r rig.Rig) fault.List {
	_, moves := s.Axis(x.Axis)
	_, there := r.Axis(x.Axis)
	if x.Axis == "" || moves || there || len(r.Axes) == 0 {
		return nil
	}
	return fault.List{{
		File: "--axis", Quantity: fmt.Sprintf("%q", x.Axis), Bound: "is not on the rig",
		Fit: "it has " + strings.Join(r.Names(), ", "),
	}}
}
