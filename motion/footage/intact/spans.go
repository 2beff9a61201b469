package intact

import (
	"math"
	"slices"

	"seamrail/motion/footage"
)

const (
	// filled is the share of a frame at which it is black or white as a whole: a product on
	// white may leave nineteen parts of twenty white.
	filled = 0.99
	// sudden is by how much more than of the take's middle frame the share must be otherwise.
	sudden = 0.4
	// stillPixels is what a still camera's frames may lie apart, px: a tenth of what is seen.
	stillPixels = 0.3
	// stillShared is the share of the picture that must be as in frame 0 for nothing to move.
	stillShared = 0.97
)

// spans are frames of which a share is filled, or suddenly much more than of the others.
func spans(frames []footage.Frame, share func(footage.Frame) float64) (out []Span) {
	var all []float64
	for _, f := range frames {
		all = append(all, share(f))
	}
	slices.Sort(all)
	for k, f := range frames {
		if v := share(f); v < filled && v < all[len(all)/2]+sudden {
			continue
		}
		if n := len(out); n > 0 && out[n-1].To == k-1 {
			out[n-1].To = k
		} else {
			out = append(out, Span{k, k})
		}
	}
	return out
}

// still tells whether all frames lie on the first, and whether they agree with it besides. A
// take of one picture over and over has no poses to know, and is still.
func still(frames []footage.Frame) (camera, all bool) {
	camera, all = len(frames) > 1, len(frames) > 1
	same := len(frames) > 1
	for _, f := range frames[min(1, len(frames)):] {
		p := f.FromFirst
		bound := max(stillPixels, surely*math.Hypot(p.Doubt.X, p.Doubt.Y))
		camera = camera && p.Known && math.Hypot(p.X, p.Y) <= bound
		all = all && p.Shared >= stillShared
		same = same && f.Changed == 0
	}
	return camera || same, camera && all || same
}
