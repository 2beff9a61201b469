package against

import "math"

// waves are how many waves within a move tell another law from that of the plan: of a move of 1 in
// a time of 1 the two differ by sums of sin(2 pi k u) where both are alike there and back, and of
// 1 - cos(2 pi k u) where one is not: a series of Fourier, which leaves of two laws as smooth as a
// rig's a hundredth of what they differ by.
const waves = 5

// otherLaw is that each move of an axis gathers speed and slows down otherwise than planned: from
// where to where and when it goes is as it was.
func (l *laid) otherLaw(axis int) candidate {
	moves := l.moves(axis)
	shape := func(of func(u float64) float64) []float64 {
		return l.shaped(func(j float64) float64 {
			for _, m := range moves {
				if j > m.from && j < m.to {
					return (l.track.at(axis, m.to) - l.track.at(axis, m.from)) * of((j-m.from)/(m.to-m.from))
				}
			}
			return 0
		})
	}
	var gains [ways]float64 // as they are now: with those that follow, waves and gain would chase each other
	for k := range gains {
		gains[k] = l.gains[k][axis]
	}
	return candidate{label: label{cause: OtherLaw, axis: axis}, make: func(l *laid) (out [][ways][]float64) {
		for k := 1.0; k <= waves; k++ {
			out = append(out, shown(gains, shape(func(u float64) float64 { return math.Sin(2*math.Pi*k*u) / (2 * math.Pi * k) })),
				shown(gains, shape(func(u float64) float64 { return (1 - math.Cos(2*math.Pi*k*u)) / (2 * math.Pi * k) })))
		}
		return out
	}}
}

// moves are the stretches in which an axis goes one way without a rest, in planned frames.
func (t track) moves(axis int) (out []stretch) {
	way := 0.0
	for k := t.first; k < t.last; k += grain {
		s := t.step(axis, k)
		if s != 0 && s == way {
			out[len(out)-1].to = k + grain
		} else if s != 0 {
			out = append(out, stretch{k, k + grain})
		}
		way = s
	}
	return out
}

// shown is a shape in units of an axis, as it shows with given gains.
func shown(gains [ways]float64, shape []float64) (v [ways][]float64) {
	for k := range v {
		v[k] = make([]float64, len(shape))
		for i, s := range shape {
			v[k][i] = gains[k] * s
		}
	}
	return v
}

// turned tells whether an axis shows the other way than it did: waves have then become the motion.
func (l *laid) turned(was *laid) bool {
	for axis := range l.Axes {
		sum := 0.0
		for k := range ways {
			sum += l.gains[k][axis] * was.gains[k][axis]
		}
		if sum < 0 {
			return true
		}
	}
	return false
}
