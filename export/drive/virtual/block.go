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

// slowestFeed is the least nominal speed, in path units a second: a unit a
// minute. It keeps a block from lasting for ever.
const slowestFeed = 1.0 / 60

// block returns the block from one step count to another, or false when there
// is no step between them: such a line is dropped, and its time with it.
func (o *Options) block(from, to *[maxAxes]int64, r *order) (block, bool) {
	b := block{line: r.number, begins: *from}
	var way vector
	for i := range o.Axes {
		a := &o.Axes[i]
		d := to[i] - from[i]
		b.steps[i] = d
		b.events = max(b.events, d, -d)
		way[i] = float64(d) / a.StepsPerUnit * a.counts()
		b.length = math.Hypot(b.length, way[i])
	}
	if b.events == 0 {
		return b, false
	}
	for i := range o.Axes {
		b.unit[i] = way[i] / b.length
	}
	b.scale = float64(b.events) / b.length
	b.accel = o.along(&b.unit, axisAcceleration)
	most := o.along(&b.unit, func(a *Axis) float64 { return a.Speed })
	b.nominal = most
	if r.motion == 1 {
		b.nominal = math.Min(most, math.Max(o.pace(&b, r), slowestFeed))
	}
	return b, true
}

// pace returns the speed that F asks for, in path units a second.
func (o *Options) pace(b *block, r *order) float64 {
	perSecond := r.feed / 60
	if r.inverse {
		return perSecond * b.length
	}
	if o.AlongAll {
		return perSecond
	}
	linear := 0.0
	for i := range o.Axes {
		if !o.Axes[i].Rotary {
			linear = math.Hypot(linear, b.unit[i])
		}
	}
	if linear > 0 {
		return perSecond / linear
	}
	// Rotary axes alone: F is degrees a minute along them.
	degrees := 0.0
	for i := range o.Axes {
		degrees = math.Hypot(degrees, b.unit[i]/o.Axes[i].counts())
	}
	return perSecond / degrees
}

// stepsAt returns the nearest step count of a coordinate.
func (a *Axis) stepsAt(pos float64) int64 { return int64(math.Round(pos * a.StepsPerUnit)) }

func (a *Axis) unitsAt(steps int64) float64 { return float64(steps) / a.StepsPerUnit }

// within tells whether a coordinate lies inside the travel, to half a step.
func (a *Axis) within(pos float64) bool {
	half := 0.5 / a.StepsPerUnit
	return a.Endless || a.Min-half <= pos && pos <= a.Max+half
}
