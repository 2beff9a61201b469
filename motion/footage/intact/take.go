package intact

import (
	"math"
	"slices"

	"seamrail/motion/footage"
)

const (
	// quietShare is the share of frames that change least and are taken to change by noise.
	quietShare = 0.05
	// posedShare is of how many frames the pose must be known for steps to be those of poses.
	posedShare = 0.9
	// besidePosed and besideBare are how many steps on each side of a gap must be alike: more
	// where nothing tells their direction, as a sway has one speed both ways.
	besidePosed, besideBare = 2, 3
	// wholePosed and wholeBare are for take.whole: what has changed grows less than a step
	// does, as a part of it is noise that nobody knows.
	wholePosed, wholeBare = 0.3, 0.5
)

// take is a recording with the steps from frame to frame; that of frame 0 is none.
type take struct {
	frames []footage.Frame
	reach  float64 // see Check
	steps  []step
	doubt  float64 // of a step; 0 of changes, whose scatter tells
	beside int     // how many steps on each side must be alike for a gap to be told
	whole  float64 // by how much of an ordinary step one over a gap may miss a whole number
}

// step is how the picture went on from one frame to the next: px to the right, down, round and
// outwards where poses are known; else its first alone is how much has changed, which has no
// direction.
type step [4]float64

func (s step) length() float64 { return math.Hypot(math.Hypot(s[0], s[1]), math.Hypot(s[2], s[3])) }

// less is s without so many times o.
func (s step) less(times float64, o step) step {
	for k := range s {
		s[k] -= times * o[k]
	}
	return s
}

func newTake(frames []footage.Frame, reach float64) take {
	if known := posed(frames); known > 0 && float64(known) >= posedShare*float64(len(frames)-1) {
		steps, doubt, moves := poseSteps(frames, reach)
		if moves {
			return take{frames, reach, steps, doubt, besidePosed, wholePosed}
		}
	}
	quiet := noise(frames)
	t := take{frames, reach, make([]step, len(frames)), 0, besideBare, wholeBare}
	for k := 1; k < len(frames); k++ {
		c, light := frames[k].Changed, frames[k].Mean-frames[k-1].Mean
		t.steps[k][0] = math.Sqrt(max(0, c*c-quiet*quiet-light*light))
	}
	return t
}

// noise is what of a change from frame to frame is noise, at most: the quietest that are not
// the same picture.
func noise(frames []footage.Frame) float64 {
	var all []float64
	for k, f := range frames {
		if k > 0 && f.Changed > 0 {
			all = append(all, f.Changed)
		}
	}
	if len(all) == 0 {
		return 0
	}
	slices.Sort(all)
	return all[int(quietShare*float64(len(all)))] * noiseLeft
}

// noiseLeft is how much of the quietest change is counted as noise: where everything moves all
// the time the quietest is motion as well.
const noiseLeft = 0.5

func posed(frames []footage.Frame) (known int) {
	for k, f := range frames {
		if k > 0 && f.FromBefore.Known {
			known++
		}
	}
	return known
}

// poseSteps are how far points of the picture go, at the middle and at reach from it, the
// middle one's uncertainty, and whether the picture moves by more than that at all: where only
// the product does, poses tell nothing of it.
func poseSteps(frames []footage.Frame, reach float64) (steps []step, doubt float64, moves bool) {
	steps = make([]step, len(frames))
	var doubts, lengths []float64
	for k, f := range frames {
		if p := f.FromBefore; k > 0 && p.Known {
			steps[k] = newStep(p, reach)
			doubts = append(doubts, math.Hypot(p.Doubt.X, p.Doubt.Y))
			lengths = append(lengths, steps[k].length())
		}
	}
	slices.Sort(doubts)
	slices.Sort(lengths)
	doubt = doubts[len(doubts)/2]
	return steps, doubt, lengths[len(lengths)/2] > surely*doubt
}

func newStep(p footage.Pose, reach float64) step {
	return step{p.X, p.Y, p.Turn * math.Pi / 180 * reach, (p.Scale - 1) * reach}
}
