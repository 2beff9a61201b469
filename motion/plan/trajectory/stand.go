package trajectory

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/turntable/spin"
	"seamrail/motion/verify/trace"
)

// StandCount returns how many stands turn by themselves.
func (t *Trajectory) StandCount() int { return len(t.plan.Stands) }

// Stand returns what the plan promises of stand i.
func (t *Trajectory) Stand(i int) trace.Stand {
	s := t.plan.Stands[i]
	return trace.Stand{
		Name: s.Rig.Name, Rate: s.Rate, Face: exact.New(degreesPerTurn, s.Spin.Symmetry),
		Off: s.Seam.Degrees(), Bound: s.Seam.Bound.Mul(exact.Int(degreesPerTurn)), Hard: s.Bounded(),
		Doubt: s.Speed.Sigma.Mul(exact.Int(spin.Coverage)).Quo(s.Speed.Period).Add(s.Rig.Regulation), Known: s.Rig.Regulated, Phased: s.Rig.Phased,
	}
}

const degreesPerTurn = 360

// StandAngle returns where stand i is at captured frame k, in degrees, exactly.
// Frame 0 finds it at the plan's start, which is any face at all where the stand
// cannot be started in phase.
func (t *Trajectory) StandAngle(i int, k int64) exact.Rat {
	return t.plan.Stands[i].Angle(t.plan.Loop.Clock.FrameTime(k))
}
