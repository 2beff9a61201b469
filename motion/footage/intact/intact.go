// Package intact tells whether a recording is whole: frames that are there twice or not at
// all, cuts, black and blown-out frames, a rate that is not the shot's. It knows of each frame
// only what footage.Frame has.
package intact

import (
	"seamrail/motion/footage"
)

// Found is what is amiss, each kind in order. Frames count from 0.
type Found struct {
	Doubled []Doubled
	Unclear int // how many frames look as the one before where an encoder may have left out what little changed
	Every   int // each how manieth frame is there twice, where that is regular; else 0
	Dropped []Dropped
	Cuts    []int  // the first frame after each
	Black   []Span // frames of which nearly all, or suddenly much more than of others, is black
	White   []Span // the same of white
	// CameraStill tells that all frames lie on the first: the camera, or all that fills the
	// picture, does not move. It is false where their poses are not known.
	CameraStill bool
	// AllStill tells that besides nothing in the picture moves.
	AllStill bool
}

// Whole tells whether nothing is amiss. That nothing moves is for others to judge.
func (f Found) Whole() bool {
	return len(f.Doubled)+len(f.Dropped)+len(f.Cuts)+len(f.Black)+len(f.White) == 0
}

// Doubled is a frame that shows again what the one before did.
type Doubled struct {
	Frame    int     // the first that is none
	Times    int     // how many are none
	Changed  float64 // the most that any differs from the one before, its light aside
	Expected float64 // what frames about there do at least
}

// Dropped is a gap.
type Dropped struct {
	Frame    int     // the first after it
	Missing  int     // how many frames were lost
	Step     float64 // from the frame before: px, or as Frame.Changed, whichever was told
	Expected float64
	Filled   bool // the frame before is there twice in place of one
}

// Span are frames From to To.
type Span struct{ From, To int }

// Check looks through the frames of a take. Reach is how far from the middle of the picture, in
// px, a turn or a growth of it counts as a step: half of its shorter side.
func Check(frames []footage.Frame, reach float64) Found {
	t := newTake(frames, reach)
	var f Found
	f.Doubled, f.Unclear = t.doubled()
	f.Every = regular(f.Doubled)
	twice := make([]bool, len(frames))
	for _, d := range f.Doubled {
		for k := range d.Times {
			twice[d.Frame+k] = true
		}
	}
	f.Cuts = t.cuts(twice)
	f.Dropped = t.dropped(twice, f.Cuts)
	f.Black = spans(frames, func(f footage.Frame) float64 { return f.Black })
	f.White = spans(frames, func(f footage.Frame) float64 { return f.White })
	f.CameraStill, f.AllStill = still(frames)
	return f
}
