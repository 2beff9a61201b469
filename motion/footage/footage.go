// Package footage has the values in which a recording is spoken of: its frames as what is
// measured of them, and how each lies on another. Frames count from 0, as they follow each
// other in the recording; pixels are those of the frame as it was recorded, to the right and
// down, whatever share of it is looked at.
package footage

import (
	"seamrail/motion/base/exact"
)

// Gray is how bright a frame is, row by row from above, each pixel as it is encoded: 0 is black,
// 1 white. What is encoded is no measure of light until it is known by which law.
type Gray struct {
	Width, Height int
	Pix           []float32 // Width*Height of them
}

// Row is one row of pixels.
func (g Gray) Row(y int) []float32 { return g.Pix[y*g.Width : (y+1)*g.Width] }

// NewGray has room for a picture of so many pixels.
func NewGray(width, height int) Gray {
	return Gray{Width: width, Height: height, Pix: make([]float32, width*height)}
}

// About is what a recording says of itself.
type About struct {
	Name          string    // of the file or the pattern
	Width, Height int       // pixels of a frame as it was recorded
	Bits          int       // a channel; 0 where it is not told
	Rate          exact.Rat // frames a second as the container has them; 0 where it has none
	Start         string    // timecode of its first frame; "" where it has none
	Frames        int       // how many it says it has; 0 where it does not
}

// Pose is how a frame lies on another: a point of that one at (u, v) from the middle of the
// picture is found in the frame at
//
//	(X, Y) + Scale * R(Turn) * (u, v)
//
// where R turns from the x axis, to the right, towards the y axis, down: clockwise as it is
// seen. Each has its standard uncertainty.
type Pose struct {
	X, Y   float64 // px
	Turn   float64 // degrees
	Scale  float64 // 1 where nothing has grown
	Doubt  Doubt
	Shared float64 // 0 to 1: the share of the picture on which both agree
	Known  bool    // false where the two have nothing in common, and all else is nothing
}

// Doubt are standard uncertainties of a Pose (JCGM 100), one sigma.
type Doubt struct {
	X, Y  float64 // px
	Turn  float64 // degrees
	Scale float64
}

// Course is where a take went: for each frame how it lies on frame 0 and on the frame before,
// and how bright it is.
type Course struct {
	About  About
	Frames []Frame
}

// Frame is what was measured of one frame.
type Frame struct {
	FromFirst  Pose    // on frame 0, chained where they share too little
	FromBefore Pose    // on the frame before; frame 0 has none
	Mean       float64 // of what is encoded, 0 to 1
	Black      float64 // the share of pixels at the lowest values
	White      float64 // the share of pixels at the greatest
	Changed    float64 // root mean square of the difference to the frame before, 0 to 1
	Otherwise  float64 // root mean square of what no gain and no offset of the frame before explains, 0 to 1: at most Changed
	Fine       float64 // root mean square of what is some four to eight pixels fine, of those that were looked at, 0 to 1: less where it is blurred
}
