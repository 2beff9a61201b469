// Package reduce cuts a region out of frames and makes it smaller while their rows come by,
// so that a frame is never held as large as it was recorded.
//
// Each pixel of the result is the mean of the square that it covers of the recorded frame,
// with the share of each pixel at its edge: a box of its own size, which takes out most of
// what would alias and moves nothing. What is left over at the right and the bottom, less
// than a pixel of the result, is not seen.
package reduce

import (
	"fmt"
	"math"

	"seamrail/motion/footage"
)

// Region is a part of a frame in recorded pixels, from its left upper corner to the right
// and down. One without a size is all that there is.
type Region struct{ X, Y, Width, Height int }

func (r Region) all() bool { return r == Region{} }

const (
	// least is the smallest scale: a hundred-megapixel frame is smaller than an icon then.
	least = 1.0 / 256
	// whole is how near a step must be to a whole number of pixels to be that: a scale
	// such as 0.333333 is meant as a third.
	whole = 1e-5
)

// Grid is how the pixels of what comes out lie in the recorded frame.
type Grid struct {
	Region        Region  // none of it is without a size
	Step          float64 // recorded pixels to a pixel, at least 1
	Width, Height int     // pixels that come out
}

// NewGrid is the grid of a region of a frame of so many pixels at a scale above 0 and up to
// 1; 0 is 1. It returns an error where the region is not within the frame, or where nothing
// of it is left.
func NewGrid(width, height int, r Region, scale float64) (Grid, error) {
	if r.all() {
		r = Region{Width: width, Height: height}
	}
	if r.X < 0 || r.Y < 0 || r.Width < 1 || r.Height < 1 || r.X > width-r.Width || r.Y > height-r.Height {
		return Grid{}, fmt.Errorf("region of %d x %d px at %d, %d is not within the frame; it has %d x %d px", r.Width, r.Height, r.X, r.Y, width, height)
	}
	step, err := stepOf(scale)
	if err != nil {
		return Grid{}, err
	}
	g := Grid{Region: r, Step: step, Width: int(float64(r.Width) / step), Height: int(float64(r.Height) / step)}
	if g.Width < 1 || g.Height < 1 {
		return Grid{}, fmt.Errorf("scale %g leaves nothing of a region of %d x %d px; use at least %.3g", scale, r.Width, r.Height, 1/float64(min(r.Width, r.Height)))
	}
	return g, nil
}

func stepOf(scale float64) (float64, error) {
	if scale == 0 {
		return 1, nil
	}
	if !(scale >= least && scale <= 1) {
		return 0, fmt.Errorf("scale %g must be above 0, at least 1/%g and at most 1; 0.5 is half as wide and high", scale, 1/least)
	}
	step := 1 / scale
	if near := math.Round(step); math.Abs(step-near) < whole*near {
		step = near
	}
	return step, nil
}

// Recorded is where a point of what comes out lies in the recorded frame, both in pixels
// whose middle is a whole number.
func (g Grid) Recorded(u, v float64) (x, y float64) {
	return float64(g.Region.X) + (u+0.5)*g.Step - 0.5, float64(g.Region.Y) + (v+0.5)*g.Step - 0.5
}

// fit makes room for what comes out, in the memory that is there where it suffices.
func (g Grid) fit(into *footage.Gray) {
	into.Width, into.Height = g.Width, g.Height
	if n := g.Width * g.Height; cap(into.Pix) < n {
		into.Pix = make([]float32, n)
	} else {
		into.Pix = into.Pix[:n]
	}
	clear(into.Pix)
}
