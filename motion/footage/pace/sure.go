package pace

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

const (
	// together is how many frames' residuals are taken to say the same thing: a gain that is off
	// is off for the frames beside it too, and changes over a lag share frames.
	together = 12
	// slightly is the shift over which slopes are taken, frames.
	slightly = 0.05
)

// slopes are how the logarithm of each expected change goes with a shift of a frame.
func (l *laid) slopes() []float64 {
	out := make([]float64, len(l.y))
	for k := range l.y {
		f, t := l.planned(float64(l.from[k])), l.planned(float64(l.to[k]))
		out[k] = (math.Log(l.expected(f-slightly, t-slightly)) - math.Log(l.expected(f+slightly, t+slightly))) / (2 * slightly)
	}
	return out
}

// sure is the standard uncertainty of the place: of an estimate by weighted residuals whose
// neighbours go together (W. K. Newey and K. D. West, Econometrica 55:703-708, 1987,
// DOI 10.2307/1913610), with the shares free.
func (l *laid) sure() float64 {
	slopes, p := l.slopes(), l.unknowns(l.model)+1
	normal := mat.NewSymDense(p, nil)
	scores := make([][]float64, l.frames)
	for k := range scores {
		scores[k] = make([]float64, p)
	}
	var row []float64
	for k := range l.y {
		row = l.terms(l.model, l.planned(float64(l.from[k])), l.planned(float64(l.to[k])), row)
		j := make([]float64, p)
		j[0] = slopes[k]
		for i, v := range row {
			j[i+1] = v / l.want[k]
		}
		s := l.scatter(k)
		r := l.off(k) / s
		w := weigh(r) / (s * s)
		for a := range p {
			for b := range a + 1 {
				normal.SetSym(a, b, normal.At(a, b)+w*j[a]*j[b])
			}
		}
		into := scores[(l.from[k]+l.to[k])/2]
		for i := range j {
			into[i] += j[i] * w * l.off(k)
		}
	}
	e, ok := factored(normal)
	if !ok || normal.At(0, 0) == 0 {
		return math.Inf(1)
	}
	first := make([]float64, p)
	first[0] = 1
	return math.Sqrt(varied(scores, e.solve(first)))
}

// varied is the variance of a sum of scores along a direction, neighbours together with weights
// that fall off evenly.
func varied(scores [][]float64, v []float64) float64 {
	along := make([]float64, len(scores))
	for k, s := range scores {
		for i, x := range s {
			along[k] += x * v[i]
		}
	}
	return kindred(along)
}

func kindred(along []float64) float64 {
	sum, own := 0.0, 0.0
	for k, a := range along {
		own += a * a
		sum += a * a
		for lag := 1; lag < together && k+lag < len(along); lag++ {
			sum += 2 * (1 - float64(lag)/together) * a * along[k+lag]
		}
	}
	return max(sum, own/2)
}

// kin is by how many times more than chance neighbours make the residuals' sum scatter: 1 where
// each is for itself.
func (l *laid) kin() float64 {
	along, own := make([]float64, l.frames), 0.0
	for k := range l.y {
		r := l.off(k) / l.scatter(k)
		r *= weigh(r)
		along[(l.from[k]+l.to[k])/2] += r
		own += r * r
	}
	return max(1, kindred(along)/max(own, math.SmallestNonzeroFloat64))
}
