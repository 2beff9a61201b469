package ontime

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/root"
	"seamrail/motion/controller/segment"
)

// A board that goes no slower than some steps a second goes slower on the mean where
// it steps and stands by turns: a few steps at a pace it has, and a dwell. A motor that
// is told one step in a tenth of a second does nothing else.

const (
	// treadPace is the pace of the steps, over the slowest the board has, and
	// treadSlow the one below which no step of a tread goes.
	treadPace = 2
	treadSlow = 1.15
	// treadLeft is the share of their time that the last steps of a tread keep at the
	// least where those before have taken too long: twice their pace is still slow.
	treadLeft = 0.5
	// treadBelow is the pace of the path, over the slowest, below which it is gone in
	// treads: well below that of the steps, so that there is time to stand.
	treadBelow = 1.3
	// crawling is the share of a round in motion from which on nothing else would do,
	// and gentle that at which slow ends of moves have other cures.
	crawling = 0.25
	gentle   = 0.02
)

// crawls is the share of its motion in which the path is slower than the board, where
// one axis moves alone.
func (m *machine) crawls() float64 {
	if m.slowest == 0 || m.link.Single {
		return 0
	}
	const looks = 500
	slow, moving := 0, 0
	period := m.t.Period().Float()
	for k := range looks {
		if axis, ok := m.alone((float64(k) + 0.5) / looks * period); ok {
			moving++
			if m.rateAt(axis, (float64(k)+0.5)/looks*period) < m.slowest {
				slow++
			}
		}
	}
	return float64(slow) / max(1, float64(moving))
}

// alone returns the only axis that moves at a time.
func (m *machine) alone(sec float64) (axis int, ok bool) {
	axis = -1
	for i := range m.axes {
		if m.rateAt(i, sec) > 0 {
			if axis >= 0 {
				return 0, false
			}
			axis = i
		}
	}
	return axis, axis >= 0
}

// rateAt is how many steps a second an axis goes at.
func (m *machine) rateAt(axis int, sec float64) float64 {
	return math.Abs(m.t.State(axis, sec).Vel) * m.axes[axis].StepsPerUnit.Float()
}

// trodden are the blocks of a stage, from a place and a time on, with what is too slow
// for the board in treads. The first step of a take comes at once, so that the take is
// seen to begin.
func (m *machine) trodden(blocks []segment.Block, start []float64, from exact.Rat, along path, first bool) []segment.Block {
	var out []segment.Block
	at := start
	for i := 0; i < len(blocks); {
		n := stretch(blocks[i:], at)
		leg := blocks[i : i+n]
		end, lasts := blocks[i+n-1].End, segment.Total(leg)
		if axis, ok := moving(at, midway(at, end), end); ok && !leg[0].Rest {
			w := m.walker(leg, axis, at, from, along)
			w.first = first && i == 0
			leg = w.legs(leg)
		}
		out = append(out, leg...)
		at, from = end, from.Add(lasts)
		i += n
	}
	return out
}

// walker goes along one leg of one axis.
type walker struct {
	m           *machine
	along       path
	axis        int
	per, dir    float64
	from, until float64 // s of the path
	begin, end  []float64
	first       bool // the take begins with it
}

func (m *machine) walker(leg []segment.Block, axis int, at []float64, from exact.Rat, along path) walker {
	w := walker{m: m, along: along, axis: axis, per: m.axes[axis].StepsPerUnit.Float(), begin: at}
	w.from, w.until = from.Float(), from.Add(segment.Total(leg)).Float()
	w.end = leg[len(leg)-1].End
	w.dir = math.Copysign(1, w.end[axis]-at[axis])
	return w
}

// legs is the leg with what is slow of it in treads.
func (w *walker) legs(leg []segment.Block) []segment.Block {
	var out []segment.Block
	lasts := segment.Total(leg)
	now := w.from
	for now < w.until {
		slow := w.slow(now)
		to := w.change(now, slow)
		if slow {
			out = append(out, w.tread(now, to)...)
		} else {
			out = append(out, w.part(leg, now, to)...)
		}
		now = to
	}
	last := &out[len(out)-1] // times of treads are rounded
	last.Seconds = last.Seconds.Add(lasts.Sub(segment.Total(out)))
	return out
}

// changeGrain is how finely it is looked for where a path gets slow, s.
const changeGrain = 0.01

func (w *walker) slow(sec float64) bool {
	return w.rate(min(sec+changeGrain/2, w.until)) < treadBelow*w.m.slowest
}

// rate is how many steps a second the axis goes at.
func (w *walker) rate(sec float64) float64 {
	_, vel := w.along(w.axis, sec)
	return math.Abs(vel) * w.per
}

// change is when the path is slow no more, or is again: on a whole step.
func (w *walker) change(now float64, slow bool) float64 {
	for sec := now + changeGrain; sec < w.until; sec += changeGrain {
		if w.slow(sec) == slow {
			continue
		}
		if on := w.when(math.Round(w.at(sec))); on > now+changeGrain && on < w.until-changeGrain {
			return on
		}
	}
	return w.until
}

// at is on which step the axis is at a time, counted the way it goes.
func (w *walker) at(sec float64) float64 {
	pos, _ := w.along(w.axis, sec)
	return pos * w.dir * w.per
}

