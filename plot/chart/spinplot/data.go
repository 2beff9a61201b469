// Package spinplot draws which loops suit a stand: the closing error against
// the length of the loop, and where carriage and product are over the best one.
package spinplot

// Curve is the closing error of every loop at one capture rate and one speed.
type Curve struct {
	Name   string
	Screen []float64 // on-screen seconds, rising
	Off    []float64 // the error's size in Data.Unit, at least 0; as many
	Dots   []Dot     // the loops nearest to a match
}

// Dot is a loop on a curve.
type Dot struct {
	Screen, Off float64
	Good        bool   // within the bound
	Label       string // "" for none
}

// Phase is one thing over the best loop.
type Phase struct {
	Name  string
	Axis  string  // what 0 to 1 is: "near end to far end"
	Shape []Point // in order of Screen, which may repeat where it falls back
	End   string  // what is said of its end
}

// Point is a share, 0 to 1, at a time on screen.
type Point struct{ Screen, Share float64 }

// Data is what a figure shows.
type Data struct {
	Title  string
	Lines  []string // small print below the title
	Unit   string   // "px", "mm", "degrees" or "times the bound"
	Bound  float64  // in Unit; 0 where curves have bounds of their own
	Within string   // the bound in words
	Curves []Curve
	Best   string // "815 captured frames, 33.992 s on screen"
	Screen float64
	Phases []Phase
}
