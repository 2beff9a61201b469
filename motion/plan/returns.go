package plan

import (
	"slices"

	"seamrail/motion/base/fault"
)

// A loop that is cut back from its last frame to its first is filmed in rounds
// of which only the loop is shown: then every axis goes, unseen, to where it is
// at frame 0, and is there at its speed. That takes the least whole number of
// captured frames in which all of them can, by jerk-limited moves.

// stretches bounds how often a way back is given a quarter more time for the
// sake of an axis that follows: eight fold its speed by six.
const stretches = 8

// closed returns the course with the way back of a loop with a cut, and with every
// axis' run-up and run-out. A way back uses no more of the limits than keeps within
// the travel.
func (c course) closed() (course, fault.List) {
	if !c.cut() {
		return c.ramped(), nil
	}
	var round course
	var faults fault.List
	for _, share := range shares {
		round, faults = c.returned(share)
		if len(faults) > 0 || !round.leavesTravelUnseen() {
			break
		}
	}
	return round, faults
}

// cut tells whether the loop is cut back to its first frame.
func (c course) cut() bool {
	return slices.ContainsFunc(c.axes, func(a Axis) bool { return passes(a.Move) })
}

func (c course) leavesTravelUnseen() bool {
	return slices.ContainsFunc(c.breaches(), func(b Breach) bool { return b.Quantity == Position && b.Phase != "loop" && b.Phase != TakingUp })
}

// returned makes rounds of the loop shown, with so much of the limits, and ramps to
// and from them.
func (c course) returned(share float64) (course, fault.List) {
	w := c.wayBack(share)
	if faults := w.unsettled(); len(faults) > 0 {
		return c, faults
	}
	w, frames, err := w.least()
	var round course
	for range stretches {
		if err == nil {
			round, err = w.laid(frames)
		}
		if err != nil {
			return c, fault.List{{File: c.file, Quantity: "the way back: " + err.Error()}}
		}
		var faults fault.List
		if round, faults = round.followed(); len(faults) > 0 {
			return c, faults
		}
		if !round.followersHurry() {
			break
		}
		frames, err = w.atLeast(frames + (frames+3)/4)
	}
	return round.ramped(), nil
}

// followersHurry tells whether an axis that aims is past its limits unseen,
// where more time would help.
func (c course) followersHurry() bool {
	return slices.ContainsFunc(c.axes, func(a Axis) bool {
		return aims(a.Move) && slices.ContainsFunc(c.limits(a, a.Extremes), func(l limit) bool {
			return l.broken() && c.unseen(l.peak.Time)
		})
	})
}