// step is the step that the axis is nearest to at a time; at the ends of the leg that
// of where it begins and ends.
func (w *walker) step(sec float64) float64 {
	switch sec {
	case w.from:
		return math.Round(w.begin[w.axis]*w.per) * w.dir
	case w.until:
		return math.Round(w.end[w.axis]*w.per) * w.dir
	}
	return math.Round(w.at(sec))
}

// when is the time at which the axis is on a step.
func (w *walker) when(steps float64) float64 {
	_, high := root.Bisect(w.from, w.until, 100, 1e-9,
		func(sec float64) bool { return w.at(sec) < steps })
	return high
}

// place is where all axes are when this one is on a step.
func (w *walker) place(step float64) []float64 {
	switch step {
	case w.step(w.from):
		return w.begin
	case w.step(w.until):
		return w.end
	}
	out := append([]float64(nil), w.begin...)
	out[w.axis] = w.dir * step / w.per
	return out
}

// part is what is left of the leg's own blocks between two times.
func (w *walker) part(leg []segment.Block, from, to float64) []segment.Block {
	if cut := w.until - to; cut > 0 {
		leg = curtail(leg, nanos(cut))
		leg[len(leg)-1].End = w.place(w.step(to))
	}
	if cut := from - w.from; cut > 0 {
		leg = behead(leg, nanos(cut))
	}
	return leg
}

// tread steps and stands by turns from one time to another.
func (w *walker) tread(from, to float64) []segment.Block {
	var out []segment.Block
	done, all := w.step(from), w.step(to)
	if done >= all {
		return w.stand(from, to)
	}
	begun := done
	now := from
	for done < all {
		n := min(w.together(done), all-done)
		lasts := n / (treadPace * w.m.slowest)
		starts := w.when(done+n/2) - lasts/2
		if w.first && done == begun && now == w.from {
			n, lasts, starts = 1, w.m.firstLasts(w.axis), now
		}
		if done+n == all && to < w.until {
			starts = min(starts, to-lasts)
		}
		told, real := w.m.stands(starts - now)
		if real > 0 {
			out = append(out, segment.Block{Rest: true, Seconds: nanos(real), Nominal: exact.FromFloat(told), End: w.place(done)})
			now += real
		} else if len(out) > 0 && starts > now { // no time to stand: the steps before go on as long
			out[len(out)-1].Seconds = out[len(out)-1].Seconds.Add(nanos(starts - now))
			now = starts
		}
		done += n
		out = append(out, segment.Block{Seconds: nanos(lasts), Nominal: nanos(lasts), End: w.place(done)})
		now += lasts
	}
	if out = w.settle(out, done, to-now, to == w.until); out == nil {
		return w.straight(from, to)
	}
	return out
}

// straight goes from one time to another in one block: where steps at the pace of a
// tread take longer than there is, as in a short quick move whose ends alone are slow.
func (w *walker) straight(from, to float64) []segment.Block {
	sec := nanos(to - from)
	return []segment.Block{{Seconds: sec, Nominal: sec, End: w.place(w.step(to))}}
}

// together is how many steps are made at once, such that there is time to stand for a
// grain before them.
func (w *walker) together(done float64) float64 {
	rate := max(w.rate(w.when(done+0.5)), 1e-9)
	pace := treadPace * w.m.slowest
	return max(1, math.Ceil(w.m.leastStand()/(1/rate-1/pace)))
}

// leastStand is the shortest dwell, s.
func (m *machine) leastStand() float64 {
	return m.c.DwellGrain + m.board.Turn.Seconds() + m.besideDwell()
}

// stands is the longest dwell of no more than sec, as it is told and as it is.
func (m *machine) stands(sec float64) (told, real float64) {
	if sec <= m.besideDwell() {
		return 0, 0
	}
	return m.dwell(sec, false)
}

// stand is time in which there is no step.
func (w *walker) stand(from, to float64) []segment.Block {
	sec := nanos(to - from)
	return []segment.Block{{Rest: true, Seconds: sec, Nominal: sec, End: w.place(w.step(to))}}
}

// settle makes what has been trodden last as long as it is to: left is what is
// missing. A stand at the end of a leg takes whole grains of it, and the steps before
// as much as they may, by going slower. What is too long is taken off the last steps;
// nil where that is more of them than may be.
func (w *walker) settle(out []segment.Block, done, left float64, ends bool) []segment.Block {
	if ends {
		if told, real := w.m.stands(left); real > 0 {
			out = append(out, segment.Block{Rest: true, Seconds: nanos(real), Nominal: exact.FromFloat(told), End: w.place(done)})
			left -= real
		}
	}
	for i := len(out) - 1; i >= 0 && left > 0; i-- {
		if out[i].Rest {
			continue
		}
		before := w.begin[w.axis]
		if i > 0 {
			before = out[i-1].End[w.axis]
		}
		steps := max(1, math.Round(math.Abs(out[i].End[w.axis]-before)*w.per))
		more := min(left, steps/(treadSlow*w.m.slowest)-out[i].Seconds.Float())
		if more > 0 {
			out[i].Seconds = out[i].Seconds.Add(nanos(more))
			left -= more
		}
	}
	n := len(out)
	if left == 0 || n == 0 {
		return out
	}
	last := &out[n-1].Seconds
	if last.Float()+left < treadLeft*last.Float() {
		return nil
	}
	*last = last.Add(nanos(left))
	return out
}
