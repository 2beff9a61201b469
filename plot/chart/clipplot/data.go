// Package clipplot draws a clip as a strip: its shots in their places, how the
// motion goes across the cuts, and how rig and light stand for each.
package clipplot

// Mark is how the motion takes a cut.
type Mark int

// The marks.
const (
	Unsaid Mark = iota // not known
	Whole              // nothing is cut
	Easy               // rests or carries
	Change             // faster, slower, sets off, stops
	Break              // turns aside or reverses
)

// Block is one shot in its place.
type Block struct {
	Name       string
	Label      string  // timecode of its first frame
	Start, End float64 // seconds on screen, rising
	Frames     int64
	Hue        int // the same for the same thing filmed
	Rig, Light int // of Rigs and Lights
	Turn       int // when it is filmed, from 1
}

// Cut is the end of a block; the last is where the clip comes round.
type Cut struct {
	Mark  Mark
	Words string // "1 to 2: carries"
}

// Curve is a quantity over the clip, in pieces that do not join.
type Curve struct {
	Name  string
	Parts []Part
}

// Part is a curve over one block: seconds of the clip, rising, and values.
type Part struct{ Seconds, Values []float64 }

// Panel is what is drawn over the clip in one unit.
type Panel struct {
	Title  string
	Curves []Curve
}

// Data is what a strip shows. It has one cut for each block.
type Data struct {
	Title        string
	Lines        []string // small print below the title
	Blocks       []Block
	Cuts         []Cut
	Panels       []Panel
	Rigs, Lights []string // how they stand, in words
}

// seconds is how long the clip is.
func (d Data) seconds() float64 { return d.Blocks[len(d.Blocks)-1].End }
