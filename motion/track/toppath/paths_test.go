package toppath

import (
	"math"

	"seamrail/motion/track"
)

// curve is a path given by a function.
type curve struct {
	axes   int
	length float64
	closed bool
	at     func(s float64, to []track.State)
}

func (c curve) Axes() int                      { return c.axes }
func (c curve) Length() float64                { return c.length }
func (c curve) Closed() bool                   { return c.closed }
func (c curve) At(s float64, to []track.State) { c.at(s, to) }
func line(length float64, slopes ...float64) Path {
	return curve{len(slopes), length, false, func(s float64, to []track.State) {
		for i, k := range slopes {
			to[i] = track.State{Pos: k * s, Vel: k}
		}
	}}
}

// circle of one radius in two axes, by its angle.
func circle(radius float64) Path {
	return curve{2, 2 * math.Pi, true, func(s float64, to []track.State) {
		sin, cos := math.Sincos(s)
		to[0] = track.State{Pos: radius * cos, Vel: -radius * sin, Acc: -radius * cos, Jerk: radius * sin}
		to[1] = track.State{Pos: radius * sin, Vel: radius * cos, Acc: -radius * sin, Jerk: -radius * cos}
	}}
}

// swing goes from end to end and back as a cosine.
func swing(half float64) Path {
	return curve{1, 2 * math.Pi, true, func(s float64, to []track.State) {
		sin, cos := math.Sincos(s)
		to[0] = track.State{Pos: -half * cos, Vel: half * sin, Acc: half * cos, Jerk: -half * sin}
	}}
}
