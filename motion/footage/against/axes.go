package against

import (
	"math"

	"seamrail/motion/vibration/ringdown"
)

// effect is what a unit of an axis does in each way, px, and its standard uncertainties.
func (l *laid) effect(axis int) (e, sure effect) {
	for k := range ways {
		e[k], sure[k] = l.gains[k][axis], l.sures[k][axis]
	}
	return e, sure
}

// axis is how an axis showed.
func (w *witness) axis(a int) Moved {
	l := w.full
	e, sure := l.effect(a)
	for k := range sure {
		sure[k] *= w.grow
	}
	m := Moved{Name: l.Axes[a].Name, Gain: l.gain(e), Doubt: l.gain(sure), Told: !math.IsInf(sure[right], 1)}
	m.PxPerUnit = Number{e.size(), sure.along(e)}
	m.Backlash = w.play(a)
	m.BacklashPx = Number{m.Backlash.Value * e.size(), m.Backlash.Sure * e.size()}
	for _, x := range l.extras {
		if x.label.cause == LostSteps && x.label.axis == a {
			by := Number{x.beta[0], w.grow * x.sure[0]}
			m.Lost = append(m.Lost, Lost{Frame: l.seenAt(x.label.frame), Units: by, Px: Number{by.Value * e.size(), by.Sure * e.size()}})
		}
	}
	return m
}

// along is an uncertainty along a direction.
func (e effect) along(d effect) float64 {
	size := d.size()
	if size == 0 {
		return e.size()
	}
	sum := 0.0
	for k := range e {
		v := e[k] * d[k] / size
		sum += v * v
	}
	return math.Sqrt(sum)
}

// gain is an effect in the words of a Gain.
func (l *laid) gain(e effect) Gain {
	return Gain{X: e[right], Y: e[down], Turn: e[turned] / l.arm * 180 / math.Pi, Scale: e[grown] / l.arm}
}

// play is the backlash of an axis, whether it is worth taking up or not.
func (w *witness) play(a int) Number {
	for _, x := range w.full.extras {
		if x.label.cause == Backlash && x.label.axis == a {
			return Number{x.beta[0], w.grow * x.sure[0]}
		}
	}
	best := unknown()
	for _, c := range w.full.lagging(a) {
		if c.cause != Backlash {
			continue
		}
		if n := w.beside(c)[0]; math.IsInf(best.Sure, 1) || n.Value > best.Value {
			best = n
		}
	}
	return best
}

// beside is what a candidate would come to that was not taken up.
func (w *witness) beside(c candidate) (out []Number) {
	l := w.full
	s := solve(l.columns(true), l.weigh(l.y))
	own := solve(l.beyond(&s, c), s.residual(l.weigh(l.r)))
	for k, b := range own.beta {
		out = append(out, Number{b, w.grow * own.sure(k)})
	}
	return out
}

// drift is how the view creeps.
func (w *witness) drift() Creep {
	l := w.full
	var by []Number
	for _, x := range l.extras {
		if x.label.cause == Drift {
			for k, b := range x.beta {
				by = append(by, Number{b, w.grow * x.sure[k]})
			}
		}
	}
	if by == nil {
		by = w.beside(candidate{make: creeping})
	}
	minute := 60 * l.rate / float64(max(1, l.n-1)) // of the recording's length
	for k := range by {
		by[k] = Number{by[k].Value * minute, by[k].Sure * minute}
	}
	return Creep{by[right], by[down], by[turned], by[grown]}
}

// shake is what swings after moves.
func (w *witness) shake() *Shake {
	l := w.full
	for _, x := range l.extras {
		s := x.label.swing
		if x.label.cause != AfterShake {
			continue
		}
		amplitude := Number{}
		if s.driven {
			amplitude = x.most(l)
		} else {
			group, most := s.strongest()
			amplitude = Number{most, s.sure[group]}
		}
		out := &Shake{Amplitude: amplitude, Axis: -1, Limit: l.rate / 2, Rests: len(s.wins)}
		out.Measured = ringdown.Measured{Spring: s.Spring, FrequencySure: s.fSure, DampingSure: s.dSure, Samples: s.samples}
		if l.rate > 0 {
			out.Faster = []float64{l.rate - s.Frequency, l.rate + s.Frequency}
		}
		out.Axis, out.Units = l.swings(x, out.Amplitude)
		return out
	}
	return nil
}

// sameWay is the least cosine between the direction of a swing and that of an axis for which the
// one is along the other: 30 degrees.
const sameWay = 0.866

// swings finds the axis along which something swings, and by how much of it.
func (l *laid) swings(x extra, px Number) (axis int, units Number) {
	along, best := x.label.along, sameWay
	axis = -1
	for a := range l.Axes {
		e, _ := l.effect(a)
		if size := e.size(); size > 0 && math.Abs(e.dot(along))/size > best {
			best, axis = math.Abs(e.dot(along))/size, a
			units = Number{px.Value / size, px.Sure / size}
		}
	}
	if axis < 0 && l.PxPerMM > 0 {
		units = Number{px.Value / l.PxPerMM, px.Sure / l.PxPerMM}
	}
	return axis, units
}

// quiet is what a swing fades to, px, when it counts as still: what nobody sees.
const quiet = 0.2

// laidOn is what is laid on top of each frame, px.
func (l *laid) laidOn(x extra) []effect {
	out := make([]effect, l.n)
	for c, v := range x.make(l) {
		for k := range v {
			for i, on := range v[k] {
				out[i][k] += x.beta[c] * on
			}
		}
	}
	return out
}
