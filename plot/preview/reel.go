package preview

import (
	"fmt"

	"seamrail/motion/base/exact"
)

// View is a picture of the loop as it is shown: one captured frame, and for how
// many frames of the timeline it stands.
type View struct {
	Timeline int64 // the first frame of the timeline that shows it
	Captured int64
	Count    int64
}

// MaxViews is how many pictures a loop may have as an animation: two minutes
// at 25 a second. Longer ones take a step.
const MaxViews = 3000

// Screen returns how many frames of the timeline the loop has.
func (f *Finder) Screen() int64 {
	return exact.Int(f.Frames()).Quo(f.motion.Clock().PerScreen()).Whole()
}

// shown is the captured frame that a frame of the timeline shows.
func (f *Finder) shown(timeline int64) int64 {
	return exact.Int(timeline).Mul(f.motion.Clock().PerScreen()).Floor().Whole()
}

// Every returns the least n for which every nth frame of the timeline makes an
// animation: 1 but for a loop of more than MaxViews frames.
func (f *Finder) Every() int64 { return (f.Screen() + MaxViews - 1) / MaxViews }

// Views returns the pictures of the loop with every nth frame of the timeline,
// in order. Between them they stand for all of the loop: where n does not divide
// it, the last stands for fewer. It returns an error if n is below 1 or there
// are more than MaxViews.
func (f *Finder) Views(every int64) ([]View, error) {
	n := f.Screen()
	if every < 1 {
		return nil, fmt.Errorf("every %d: must be 1 or more", every)
	}
	if count := (n + every - 1) / every; count > MaxViews {
		return nil, fmt.Errorf("the loop has %d pictures; an animation holds %d: every %d would fit",
			count, MaxViews, f.Every())
	}
	var out []View
	for i := int64(0); i < n; i += every {
		v := View{i, f.shown(i), min(every, n-i)}
		if last := len(out) - 1; last >= 0 && out[last].Captured == v.Captured {
			out[last].Count += v.Count
			continue
		}
		out = append(out, v)
	}
	return out, nil
}
