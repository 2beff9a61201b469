// Package shakeplot draws what a move leaves of after-shake against how long it
// takes, law by law, and how the load swings over the loop.
package shakeplot

// Curve is what one way leaves under a law, in units, at each duration in real
// seconds, rising.
type Curve struct {
	Name           string
	Seconds, Swing []float64
}

// Line is how far the load is from the carriage over the loop: on-screen
// seconds and units.
type Line struct {
	Name          string
	Screen, Units []float64
}

// Point is the shot as it stands.
type Point struct {
	Name           string
	Seconds, Swing float64
}

// Data is what a figure shows.
type Data struct {
	Title  string
	Notes  []string // small print below the title
	Unit   string   // "mm" or "deg"
	Period float64  // real seconds of one swing of the rig, above 0
	Curves []Curve
	Shot   *Point // nil: none is marked
	Lines  []Line // none: the loop is not drawn
	// Pixel is one pixel of the picture in units; 0 where that is not known.
	Pixel float64
}
