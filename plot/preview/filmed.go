package preview

import (
	"fmt"
	"image"
	"io"

	"seamrail/motion/base/exact"
)

// SeamOf is a seam of pictures that were filmed: half of them before it, half behind, all of one
// size, with the numbers of their frames.
func SeamOf(frames []int64, stills []*image.RGBA) Seam {
	s := Seam{Frames: frames, Stills: stills}
	for i := 1; i < len(stills); i++ {
		s.Changes = append(s.Changes, change(stills[i-1], stills[i]))
	}
	return s
}

// WriteFilmed writes pictures that were filmed as an animated PNG that plays for ever, so many a
// second. They are asked for in order, one ahead. Of more than an animation holds it refuses.
func WriteFilmed(w io.Writer, pictures int, rate exact.Rat, at func(i int) *image.RGBA) (Animation, error) {
	if pictures < 1 || pictures > maxViews {
		return Animation{}, fmt.Errorf("a loop of %d pictures must have at least 1 and at most %d", pictures, maxViews)
	}
	one, err := NewDelay(exact.Int(1).Quo(rate))
	if err != nil {
		return Animation{}, err
	}
	out := Animation{Pictures: pictures, Seconds: exact.Int(int64(pictures)).Quo(rate), Off: one.Off.Mul(exact.Int(int64(pictures)))}
	delays := make([]Delay, pictures)
	for i := range delays {
		delays[i] = one
	}
	return out, wrapped(animate(w, delays, at))
}
