package cue

import (
	"seamrail/motion/base/fault"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Partly looks for faults of the cues of a shot that is planned in part only:
// those that nothing else is to blame for.
func Partly(p *plan.Plan, s shot.Shot) fault.List {
	var faults fault.List
	for _, raw := range s.Cues {
		b := builder{plan: p, shot: s, partly: true, cue: Cue{Cue: raw}}
		if !raw.Faulty {
			b.build()
		}
		faults = append(faults, b.faults...)
	}
	return faults
}

// maxFaults is as many as are looked at further: a file with so many is another
// kind of file, and reading has stopped telling what is sound of it.
const maxFaults = 100

// Beside adds to the faults of a shot and of its rig those that show where what is
// sound of the two meets, so that none hides another. Where there are none, these
// are for planning to find, and where the rig could not be read there are none to
// tell.
func Beside(faults fault.List, s shot.Shot, r rig.Rig) fault.List {
	if n := len(faults); n == 0 || n > maxFaults || len(r.Axes) == 0 {
		return faults
	}
	p, more := plan.Partly(s, r)
	return append(append(faults, more...), Partly(p, s)...)
}
