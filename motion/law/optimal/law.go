package optimal

import (
	"math"

	"seamrail/motion/law"
)

// Law is a motion law whose derivative of some order has one size and changes its
// sign at a few times: between them a polynomial of that degree.
type Law struct {
	name   string
	order  int
	knots  []float64 // shares of the time, from 0, in the first half
	states [][5]float64
	peaks  law.Peaks
}

// newLaw integrates from rest a derivative that begins with sign + and changes
// sign at each knot, and scales it so that half the travel is done at half the
// time.
func newLaw(name string, order int, changes []float64) *Law {
	l := &Law{name: name, order: order, knots: []float64{0}}
	for _, c := range changes {
		l.knots = append(l.knots, 1-(1-c)) // so that 1 less it is exact
	}
	var s [5]float64
	s[order] = 1
	for i, from := range l.knots {
		l.states = append(l.states, s)
		to := half
		if i+1 < len(l.knots) {
			to = l.knots[i+1]
		}
		s = moved(s, to-from)
		s[order] = -s[order]
	}
	for i := range l.states {
		for k := range l.states[i] {
			l.states[i][k] *= half / s[0]
		}
	}
	l.findPeaks()
	return l
}

// moved is a state of five derivatives h later, the last being constant.
func moved(s [5]float64, h float64) [5]float64 {
	return [5]float64{
		s[0] + h*(s[1]+h/2*(s[2]+h/3*(s[3]+h/4*s[4]))),
		s[1] + h*(s[2]+h/2*(s[3]+h/3*s[4])),
		s[2] + h*(s[3]+h/2*s[4]),
		s[3] + h*s[4],
		s[4],
	}
}

// Name returns the name the law is asked for by.
func (l *Law) Name() string { return l.name }

// Size is the greatest value of the derivative that has one size.
func (l *Law) Size() float64 { return math.Abs(l.states[0][l.order]) }

// Order is which derivative that is.
func (l *Law) Order() int { return l.order }

// At returns the law at u. A u below 0 counts as 0 and above 1 as 1.
func (l *Law) At(u float64) law.Point {
	w, far := min(max(u, 0), 1), false
	if w >= half {
		w, far = 1-w, true
	}
	i := len(l.knots) - 1
	for i > 0 && (w < l.knots[i] || far && w == l.knots[i]) {
		i--
	}
	s := moved(l.states[i], w-l.knots[i])
	p := law.Point{S: s[0], V: s[1], A: s[2], J: s[3]}
	if far {
		p.S, p.A = 1-p.S, 0-p.A
	}
	return p
}

// Peaks returns the exact peak factors.
func (l *Law) Peaks() law.Peaks { return l.peaks }

// Breaks returns where one polynomial gives way to the next.
func (l *Law) Breaks() []float64 {
	out := append([]float64(nil), l.knots[1:]...)
	if l.order%2 == 0 { // an odd derivative of one size changes in the middle too
		out = append(out, half)
	}
	for i := len(l.knots) - 1; i > 0; i-- {
		out = append(out, 1-l.knots[i])
	}
	return out
}

// findPeaks looks at every place where a derivative may be greatest.
func (l *Law) findPeaks() {
	p := &l.peaks
	for i, from := range l.knots {
		to := half
		if i+1 < len(l.knots) {
			to = l.knots[i+1]
		}
		for _, h := range stops(l.states[i], to-from) {
			s, u := moved(l.states[i], h), from+h
			grow(&p.V, &p.AtV, s[1], u)
			grow(&p.A, &p.AtA, s[2], u)
			grow(&p.J, &p.AtJ, s[3], u)
		}
	}
	if l.order == 2 {
		p.J, p.AtJ = math.Inf(1), half
		if len(l.knots) > 1 {
			p.AtJ = l.knots[1]
		}
	}
}

// tie is the share by which a later peak must be greater: rounding.
const tie = 1e-13

func grow(peak, at *float64, value, u float64) {
	if v := math.Abs(value); v > *peak*(1+tie) {
		*peak, *at = v, u
	}
}

// stops are the ends of a stretch and where its speed, acceleration or jerk
// stands still: roots of what is at most a square.
func stops(s [5]float64, length float64) []float64 {
	out := []float64{0, length}
	add := func(h float64) {
		if h > 0 && h < length {
			out = append(out, h)
		}
	}
	if s[4] != 0 {
		add(-s[3] / s[4]) // jerk is nothing
		if d := s[3]*s[3] - 2*s[4]*s[2]; d >= 0 {
			add((-s[3] - math.Sqrt(d)) / s[4])
			add((-s[3] + math.Sqrt(d)) / s[4])
		}
	} else if s[3] != 0 {
		add(-s[2] / s[3])
	}
	return out
}

// slowest returns the least speed at any place where it can be least.
func (l *Law) slowest() float64 {
	least := math.Inf(1)
	for i, from := range l.knots {
		to := half
		if i+1 < len(l.knots) {
			to = l.knots[i+1]
		}
		for _, h := range stops(l.states[i], to-from) {
			least = min(least, moved(l.states[i], h)[1])
		}
	}
	return least
}
