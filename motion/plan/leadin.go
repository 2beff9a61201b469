package plan

import (
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/track"
)

// Off camera nothing asks for haste, so run-ups use half of what an axis may
// do; common practice with rigs that carry glass.
const rampShare = 0.5

// maxRampSeconds bounds the search for a run-up. An axis that needs longer to reach
// its speed asks at the seam for more than its limits leave.
const maxRampSeconds = 60

// restSpeed is the speed below which an axis counts as at rest at the seam, in
// units a second: a ten-millionth of a millimetre in a second moves no motor.
const restSpeed = 1e-7

// pastIt is how many times as far beyond its limits as the nearest a ramp is when
// longer ones need not be tried: they have the longer to go back on.
const pastIt = 3

// gentlest returns the shortest ramp of whole frames, with a share of the limits,
// that takes up an acceleration as well as a speed; nil where s is rest. Where none
// keeps the limits it is the one that comes nearest to them.
func (p *Plan) gentlest(a *Axis, s track.State, share float64, out bool) *Ramp {
	if !moving(s) {
		return nil
	}
	make := newRunUp
	if out {
		make = newRunOut
	}
	most := exact.Int(maxRampSeconds).Mul(p.Loop.Clock.Capture).Ceil().Whole() + 1
	var best *Ramp
	least := math.Inf(1)
	for frames := int64(1); frames <= most && least > 1; frames++ {
		r := make(s, p.Loop.Clock.FrameTime(frames))
		strain := r.strain(a, s, share)
		if strain > pastIt*least {
			break
		}
		if strain < least {
			best, least = r, strain
		}
	}
	return best
}

func seamStart(a *Axis) track.State { return a.Track.At(0) }

func seamEnd(a *Axis) track.State { return a.Track.Before(a.Track.Period().Float()) }

func moving(s track.State) bool { return math.Abs(s.Vel) > restSpeed }

// strain is the greatest of a ramp's peaks over what it may be, 1 or less where all
// are kept: a share of the axis' acceleration, all of its speed and jerk, or what the
// seam itself already asks.
func (r *Ramp) strain(a *Axis, seam track.State, share float64) float64 {
	_, _, speed, acc, jerk := r.peaks()
	strain := math.Max(speed/math.Max(math.Abs(seam.Vel)*(1+limitSlack), a.Rig.MaxSpeed),
		acc/math.Max(share*a.Rig.MaxAcc, math.Abs(seam.Acc)*(1+limitSlack)))
	if a.Rig.MaxJerk > 0 {
		strain = math.Max(strain, jerk/a.Rig.MaxJerk)
	}
	return strain
}
