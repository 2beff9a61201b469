package virtual

import "math"

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
