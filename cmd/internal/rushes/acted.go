package rushes

import (
	"slices"

	"seamrail/motion/footage/hands"
)

// Acted tells what was seen of cues in a take, at so many frames a second of real time: beside the
// same frames of other rounds where there are any, else beside the frame before. It holds no more
// than the take does: what is left of a frame is worked out as it is asked for. Wide is how many
// recorded pixels wide what was looked at is; 0 for all of a frame.
func (t *Take) Acted(wide int, r hands.Rounds, rate float64, cues []hands.Cue) []hands.Seen {
	if wide == 0 {
		wide = t.Course.About.Width
	}
	px := float64(wide) / float64(max(t.Sketches.Width, 1))
	first := hands.Look(hands.Again(t.Sketches, t.Course.Frames, px, r, rate, cues), rate, cues)
	if !slices.ContainsFunc(first, notTold) {
		return first
	}
	for n, s := range hands.Look(hands.Sketched(t.Sketches, t.Course.Frames, px), rate, cues) {
		if notTold(first[n]) {
			first[n] = s
		}
	}
	return first
}

func notTold(s hands.Seen) bool { return s.Kind == hands.NotTold }
