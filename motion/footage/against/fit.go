package against

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// The fit: way = rest + sum over axes of gain * position(time) + what else is laid on it. Only
// time is not linear; for a given time all else is one linear least-squares solve (variable
// projection: G. H. Golub and V. Pereyra, SIAM J. Numer. Anal. 10:413-432, 1973,
// DOI 10.1137/0710036), and time is improved by Gauss-Newton steps beside it.

// warp is how the time of the recording may go beside that of the plan: a shape over its frames,
// of which so many frames make the take late.
type warp struct {
	shape []float64
	late  float64
	sure  float64
	label label
}

// laid is a plan on a recording.
type laid struct {
	track
	series
	weights []float64       // of frames, 0 to 1
	sigma   [ways]float64   // px: the noise of each way
	warps   []warp          // the first one is when frame 0 is
	extras  []extra         // what is laid on top
	gains   [ways][]float64 // px a unit, by term
	sures   [ways][]float64 // their standard uncertainties
	rest    [ways]float64   // where the picture is while all axes are at 0, px
	r       [ways][]float64 // what is left over, px
	when    []float64       // the planned frame that each frame shows
	pos     [][]float64     // of each term at each frame
	speeds  [][]float64     // units a frame
	result  solved
	fitted  []int   // axes along which it was fitted how far the product is
	bent    float64 // frames: what that leaves in doubt of frame 0
}

// extra is what is laid on the motion: columns over all ways, made anew as gains get better.
type extra struct {
	label label
	make  func(*laid) [][ways][]float64 // px for a share of 1; nil ways are nothing
	beta  []float64
	sure  []float64
}

// lay works out positions and speeds.
func (l *laid) lay() {
	if l.pos == nil {
		for range l.terms() {
			l.pos, l.speeds = append(l.pos, make([]float64, l.n)), append(l.speeds, make([]float64, l.n))
		}
	}
	l.when = make([]float64, l.n)
	for i := range l.n {
		t := l.planned(float64(i))
		l.when[i] = t
		for a := range l.terms() {
			l.pos[a][i], l.speeds[a][i] = l.at(a, t), l.speed(a, t)
		}
	}
}

// weigh makes a column of what each way has, as weights and noise count it.
func (l *laid) weigh(v [ways][]float64) column {
	c := column{0, make([]float64, ways*l.n)}
	for k := range v {
		if v[k] == nil {
			continue
		}
		for i, x := range v[k] {
			c.v[k*l.n+i] = x * math.Sqrt(l.weights[i]) / (l.sigma[k] * l.rough[i])
		}
	}
	return c
}

// base are the columns of rest and gains, way by way.
func (l *laid) base() (cols []column) {
	for k := range ways {
		root := make([]float64, l.n)
		for i, w := range l.weights {
			root[i] = math.Sqrt(w) / (l.sigma[k] * l.rough[i])
		}
		cols = append(cols, column{k * l.n, root})
		for a := range l.terms() {
			c := make([]float64, l.n)
			floats.MulTo(c, l.pos[a], root)
			cols = append(cols, column{k * l.n, c})
		}
	}
	return cols
}

// lateness is what each way changes by for each frame that the take is late, by a shape.
func (l *laid) lateness(shape []float64) (v [ways][]float64) {
	for k := range v {
		v[k] = make([]float64, l.n)
		for i := range v[k] {
			sum := 0.0
			for a, g := range l.gains[k] {
				sum -= g * l.speeds[a][i]
			}
			if shape != nil {
				sum *= shape[i]
			}
			v[k][i] = sum
		}
	}
	return v
}

// columns are all of them: base, time, extras.
func (l *laid) columns(timed bool) []column {
	cols := l.base()
	if timed {
		for _, w := range l.warps {
			cols = append(cols, l.weigh(l.lateness(w.shape)))
		}
	}
	for _, e := range l.extras {
		for _, v := range e.make(l) {
			cols = append(cols, l.weigh(v))
		}
	}
	return cols
}

const (
	maxTurns = 12   // of Gauss-Newton; from within a frame it needs four
	settled  = 1e-5 // frames: a step that changes time by less is the last
	mostStep = 3.0  // frames: what is further off is not seen by the slope of a motion
)

// fit improves time and all that is laid on it until it stays.
func (l *laid) fit() {
	if l.gains[0] == nil {
		for k := range ways {
			l.gains[k], l.sures[k] = make([]float64, l.terms()), make([]float64, l.terms())
		}
		l.lay()
		l.take(solve(l.columns(false), l.weigh(l.y)), false)
	}
	for range maxTurns {
		l.lay()
		s := solve(l.columns(true), l.weigh(l.y))
		if l.take(s, true) < settled {
			break
		}
	}
	l.lay()
	l.leave()
}

// take takes what was solved, and tells by how much time has changed at the most.
func (l *laid) take(s solved, timed bool) (moved float64) {
	n := 0
	for k := range ways {
		l.rest[k] = s.beta[n]
		for a := range l.terms() {
			l.gains[k][a] = s.beta[n+1+a]
		}
		n += 1 + l.terms()
	}
	if timed {
		for w := range l.warps {
			d := s.beta[n]
			reach := 1.0
			for _, v := range l.warps[w].shape {
				reach = max(reach, math.Abs(v))
			}
			d = min(max(d, -mostStep/reach), mostStep/reach)
			l.warps[w].late += d
			moved = max(moved, math.Abs(d)*reach)
			n++
		}
	}
	for e := range l.extras {
		l.extras[e].beta = nil
		for range l.extras[e].make(l) {
			l.extras[e].beta = append(l.extras[e].beta, s.beta[n])
			n++
		}
	}
	l.result = s
	return moved
}

// leave works out what is left over.
func (l *laid) leave() {
	for k := range ways {
		l.r[k] = make([]float64, l.n)
		for i := range l.r[k] {
			model := l.rest[k]
			for a, g := range l.gains[k] {
				model += g * l.pos[a][i]
			}
			l.r[k][i] = l.y[k][i] - model
		}
	}
	for _, e := range l.extras {
		for c, v := range e.make(l) {
			for k := range v {
				if v[k] != nil {
					floats.AddScaled(l.r[k], -e.beta[c], v[k])
				}
			}
		}
	}
}

// doubts works out the standard uncertainties of all that was fitted.
func (l *laid) doubts() {
	s, n := &l.result, 0
	for k := range ways {
		for a := range l.terms() {
			l.sures[k][a] = s.sure(n + 1 + a)
		}
		n += 1 + l.terms()
	}
	for w := range l.warps {
		l.warps[w].sure = s.sure(n)
		n++
	}
	for e := range l.extras {
		l.extras[e].sure = nil
		for range l.extras[e].beta {
			l.extras[e].sure = append(l.extras[e].sure, s.sure(n))
			n++
		}
	}
}

// squares is the weighed sum of squares that is left over, in units of the noise.
func (l *laid) squares() float64 {
	c := l.weigh(l.r)
	return c.dot(c)
}

// counted is how many frames count, weights and all.
func (l *laid) counted() float64 { return floats.Sum(l.weights) }
