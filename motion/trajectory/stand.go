package trajectory

import (
	"seamrail/motion/exact"
	"seamrail/motion/spin"
)

// Stand is what a plan promises of a display stand.
type Stand struct {
	Name  string
	Rate  exact.Rat // degrees a real second, with its sign
	Face  exact.Rat // degrees from one face of the product to the next
	Off   exact.Rat // degrees past its face when the loop comes round; below 0 short of it
	Bound exact.Rat // degrees that Off may be
	Hard  bool      // what is not known to be within Bound does not hold
	Doubt exact.Rat // share of its speed that is not known, either way
	Known bool      // Doubt holds all that may be off; else it says nothing of the stand's drift
}

// StandCount returns how many stands turn by themselves.
func (t *Trajectory) StandCount() int { return len(t.plan.Stands) }

// Stand returns what the plan promises of stand i.
func (t *Trajectory) Stand(i int) Stand {
	s := t.plan.Stands[i]
	return Stand{
		Name: s.Rig.Name, Rate: s.Rate, Face: exact.New(degreesPerTurn, s.Spin.Symmetry),
		Off: s.Seam.Degrees(), Bound: s.Seam.Bound.Mul(exact.Int(degreesPerTurn)), Hard: s.Bounded(),
		Doubt: s.Speed.Sigma.Mul(exact.Int(spin.Coverage)).Quo(s.Speed.Period).Add(s.Rig.Regulation), Known: s.Rig.Regulated,
	}
}

const degreesPerTurn = 360

// StandAngle returns where stand i is at captured frame k, in degrees, exactly.
// Frame 0 finds it at the plan's start, which is any face at all where the stand
// cannot be started in phase.
func (t *Trajectory) StandAngle(i int, k int64) exact.Rat {
	return t.plan.Stands[i].Angle(t.plan.Loop.Clock.FrameTime(k))
}
