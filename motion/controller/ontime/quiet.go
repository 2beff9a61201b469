package ontime

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/segment"
)

const (
	// quietWay is how far, in mm or degrees, a path may be from where it begins or
	// ends for the axis to stand there: it is off by it, and by little more.
	quietWay = 0.03
	// quietGrain is how finely the time at which a path is fast enough is looked
	// for, s, and minQuiet below what time there is nothing to gain.
	quietGrain = 0.005
	minQuiet   = 0.06
	// maxQuiet is the share of a move that may be stood through at either end.
	maxQuiet = 0.25
)

// quieted is the round with the very slow beginnings and ends of its moves stood
// through, for boards that go no slower than some steps a second and would be
// early there. At the beginning of a take the first step comes at once, so that
// the take is seen to begin.
func (m *machine) quieted(round []segment.Block, start []float64) []segment.Block {
	if !m.creeps() {
		return round
	}
	var out []segment.Block
	at, from := start, exact.Rat{}
	up, _ := m.t.RampFrames()
	for i := 0; i < len(round); {
		n := stretch(round[i:], at)
		leg := round[i : i+n]
		lasts := segment.Total(leg)
		if !leg[0].Rest {
			leg = m.quiet(leg, at, from, i == 0 && up == 0)
		}
		out = append(out, leg...)
		at, from = round[i+n-1].End, from.Add(lasts)
		i += n
	}
	return out
}

// creeps tells whether there is a pace below which the board does not go that ends of
// moves may fall below: one that is not told in ticks goes no slower than a line says.
func (m *machine) creeps() bool { return m.slowest > 0 || m.link.Single }

// quiet stands through the ends of one move, from place at and time from on.
func (m *machine) quiet(leg []segment.Block, at []float64, from exact.Rat, first bool) []segment.Block {
	end := leg[len(leg)-1].End
	axis, ok := moving(at, midway(at, end), end)
	if !ok {
		return leg
	}
	lasts := segment.Total(leg)
	begin, until := from.Float(), from.Add(lasts).Float()
	head := m.slow(axis, begin, +1, lasts.Float())
	tail := m.slow(axis, until, -1, lasts.Float())
	if head > 0 {
		leg = behead(leg, nanos(head))
		rest := []segment.Block{{Seconds: nanos(head), Nominal: nanos(head), End: at, Rest: true}}
		if first {
			rest = m.firstStep(rest[0], axis, math.Copysign(1, end[axis]-at[axis]))
		}
		leg = append(rest, leg...)
	}
	if tail > 0 {
		leg = curtail(leg, nanos(tail))
		leg[len(leg)-1].End = end
		leg = append(leg, segment.Block{Seconds: nanos(tail), Nominal: nanos(tail), End: end, Rest: true})
	}
	return leg
}

func midway(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = (a[i] + b[i]) / 2
	}
	return out
}

// slow is for how long from sec on, in a direction of time, an axis is slower than
// the board goes, and near where it was; 0 where that is too short or too long.
func (m *machine) slow(axis int, sec, dir, lasts float64) float64 {
	least := max(minFeed, slowMargin*m.slowest/m.axes[axis].StepsPerUnit.Float())
	here := m.t.State(axis, sec).Pos
	for q := 0.0; q < maxQuiet*lasts; q += quietGrain {
		s := m.t.State(axis, sec+dir*q)
		if math.Abs(s.Vel) >= least || math.Abs(s.Pos-here) > quietWay {
			if q -= quietGrain; q < minQuiet {
				return 0
			}
			return q
		}
	}
	return 0
}

// firstSeconds is how long the first step takes at the least, and firstTimes how
// many times as long as it would from rest to rest at the board's acceleration: the
// timer counts on by its interval through the rest that follows, and a short one
// leaves little in doubt.
const (
	firstSeconds = 0.01
	firstTimes   = 1.5
)

func (m *machine) firstLasts(axis int) float64 {
	per := m.axes[axis].StepsPerUnit.Float()
	return max(firstSeconds, firstTimes*2*math.Sqrt(1/per/m.board.Axes[axis].Acceleration))
}

// firstStep makes one step at the beginning of a rest.
func (m *machine) firstStep(rest segment.Block, axis int, dir float64) []segment.Block {
	sec := nanos(m.firstLasts(axis))
	step := rest
	step.Rest, step.Seconds, step.Nominal = false, sec, sec
	step.End = append([]float64(nil), rest.End...)
	step.End[axis] += dir / m.axes[axis].StepsPerUnit.Float()
	rest.Seconds = rest.Seconds.Sub(sec)
	rest.Nominal, rest.End = rest.Seconds, step.End
	return []segment.Block{step, rest}
}

// behead takes the first sec off the blocks; what is left ends where they did.
func behead(leg []segment.Block, sec exact.Rat) []segment.Block {
	for len(leg) > 1 && !sec.Less(leg[0].Seconds) {
		sec, leg = sec.Sub(leg[0].Seconds), leg[1:]
	}
	out := clone(leg)
	out[0].Seconds = out[0].Seconds.Sub(sec)
	return out
}

// curtail takes the last sec off the blocks.
func curtail(leg []segment.Block, sec exact.Rat) []segment.Block {
	n := len(leg)
	for n > 1 && !sec.Less(leg[n-1].Seconds) {
		sec, n = sec.Sub(leg[n-1].Seconds), n-1
	}
	out := clone(leg[:n])
	out[n-1].Seconds = out[n-1].Seconds.Sub(sec)
	return out
}

// stillShare is the share of a step within which an axis counts as at rest.
const stillShare = 0.25

// still is the round with blocks in which nothing goes as much as a part of a step,
// one after the other, as rests: a path that was made to measure creeps where it
// should hold.
func (m *machine) still(round []segment.Block, start []float64) []segment.Block {
	var out []segment.Block
	at := start
	for i := 0; i < len(round); {
		n := i
		for n < len(round) && !round[n].Rest && m.near(at, round[n].End) {
			n++
		}
		if n > i && segment.Total(round[i:n]).Float() >= minQuiet {
			b := group(round[i:n])
			b.Rest, b.Nominal, b.End = true, b.Seconds, at
			out = append(out, b)
			i = n
			continue
		}
		out = append(out, round[i])
		at = round[i].End
		i++
	}
	return out
}

func (m *machine) near(a, b []float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i])*m.axes[i].StepsPerUnit.Float() > stillShare {
			return false
		}
	}
	return true
}
