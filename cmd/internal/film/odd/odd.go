// Package odd is what is said of a recording that is not as it should be: remarks, beside
// which its frames are still of use; where it was cut off; and how large a frame may be.
package odd

import (
	"fmt"
	"io"
)

// Kind is what a remark is about, for whoever acts on it.
type Kind string

// The kinds of remarks.
const (
	Gap        Kind = "gap"        // numbers of stills are missing
	Mixed      Kind = "mixed"      // stills of several series lie in one folder
	Variable   Kind = "variable"   // frames do not follow each other evenly
	Interlaced Kind = "interlaced" // a frame holds two moments
	Fewer      Kind = "fewer"      // frames than it says
	More       Kind = "more"       // frames than it says
	Truncated  Kind = "truncated"  // it ends within a frame
	Rate       Kind = "rate"       // the rate was told by hand, or is not told at all
	Levels     Kind = "levels"     // which values are black and white is assumed
	Died       Kind = "decoder"    // the decoder gave up, or found the film damaged
)

// Remark is one thing that is odd of a recording, in a sentence without a full stop.
type Remark struct {
	Kind Kind
	Text string
}

func (r Remark) String() string { return r.Text }

// Remarks are those of a recording, in the order in which they were found.
type Remarks []Remark

// Add has one more, of a kind that is told once: a recording that is interlaced is so in
// each of its frames.
func (r *Remarks) Add(kind Kind, format string, args ...any) {
	for _, has := range *r {
		if has.Kind == kind {
			return
		}
	}
	*r = append(*r, Remark{kind, fmt.Sprintf(format, args...)})
}

// Cut is the error where a recording ends before it should. The frames before are whole,
// and whoever has read them may go on with them.
type Cut struct {
	Name   string // of the recording
	Frames int    // that came before, counted from its first
	Byte   int64  // at which it ended; 0 where nobody counts
	Why    string // "" where it just ends
}

func (c *Cut) Error() string {
	at := ""
	if c.Byte > 0 {
		at = fmt.Sprintf(" at byte %d", c.Byte)
	}
	why := c.Why
	if why == "" {
		why = "it ends within a frame"
	}
	left := fmt.Sprintf("the %s before can be used", Count(c.Frames))
	if c.Frames == 0 {
		left = "no frame came before"
	}
	return fmt.Sprintf("%s is cut off%s: %s; %s", c.Name, at, why, left)
}

// Unwrap is io.ErrUnexpectedEOF.
func (*Cut) Unwrap() error { return io.ErrUnexpectedEOF }

// Count is so many frames in words.
func Count(n int) string {
	if n == 1 {
		return "1 frame"
	}
	return fmt.Sprintf("%d frames", n)
}

const (
	// MaxSide is the greatest width and height of a frame, in pixels: twice the widest
	// that cameras record as film today.
	MaxSide = 16384
	// MaxPixels is how many pixels a frame may have in all: those of the largest stills
	// that cameras make in one piece (100 million), of which one is 400 MB as it is
	// measured. More is a file that lies.
	MaxPixels = 100_000_000
)

// CheckSize is an error where a frame of name has no pixels or too many.
func CheckSize(name string, width, height int) error {
	switch {
	case width < 1 || height < 1:
		return fmt.Errorf("%s has frames of %d x %d px; both must be at least 1", name, width, height)
	case width > MaxSide || height > MaxSide || width*height > MaxPixels:
		return fmt.Errorf("%s has frames of %d x %d px; at most %d px a side and %d million in all are read: reduce it first", name, width, height, MaxSide, MaxPixels/1_000_000)
	}
	return nil
}
