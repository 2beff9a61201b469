package against

import "math"

// candidates are all explanations there are for a take.
func (l *laid) candidates() (out []candidate) {
	out = append(out, candidate{label: label{cause: LateClock}, shape: slope(l.n, l.warps[0].late)})
	out = append(out, l.slowRounds()...)
	out = append(out, l.pauses()...)
	for a := range l.Axes {
		out = append(out, l.lagging(a)...)
		out = append(out, l.otherLaw(a))
	}
	out = append(out, candidate{label: label{cause: Drift}, make: creeping})
	out = append(out, l.shakes()...)
	out = append(out, l.drives()...)
	out = append(out, l.hums()...)
	return append(out, l.blows()...)
}

// shaped is a shape over the recording, of a function of planned frames.
func (l *laid) shaped(of func(planned float64) float64) []float64 {
	out := make([]float64, l.n)
	for i := range out {
		out[i] = of(l.planned(float64(i)))
	}
	return out
}

// slowRounds are rounds that take longer each: late by more and more in it, and by as much ever
// after.
func (l *laid) slowRounds() (out []candidate) {
	first, last := l.roundsSeen()
	if first == last {
		return nil
	}
	loop := float64(l.Loop)
	for r := first; r <= last; r++ {
		shape := l.shaped(func(j float64) float64 { return min(max(j/loop-float64(r), 0), 1) })
		out = append(out, candidate{label: label{cause: SlowRound, round: r, frame: float64(r) * loop}, shape: shape, searched: float64(last - first + 1)})
	}
	return out
}

// roundsSeen are the first and the last round of which anything was recorded.
func (l *laid) roundsSeen() (first, last int) {
	loop := float64(l.Loop)
	round := func(j float64) int { return min(max(int(math.Floor(j/loop)), 0), l.Rounds-1) }
	return round(l.planned(0)), round(l.planned(float64(l.n - 1)))
}

// pauses are rests that last longer than planned: once, and all after it is late; or in each
// round, and the move after it is late.
func (l *laid) pauses() (out []candidate) {
	for _, rests := range l.allRests() {
		out = append(out, l.paused(rests)...)
	}
	return out
}

func (l *laid) paused(rests []stretch) (out []candidate) {
	if len(rests) < 2 {
		return nil
	}
	loop := float64(l.Loop)
	for k, r := range rests[:len(rests)-1] {
		middle := (r.from + r.to) / 2
		next := (rests[k+1].from + min(rests[k+1].to, l.last)) / 2
		once := l.shaped(func(j float64) float64 { return step(j >= middle) })
		out = append(out, candidate{label: label{cause: OtherPause, frame: r.from}, shape: once, searched: 2 * float64(len(rests))})
		if r.from < loop && l.Rounds > 1 {
			each := l.shaped(func(j float64) float64 {
				j -= loop * math.Floor((j-middle)/loop)
				return step(j >= middle && j < next)
			})
			out = append(out, candidate{label: label{cause: OtherPause, round: -1, frame: r.from}, shape: each, searched: 2 * float64(len(rests))})
		}
	}
	return out
}

func step(on bool) float64 {
	if on {
		return 1
	}
	return 0
}

// lagging are what an axis may be behind by: its play, or steps lost where it turns.
func (l *laid) lagging(axis int) (out []candidate) {
	turns, first := l.turns(axis)
	if len(turns) == 0 {
		return nil
	}
	for _, before := range []float64{first, -first, 0} { // where in its play it set out is unknown
		out = append(out, candidate{label: label{cause: Backlash, axis: axis}, make: l.lag(axis, before), searched: 3, above: true})
	}
	for _, t := range turns {
		for _, when := range []float64{t.ended, t.sets} {
			after := l.shaped(func(j float64) float64 { return step(j >= when) })
			out = append(out, candidate{label: label{cause: LostSteps, axis: axis, turn: t, frame: when},
				make: along(axis, after), searched: 2 * float64(len(turns))})
		}
	}
	return out
}

// leastPlay is the share of an axis's travel that a play is at the least, where it is not known
// yet: so little that it is taken up at once.
const leastPlay = 1e-5

// lag is by how much a play of 1 holds an axis back, half to each side: what it carries stands
// until the play is taken up, and then goes along. Before the take it went the one way, 1, or the
// other, -1, or stands in the middle of its play, 0.
func (l *laid) lag(axis int, before float64) func(*laid) [][ways][]float64 {
	var path []float64
	for j := l.first; j <= l.track.last; j += grain {
		path = append(path, l.track.at(axis, j))
	}
	first := l.first
	return func(l *laid) [][ways][]float64 {
		play := leastPlay * l.travel[axis]
		for _, x := range l.extras {
			if x.label.cause == Backlash && x.label.axis == axis && len(x.beta) > 0 {
				play = max(play, x.beta[0])
			}
		}
		carried := pulled(path, play, before)
		return along(axis, l.shaped(func(j float64) float64 {
			k := min(max(int((j-first)/grain), 0), len(path)-1)
			p := l.track.at(axis, j)
			return (min(max(carried[k], p-play/2), p+play/2) - p) / play
		}))(l)
	}
}

// pulled is where what is carried is along a path, with a play: the play operator (M. Brokate and
// J. Sprekels, Hysteresis and Phase Transitions, Springer 1996, DOI 10.1007/978-1-4612-4048-8).
func pulled(path []float64, play, before float64) []float64 {
	out := make([]float64, len(path))
	at := path[0] - before*play/2
	for k, p := range path {
		at = min(max(at, p-play/2), p+play/2)
		out[k] = at
	}
	return out
}

// along is a shape in units of an axis, as it shows in the picture.
func along(axis int, shape []float64) func(*laid) [][ways][]float64 {
	return func(l *laid) [][ways][]float64 {
		var v [ways][]float64
		for k := range v {
			v[k] = make([]float64, l.n)
			for i, s := range shape {
				v[k][i] = l.gains[k][axis] * s
			}
		}
		return [][ways][]float64{v}
	}
}

// creeping is a slope in each way, px over the whole recording.
func creeping(l *laid) (out [][ways][]float64) {
	for k := range ways {
		var v [ways][]float64
		v[k] = make([]float64, l.n)
		for i := range v[k] {
			v[k][i] = float64(i)/float64(max(1, l.n-1)) - 0.5
		}
		out = append(out, v)
	}
	return out
}
