package against

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// candidate is an explanation that may be taken up: a change of time, or what is laid on top.
type candidate struct {
	label
	shape    []float64
	make     func(*laid) [][ways][]float64
	searched float64 // how many of its kind there are to choose from
	unknowns float64 // beyond its columns
	above    bool    // its share cannot be below 0
	linear   float64 // by how much it lowers the criterion in proportion, where it changes time
}

const (
	// veryStrong is by how much the criterion must fall for an explanation to be taken up (R. E.
	// Kass and A. E. Raftery, J. Am. Stat. Assoc. 90:773-795, 1995,
	// DOI 10.1080/01621459.1995.10476572: above 10 the evidence is very strong).
	veryStrong = 10.0
	mostCauses = 8 // that are taken up: beyond those it is another motion
)

// explain takes up what lowers what is left over most, one after the other, until nothing more
// is worth its unknowns.
func (l *laid) explain() (out []found) {
	for range mostCauses {
		l.settle()
		best, lowers, shows := l.best()
		if lowers < veryStrong {
			break
		}
		was, left := l.copied(), l.squares()
		if best.shape != nil {
			l.warps = append(l.warps, warp{shape: best.shape, label: best.label})
		} else {
			l.extras = append(l.extras, extra{label: best.label, make: best.make})
		}
		l.fit()
		if best.cause == OtherLaw && (l.squares() > left || l.turned(was)) { // what one solve promised, those that follow it have not kept
			*l = *was
			break
		}
		out = append(out, found{best.label, lowers, shows})
	}
	l.settle()
	l.doubts()
	out = l.weeded(out)
	l.sharpen()
	return out
}

// weeded drops what was taken up early and is nothing beside what was taken up later.
func (l *laid) weeded(all []found) (out []found) {
	kept := l.extras[:0:0]
	for _, x := range l.extras {
		if x.counts() {
			kept = append(kept, x)
		}
	}
	if len(kept) == len(l.extras) {
		return all
	}
	l.extras = kept
	l.settle()
	l.doubts()
	for _, f := range all {
		timed := slices.ContainsFunc(l.warps, func(w warp) bool { return w.label == f.label })
		if timed || slices.ContainsFunc(kept, func(x extra) bool { return x.label == f.label }) {
			out = append(out, f)
		}
	}
	return out
}

// counts tells whether any part of what is laid on top is beyond its uncertainty.
func (x extra) counts() bool {
	for k, b := range x.beta {
		if math.Abs(b) > Cover*x.sure[k] {
			return true
		}
	}
	return false
}

// settle finds noise and lone frames anew, and fits to all others alike.
func (l *laid) settle() {
	counts := append([]bool(nil), l.known...)
	for k := range ways {
		for i, alone := range lone(l.smooth(l.r[k]), l.known) {
			counts[i] = counts[i] && !alone
		}
	}
	l.drop(counts)
	for k := range ways {
		l.sigma[k] = noise(l.smooth(l.r[k]), counts)
	}
	l.fit()
}

// beyond are a candidate's columns without what is explained already.
func (l *laid) beyond(s *solved, c candidate) (out []column) {
	if c.shape != nil {
		return []column{s.residual(l.weigh(l.lateness(c.shape)))}
	}
	for _, v := range c.make(l) {
		whole := l.weigh(v)
		rest := s.residual(whole)
		if rest.dot(rest) < alike*whole.dot(whole) {
			rest = column{0, make([]float64, len(rest.v))}
		}
		out = append(out, rest)
	}
	return out
}

// A swing must be seen in so many frames, by at least a share of the most: a frame or two that
// are off are errors of measuring, and any swing that fades at once is like them.
const (
	leastSwing = 4
	seenShare  = 0.1
)

// mostSeen is by how many pixels columns move the frame that they move most, and in how many they
// are seen.
func (l *laid) mostSeen(cols []column, beta []float64) (most float64, frames int) {
	sum := make([]float64, ways*l.n)
	for c, col := range cols {
		floats.AddScaled(sum, beta[c], col.v)
	}
	sizes := make([]float64, l.n)
	for i, w := range l.weights {
		if w == 0 {
			continue
		}
		var e effect
		for k := range e {
			e[k] = sum[k*l.n+i] * l.sigma[k] * l.rough[i] / math.Sqrt(w)
		}
		sizes[i] = e.size()
		most = max(most, sizes[i])
	}
	for _, d := range sizes {
		frames += int(step(d > seenShare*most))
	}
	return most, frames
}
