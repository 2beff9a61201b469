package segment

import (
	"math"

	"seamrail/motion/exact"
)

// instantGrain is what times of boundaries are rounded to: a nanosecond, far
// below what any controller counts.
const instantGrain = 1_000_000_000

// newtonTurns find an instant on a smooth stretch to a nanosecond, from half a
// step away.
const newtonTurns = 3

// path is where an axis is at a time, and how fast.
type path func(axis int, sec float64) (pos, vel float64)

// onSteps moves each boundary inside a stretch in which a single axis moves to
// the nearest whole step, and to the time at which the path is there, so that
// rounding to steps costs no time. Boundaries at reversals and at the ends
// stay. Begin is the time at which the first block begins; at tells where the
// axes are.
func (m *machine) onSteps(blocks []Block, rest []float64, begin exact.Rat, at path) {
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

// toStep moves the boundary between two blocks.
func (m *machine) toStep(b, next *Block, start []float64, sec exact.Rat, at path) {
	axis, ok := moving(start, b.End, next.End)
	if !ok {
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

// joined returns the blocks without those in which no motor would step: their
// time goes to the next that steps, or, before a rest or the end, to the one
// before.
func (m *machine) joined(blocks []Block, rest []float64) []Block {
	out := blocks[:0]
	last := m.stepsAt(rest)
	var owed exact.Rat
	for i := range blocks {
		b := blocks[i]
		here := m.stepsAt(b.End)
		still := same(last, here)
		ends := i+1 == len(blocks) || blocks[i+1].Rest
		switch {
		case b.Rest || !still:
			b.Seconds = b.Seconds.Add(owed)
			out, owed = append(out, b), exact.Rat{}
		case ends && len(out) > 0 && !out[len(out)-1].Rest:
			before := &out[len(out)-1]
			before.Seconds = before.Seconds.Add(owed).Add(b.Seconds)
			before.End, owed = b.End, exact.Rat{}
		case ends:
			b.Seconds = b.Seconds.Add(owed)
			out, owed = append(out, b), exact.Rat{}
		default:
			owed = owed.Add(b.Seconds)
			continue
		}
		last = here
	}
	for i := range out {
		out[i].Nominal = out[i].Seconds
	}
	return out
}

func same(a, b []int64) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// stepsAt are the steps nearest to a place.
func (m *machine) stepsAt(place []float64) []int64 {
	out := make([]int64, len(place))
	for i, x := range place {
		out[i] = int64(math.Round(x * m.axes[i].StepsPerUnit.Float()))
	}
	return out
}
