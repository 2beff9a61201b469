package ontime

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/segment"
)

// instantGrain is what times of boundaries are rounded to: a nanosecond, far
// below what any controller counts.
const instantGrain = 1_000_000_000

// newtonTurns find an instant on a smooth stretch to a nanosecond, from half a
// step away.
const newtonTurns = 3

// path is where an axis is at a time, and how fast.
type path func(axis int, sec float64) (pos, vel float64)

// onSteps moves each boundary to the nearest whole steps, which is what the
// controller does with it; and, where a single axis moves, to the time at which
// the path is there, so that rounding to steps costs no time. Boundaries at reversals and at the ends
// stay. Begin is the time at which the first block begins; at tells where the
// axes are.
func (m *machine) onSteps(blocks []segment.Block, rest []float64, begin exact.Rat, at path) {
	start, sec := rest, begin
	for i := range blocks {
		b := &blocks[i]
		end := sec.Add(b.Seconds)
		if i+1 < len(blocks) && !b.Rest && !blocks[i+1].Rest {
			m.toStep(b, &blocks[i+1], start, sec, at)
			end = sec.Add(b.Seconds)
		}
		start, sec = b.End, end
	}
}

// snap moves every axis to its nearest step.
func (m *machine) snap(place []float64) {
	for i := range place {
		per := m.axes[i].StepsPerUnit.Float()
		place[i] = math.Round(place[i]*per) / per
	}
}

// toStep moves the boundary between two blocks.
func (m *machine) toStep(b, next *segment.Block, start []float64, sec exact.Rat, at path) {
	axis, ok := moving(start, b.End, next.End)
	if !ok {
		m.snap(b.End)
		return
	}
	per := m.axes[axis].StepsPerUnit.Float()
	goal := math.Round(b.End[axis]*per) / per
	begin := sec.Float()
	length := b.Seconds.Float()
	room := min(length, next.Seconds.Float()) / 4
	time := begin + length
	for range newtonTurns {
		pos, vel := at(axis, time)
		if vel == 0 {
			return
		}
		time += (goal - pos) / vel
	}
	if math.Abs(time-begin-length) > room {
		return
	}
	seconds := exact.New(int64(math.Round((time-begin)*instantGrain)), instantGrain)
	b.End[axis] = goal
	next.Seconds = next.Seconds.Add(b.Seconds).Sub(seconds)
	b.Seconds = seconds
}

// moving returns the only axis that moves, all one way, through the three
// places; false if there is none or several.
func moving(a, b, c []float64) (axis int, ok bool) {
	axis = -1
	for i := range a {
		if a[i] == b[i] && b[i] == c[i] {
			continue
		}
		if axis >= 0 || (b[i]-a[i])*(c[i]-b[i]) <= 0 {
			return 0, false
		}
		axis = i
	}
	return axis, axis >= 0
}
