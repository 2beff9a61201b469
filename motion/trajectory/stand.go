package trajectory

import "seamrail/motion/exact"

// Stand is what a plan promises of a display stand.
type Stand struct {
	Name  string
	Rate  exact.Rat // degrees a real second, with its sign
	Face  exact.Rat // degrees from one face of the product to the next
	Off   exact.Rat // degrees past its face when the loop comes round; below 0 short of it
	Bound exact.Rat // degrees that Off may be
	Hard  bool      // beyond Bound the plan does not hold
}

// StandCount returns how many stands turn by themselves.
func (t *Trajectory) StandCount() int { return len(t.plan.Stands) }

// Stand returns what the plan promises of stand i.
func (t *Trajectory) Stand(i int) Stand {
	s := t.plan.Stands[i]
	return Stand{
		Name: s.Rig.Name, Rate: s.Rate, Face: exact.New(degreesPerTurn, s.Spin.Symmetry),
		Off: s.Seam.Degrees(), Bound: s.Seam.Bound.Mul(exact.Int(degreesPerTurn)), Hard: s.Bounded(),
	}
}

const degreesPerTurn = 360

// StandAngle returns where stand i is at captured frame k, in degrees, exactly.
// Frame 0 finds it at the plan's start, which is any face at all where the stand
// cannot be started in phase.
func (t *Trajectory) StandAngle(i int, k int64) exact.Rat {
	return t.plan.Stands[i].Angle(t.plan.Loop.Clock.FrameTime(k))
}
