// Package sheet makes the page of a shot that hangs on the clipboard: what to
// set, where everything stands, where the axes are when, what hands do, what to
// mind, and boxes for the takes. Whoever never saw this program can build the
// shot from it, with a rig of any kind.
//
// It is written as PDF on A4 (ISO 216) and as HTML that takes nothing from
// anywhere else. A number that nobody knows is a blank to fill in by hand.
package sheet

import (
	"image"

	"seamrail/plot/topview"
)

// Page is all that is on the page of one shot.
type Page struct {
	Title      string
	Facts      []string // below the title, a line each
	Presses    []string // what a person sets and presses, in its order, before all else
	Fails      []string // what does not hold and what is not known, before the rest
	Tape       []string // marks to make, a line each, below that
	Groups     []Group  // what is set on the camera and the lens, and where it stands
	Lamps      Table
	Dimmers    Table // what to set for the lamps that change, every so many frames
	Focus      Table // what a hand on the focus ring goes through
	Ring       Ring  // the same on a strip for the ring
	Marks      Table // where each axis is every so many frames
	Moves      Table // each way of each axis, from here to there in so many seconds
	Cues       Table
	Above      *topview.Data // the scene from above; nil where it cannot be drawn
	NotAbove   string        // why not
	Positions  Positions
	Stills     []Still
	StillNotes []string // what was filled in to draw them
	Cautions   []string
	Takes      int // that there are boxes for
	Foot       string
}

// Group is settings that belong together.
type Group struct {
	Name string
	Rows []Row
}

// Row is one setting. An empty value is a blank.
type Row struct{ Name, Value string }

// Table is rows below heads. An empty cell is a blank. A table without rows is
// left out.
type Table struct {
	Name  string
	Heads []string
	Rows  [][]string
	Notes []string // below it
}

// Still is one frame as the lens sees it.
type Still struct {
	Label   string
	Picture image.Image
}

// Positions are the axes over the loop.
type Positions struct {
	Frames int64   // timeline frames of the loop
	Real   float64 // real seconds that they take
	Step   int64   // timeline frames from one mark to the next
	Curves []Curve
}

// Curve is where one axis is, in its unit, at instants evenly spaced from frame
// 0 to the seam.
type Curve struct {
	Name, Unit string
	Values     []float64
}
