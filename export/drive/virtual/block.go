package virtual

import "math"

// maxAxes is how many axis words RS-274/NGC knows, and U V W.
const maxAxes = 9

// vector has one number an axis, in the order of Options.Axes.
type vector [maxAxes]float64

// block is one straight move in the planner. Speeds are in path units a
// second, a path unit being a mm, or a degree counted as the board counts it.
type block struct {
	line    int64          // N word, or 0
	steps   [maxAxes]int64 // signed
	events  int64          // the greatest of their sizes
	unit    vector         // direction, of length 1
	length  float64        // path units still to go
	scale   float64        // step events a path unit
	accel   float64        // path units/s², of the axis that binds
	nominal float64        // what F asks for, no more than the axes can
	entry2  float64        // planned entry speed, squared
	limit2  float64        // highest entry speed the corner allows, squared
	begins  [maxAxes]int64 // step counts before it
}

// reach2 returns the square of the speed reached from the square of another by
// the whole of what is left: v² = u² + 2as.
func (b *block) reach2(from2 float64) float64 { return from2 + 2*b.accel*b.length }

// Bounds of what counts as straight on, and as straight back: beyond them the
// formula for the corner divides by nothing.
const (
	straight = -0.999999
	reversal = 0.999999
)

// corner2 returns the square of the speed at which the corner between two
// directions may be taken: that of a circle which touches both and passes the
// corner at deviation, at the acceleration of the axis that binds. With half
// angle h between the moves, r = d*sin(h)/(1-sin(h)) and v² = a*r, by the
// geometry of the tangent circle.
func (o *Options) corner2(from, to *vector) float64 {
	cos := 0.0 // of the angle between the way back and the way on
	for i := range o.Axes {
		cos -= from[i] * to[i]
	}
	switch {
	case cos > reversal:
		return 0
	case cos < straight:
		return math.Inf(1)
	}
	var turn vector // the direction of the change of velocity
	size := 0.0
	for i := range o.Axes {
		turn[i] = to[i] - from[i]
		size = math.Hypot(size, turn[i])
	}
	for i := range o.Axes {
		turn[i] /= size
	}
	sin := math.Sqrt((1 - cos) / 2)
	return o.along(&turn, axisAcceleration) * o.JunctionDeviation * sin / (1 - sin)
}

// along returns how much of something a direction allows, given what each
// axis has in path units.
func (o *Options) along(unit *vector, has func(a *Axis) float64) float64 {
	least := math.Inf(1)
	for i := range o.Axes {
		if u := math.Abs(unit[i]); u > 0 {
			a := &o.Axes[i]
			least = math.Min(least, has(a)*a.counts()/u)
		}
	}
	return least
}

func axisAcceleration(a *Axis) float64 { return a.Acceleration }
