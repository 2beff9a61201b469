package firmware

import "math"

// Block is one straight move in the ring. Speeds are in path units a minute, a
// path unit being a mm, or a degree counted as the board counts it.
type Block struct {
	Steps  Counts // signed
	Begins Counts // step counts before it
	Events int64  // steps of the busiest axis
	Line   int64  // number of the line that made it, or 0

	unit    Vector  // direction, of length 1
	length  float32 // path units still to go
	accel   float32 // path units/min², of the axis that binds
	nominal float32 // what F asks for, no more than the axes can
	entry2  float32 // planned entry speed, squared
	limit2  float32 // highest entry speed the corner allows, squared
}

// slowestFeed is the least nominal speed, in path units a minute: it keeps a
// block from lasting for ever.
const slowestFeed = 1

// Pace is what a line says of the time it takes.
type Pace struct {
	Feed    float32 // the F word
	Inverse bool    // F is one over the minutes
	Rapid   bool    // as fast as the axes can
}

// Block returns the block from one step count to another, or false when there
// is no step between them: such a line is dropped, and its time with it.
func (b *Board) Block(from, to *Counts, pace Pace) (Block, bool) {
	k := Block{Begins: *from}
	sum := float32(0)
	for i := range b.Axes {
		a := &b.Axes[i]
		d := to[i] - from[i]
		k.Steps[i] = d
		k.Events = max(k.Events, d, -d)
		k.unit[i] = float32(d) / float32(a.StepsPerUnit) * a.counts()
		sum += float32(k.unit[i] * k.unit[i])
	}
	if k.Events == 0 {
		return k, false
	}
	k.length = root(sum)
	k.unit.shrink(k.length, len(b.Axes))
	k.accel = b.along(&k.unit, acceleration)
	most := b.along(&k.unit, speed)
	k.nominal = most
	if !pace.Rapid {
		k.nominal = max(min(most, b.speed(&k, pace)), slowestFeed)
	}
	return k, true
}

func (v *Vector) shrink(by float32, axes int) {
	inverse := 1 / by
	for i := range axes {
		v[i] *= inverse
	}
}

func acceleration(a *Axis) float32 { return perMinute2(a.Acceleration) }

func speed(a *Axis) float32 { return float32(a.Speed * secondsMinute) }

// along returns how much of something a direction allows, given what each axis
// has in its own unit.
func (b *Board) along(unit *Vector, has func(a *Axis) float32) float32 {
	least := float32(math.MaxFloat32)
	for i := range b.Axes {
		if unit[i] != 0 {
			a := &b.Axes[i]
			least = min(least, abs(has(a)*a.counts()/unit[i]))
		}
	}
	return least
}

// speed returns what F asks for, in path units a minute.
func (b *Board) speed(k *Block, pace Pace) float32 {
	if pace.Inverse {
		return pace.Feed * k.length
	}
	if b.AlongAll {
		return pace.Feed
	}
	linear, degrees := float32(0), float32(0)
	for i := range b.Axes {
		if !b.Axes[i].Rotary {
			linear = hypot(linear, k.unit[i])
		} else {
			degrees = hypot(degrees, k.unit[i]/b.Axes[i].counts())
		}
	}
	if linear > 0 {
		return pace.Feed / linear
	}
	// Rotary axes alone: F is degrees a minute along them.
	return pace.Feed / degrees
}

func root(x float32) float32 { return float32(math.Sqrt(float64(x))) }

func hypot(a, b float32) float32 { return root(float32(a*a) + float32(b*b)) }

func abs(x float32) float32 {
	if x < 0 {
		return -x
	}
	return x
}

// round rounds halves away from 0.
func round(x float64) int64 { return int64(math.Round(x)) }
