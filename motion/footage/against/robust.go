package against

import (
	"math"
)

// biweight is the constant of the biweight at which it is as good as least squares to 95 % where
// chance is normal (A. E. Beaton and J. W. Tukey, Technometrics 16:147-185, 1974,
// DOI 10.1080/00401706.1974.10489171), fitted by weights that are found anew after each solve
// (P. W. Holland and R. E. Welsch, Commun. Statist. A 6:813-827, 1977,
// DOI 10.1080/03610927708827533).
const (
	biweight = 4.685
	reweighs = 8
)

// newLaid lays a plan at a place, by robust least squares.
func newLaid(t track, s series, p place) *laid {
	l := &laid{track: t, series: s, weights: make([]float64, s.n)}
	l.warps = []warp{{late: p.frame}}
	if p.rate != 0 {
		l.warps = append(l.warps, warp{shape: slope(s.n, p.frame), late: p.rate / (1 + p.rate), label: label{cause: LateClock}})
	}
	for k := range l.sigma {
		l.sigma[k] = 1
	}
	for i, known := range s.known {
		if known {
			l.weights[i] = 1
		}
	}
	return l
}

// slope is how late a take is that goes slower by a share: in proportion to its frames.
func slope(n int, zero float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = float64(i) - zero
	}
	return out
}

// robust fits by the biweight. What is left over is noise there, and outliers.
func (l *laid) robust() {
	l.drop(l.known) // nothing yet
	for range reweighs {
		l.fit()
		scales := l.scales()
		moved := 0.0
		for i, known := range l.known {
			w := 0.0
			if known {
				w = bisquare(l.worst(i, scales))
			}
			moved = max(moved, math.Abs(w-l.weights[i]))
			l.weights[i] = w
		}
		if moved < 1e-3 {
			break
		}
	}
	l.fit()
}

// drop gives frames that count a weight of 1, and others none.
func (l *laid) drop(counts []bool) {
	for i, c := range counts {
		l.weights[i] = 0
		if c {
			l.weights[i] = 1
		}
	}
}

func (l *laid) scales() (out [ways]float64) {
	for k := range out {
		out[k] = scale(l.smooth(l.r[k]), l.known)
	}
	return out
}

// worst is how far off a frame is in the way in which it is most, in scales.
func (l *laid) worst(i int, scales [ways]float64) (u float64) {
	for k := range ways {
		u = max(u, math.Abs(l.r[k][i])/(scales[k]*l.rough[i]))
	}
	return u
}

func bisquare(u float64) float64 {
	u /= biweight
	if u >= 1 {
		return 0
	}
	return (1 - u*u) * (1 - u*u)
}

// cost is the biweight's own sum over all frames that are known, at given scales.
func (l *laid) cost(scales [ways]float64) (sum float64) {
	for i, known := range l.known {
		if known {
			u := min(1, l.worst(i, scales)/biweight)
			sum += 1 - math.Pow(1-u*u, 3)
		}
	}
	return sum
}

// raw marks the frames of a series that count in the search by whole frames: those that are
// known and near the middle of what their sides say, in twos, so that a steady motion is none.
func (s series) raw() []float64 {
	out := make([]float64, s.n)
	for i, known := range s.known {
		if known {
			out[i] = 1
		}
	}
	for k := range s.y {
		for i, off := range s.odd(k) {
			if off {
				out[i] = 0
			}
		}
	}
	return out
}

// odd marks what is off the middle of the means of both sides, by more than these scatter.
func (s series) odd(way int) []bool {
	y, out := s.y[way], make([]bool, s.n)
	for i := range y {
		var near []float64
		for k := 1; k <= 2*around && s.known[i]; k++ {
			if i-k >= 0 && i+k < s.n && s.known[i-k] && s.known[i+k] {
				near = append(near, (y[i-k]+y[i+k])/2)
			}
		}
		if len(near) >= around {
			out[i] = off(y[i], near) > leastBy
		}
	}
	return out
}
