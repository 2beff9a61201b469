package pace

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// match is where another leg or round shows what a frame shows.
type match struct {
	late   float64 // frames by which it is later than expected
	bend   float64 // of the squared distance, a squared frame: how sharp it is
	unlike float64 // the squared distance that is left there
}

const (
	// reach is how far from where it is expected a match is looked for, frames; gone to, it is
	// looked for again as far about there.
	reach = 3
	// beside is over how many frames to either side of the least the parabola goes.
	beside = 2
	// leastSpeed is what an axis must go a frame, as a share of what it goes through in a
	// round, for a match to be one.
	leastSpeed = 5e-4
)

// matched finds the frame near one that is most like frame k. The squared distance goes with the
// square of what the leading axis is off by, so the parabola is one of its position about where it
// is expected, told in frames of its speed there: what speeds up or slows down does not draw it aside.
func (l *laid) matched(f film, k int, near float64) (match, bool) {
	at := int(math.Round(near))
	for range 3 {
		best := at
		least := math.Inf(1)
		for i := at - reach; i <= at+reach; i++ {
			if i < 0 || i >= f.of.Len() {
				return match{}, false
			}
			if d := f.apart(k, i); d < least {
				least, best = d, i
			}
		}
		if math.Abs(float64(best-at)) < reach {
			return l.parabola(f, k, near, best)
		}
		at = best
	}
	return match{}, false
}

// parabola goes through the squared distances of frame k to those about one.
func (l *laid) parabola(f film, k int, near float64, best int) (match, bool) {
	if best < beside || best+beside >= f.of.Len() {
		return match{}, false
	}
	a, there := l.moving[l.leading()], l.planned(near)
	from := l.at(a, there)
	speed := l.at(a, there+0.5) - l.at(a, there-0.5)
	if math.Abs(speed) < leastSpeed*a.round {
		return match{}, false
	}
	const points = 2*beside + 1
	design, values := mat.NewDense(points, 3, nil), mat.NewVecDense(points, nil)
	for i := range points {
		u := (l.at(a, there+float64(i-beside)) - from) / speed
		design.SetRow(i, []float64{1, u, u * u})
		values.SetVec(i, f.apart(k, best-beside+i))
	}
	var c mat.VecDense
	if c.SolveVec(design, values) != nil || c.AtVec(2) <= 0 {
		return match{}, false
	}
	u := -c.AtVec(1) / (2 * c.AtVec(2))
	m := match{late: float64(best) - near + u, bend: c.AtVec(2), unlike: c.AtVec(0) + u*c.AtVec(1)/2}
	return m, math.Abs(u) <= beside
}

// mean is a robust mean of values with weights, and its standard uncertainty where neighbours go
// together; +Inf of too few.
func mean(values, weights []float64) Number {
	if len(values) < leastMatches {
		return Number{0, math.Inf(1)}
	}
	at, scale := middle(values), 0.0
	r := make([]float64, len(values))
	for range reweighs {
		for i, v := range values {
			r[i] = math.Abs(v-at) * math.Sqrt(weights[i])
		}
		scale = max(1.4826*middle(r), math.SmallestNonzeroFloat64)
		sum, all := 0.0, 0.0
		for i, v := range values {
			w := weights[i] * weigh(r[i]/scale)
			sum, all = sum+w*v, all+w
		}
		at = sum / all
	}
	all := 0.0
	for i, v := range values {
		w := weights[i] * weigh(r[i]/scale)
		r[i] = w * (v - at)
		all += w
	}
	return Number{at, math.Sqrt(kindred(r)) / all}
}

// leastMatches is how many matches tell anything: of fewer, no middle one is safe from two that
// are wrong.
const leastMatches = 5
