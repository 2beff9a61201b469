package against

import (
	"math"

	"gonum.org/v1/gonum/floats"

	"seamrail/motion/vibration/spring"
)

// parts are those of a frame in which a load is followed on its spring: short beside the fastest
// swing that a frame rate can tell, of two frames.
const parts = 8

// driver is an axis whose carriage goes as planned, and whose load swings after it on a spring:
// while it moves, and when it rests.
type driver struct {
	l    *laid
	axis int
	push []float64 // units a second, by which each part of a frame changes the carriage's speed
	at   []int     // the part in which each frame is
	past []float64 // s from the beginning of that part
	base [][]float64
	y    []float64 // px, what is left over along the axis, without what the base explains
}

// newDriver looks at what is left over along an axis.
func (l *laid) newDriver(axis int, left [ways][]float64) (d driver, ok bool) {
	e, _ := l.effect(axis)
	size := e.size()
	if size == 0 {
		return d, false
	}
	d = driver{l: l, axis: axis, at: make([]int, l.n), past: make([]float64, l.n), y: make([]float64, l.n)}
	begin, h := l.first-1, 1.0/parts
	end := max(l.last, l.planned(float64(l.n))) + 1
	for j := begin; j < end; j += h {
		second := l.track.at(axis, j+h) - 2*l.track.at(axis, j) + l.track.at(axis, j-h)
		d.push = append(d.push, second*l.rate*parts)
	}
	for i := range d.at {
		part := max((l.planned(float64(i))-begin)*parts, -1)
		d.at[i] = min(int(math.Floor(part)), len(d.push)-1)
		d.past[i] = (part - math.Floor(part)) / parts / l.rate
		for k := range ways {
			d.y[i] += e[k] / size * left[k][i]
		}
	}
	one := make([]float64, l.n)
	for i := range one {
		one[i] = 1
	}
	for _, v := range append([][]float64{one}, l.pos...) {
		d.base = append(d.base, d.rid(append([]float64(nil), v...)))
		norm(d.base[len(d.base)-1])
	}
	d.rid(d.y)
	return d, true
}

// rid takes what does not count out of a row, and what the base explains.
func (d driver) rid(v []float64) []float64 {
	for i, w := range d.l.weights {
		v[i] *= step(w > 0)
	}
	for _, b := range d.base {
		floats.AddScaled(v, -floats.Dot(b, v), b)
	}
	return v
}

func norm(v []float64) {
	if size := floats.Norm(v, 2); size > 0 {
		floats.Scale(1/size, v)
	}
}

// follow is where the load is beside its carriage at each frame, in units, and its amplitude.
func (d driver) follow(s spring.Spring) (x, swing []float64) {
	x, swing = make([]float64, d.l.n), make([]float64, d.l.n)
	free := s.Free(1 / d.l.rate / parts)
	var state spring.State
	i := 0
	for i < len(d.at) && d.at[i] < 0 {
		i++
	}
	for p, push := range d.push {
		state.Vel -= push
		for ; i < len(d.at) && d.at[i] == p; i++ {
			x[i], swing[i] = onward(s, state, d.past[i]), s.Swing(state)
		}
		state = free.Times(state)
	}
	return x, swing
}

// onward is where a free swing is so many seconds later, less than a part of a frame: by the first
// terms of its series, of which the next is a thousandth of the fastest swing.
func onward(s spring.Spring, a spring.State, sec float64) float64 {
	w := s.Omega()
	acc := -w*w*a.Pos - 2*s.Damping*w*a.Vel
	jerk := -w*w*a.Vel - 2*s.Damping*w*acc
	return a.Pos + sec*(a.Vel+sec*(acc/2+sec*jerk/6))
}

// rest is the sum of squares that a spring leaves.
func (d driver) rest(s spring.Spring) float64 {
	x, _ := d.follow(s)
	d.rid(x)
	xx, xy := floats.Dot(x, x), floats.Dot(x, d.y)
	if xx == 0 {
		return math.Inf(1)
	}
	return floats.Dot(d.y, d.y) - xy*xy/xx
}

// search finds the spring that leaves least: all frequencies from low on, then the best improved.
func (d driver) search(low float64) (best swing, ok bool) {
	high := topShare * d.l.rate / 2
	best.rest = math.Inf(1)
	for f := low; f < high; f *= 1.02 {
		for _, damping := range dampings[1:6] {
			s := spring.Spring{Frequency: f, Damping: damping}
			if r := d.rest(s); r < best.rest {
				best.Spring, best.rest = s, r
			}
		}
	}
	if math.IsInf(best.rest, 1) {
		return best, false
	}
	d.improve(&best, low, high)
	return best, true
}

// improve makes a spring better, and works out how well it is known.
func (d driver) improve(s *swing, low, high float64) {
	s.Spring = simplex(s.Spring, low, high, d.rest)
	s.rest, s.driven = d.rest(s.Spring), true
	s.samples = int(floats.Sum(d.l.weights))
	s.fSure, s.dSure = bends(s.Spring, d.rest, float64(s.samples-len(d.base)-3))
}

// worthDriving is by how many times more than noise must be left over in a way, as squares, for it
// to be looked at whether axes set their loads swinging: chance comes to that in few takes.
const worthDriving = 1.3

// stirred tells whether more is left over in any way.
func (l *laid) stirred() bool {
	for k := range ways {
		sum, n := 0.0, 0.0
		for i, w := range l.weights {
			sum, n = sum+w*l.r[k][i]*l.r[k][i]/(l.rough[i]*l.rough[i]), n+w
		}
		if sum > worthDriving*n*l.sigma[k]*l.sigma[k] {
			return true
		}
	}
	return false
}

// drives are the swings that axes set their loads to, where anything is left over at all.
func (l *laid) drives() (out []candidate) {
	if l.has(AfterShake) || !l.stirred() {
		return nil
	}
	for a := range l.Axes {
		d, ok := l.newDriver(a, l.r)
		wins := l.restWindows(l.rests(a), false)
		if !ok || len(wins) == 0 {
			continue
		}
		if s, ok := d.search(max(spring.MinFrequency, leastSwings/longest(wins))); ok {
			e, _ := l.effect(a)
			s.wins = wins
			about := label{cause: AfterShake, axis: a, swing: &s, along: e.times(1 / e.size()), frame: l.planned(float64(wins[0].frames[0]))}
			out = append(out, candidate{label: about, unknowns: 2, searched: float64(len(l.Axes)), above: true, make: func(l *laid) [][ways][]float64 {
				x, _ := d.follow(s.Spring)
				return along(a, x)(l)
			}})
		}
	}
	return out
}

func (e effect) times(f float64) effect {
	for k := range e {
		e[k] *= f
	}
	return e
}

// most is the greatest amplitude with which an axis's load swings as a rest of it begins, px.
func (x extra) most(l *laid) Number {
	s := x.label.swing
	d, ok := l.newDriver(x.label.axis, l.r)
	if !ok {
		return unknown()
	}
	e, _ := l.effect(x.label.axis)
	_, sizes := d.follow(s.Spring)
	most := 0.0
	for _, w := range s.wins {
		most = max(most, sizes[w.frames[0]])
	}
	return Number{most * x.beta[0] * e.size(), most * x.sure[0] * e.size()}
}
