package against

import (
	"cmp"
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
		if best.shape != nil {
			l.warps = append(l.warps, warp{shape: best.shape, label: best.label})
		} else {
			l.extras = append(l.extras, extra{label: best.label, make: best.make})
		}
		l.fit()
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
		for i, alone := range lone(l.r[k], l.known) {
			counts[i] = counts[i] && !alone
		}
	}
	l.drop(counts)
	for k := range ways {
		l.sigma[k] = noise(l.r[k], counts)
	}
	l.fit()
}

// best is the candidate that lowers Schwarz's criterion most (G. Schwarz, Ann. Statist.
// 6:461-464, 1978, DOI 10.1214/aos/1176344136): N ln(what is left over) + unknowns ln N. One of
// several of a kind pays for the choice too, twice its logarithm.
func (l *laid) best() (best candidate, lowers, shows float64) {
	s := solve(l.columns(true), l.weigh(l.y))
	r := s.residual(l.weigh(l.r))
	n := ways * l.counted()
	left := r.dot(r)
	if left <= 0 || n <= float64(len(s.cols))+1 {
		return candidate{}, 0, 0
	}
	worth := func(rest float64, c candidate, columns int) float64 {
		return n*math.Log(left/max(rest, math.SmallestNonzeroFloat64)) - (float64(columns)+c.unknowns)*math.Log(n) - 2*math.Log(max(1, c.searched))
	}
	var timed []candidate
	for _, c := range l.candidates() {
		v := l.beyond(&s, c)
		own := solve(v, r)
		rest := own.residual(r)
		gain := worth(rest.dot(rest), c, len(own.kept))
		if c.shape != nil && len(own.kept) > 0 {
			c.linear = gain
			timed = append(timed, c)
		}
		if len(own.kept) == 0 || gain <= lowers || c.above && own.beta[0] < 0 {
			continue
		}
		without, restWithout := l.without(r, rest)
		gain = math.Min(gain, n*math.Log(without/restWithout)-(float64(len(own.kept))+c.unknowns)*math.Log(n))
		if most, frames := l.mostSeen(v, own.beta); gain > lowers && (c.swing == nil || frames >= leastSwing) {
			best, lowers, shows = c, gain, most
		}
	}
	slices.SortStableFunc(timed, func(a, b candidate) int { return cmp.Compare(b.linear, a.linear) })
	for _, c := range timed[:min(len(timed), closely)] {
		if c.linear < veryStrong {
			break
		}
		trial := l.copied()
		trial.warps = append(trial.warps, warp{shape: c.shape, label: c.label})
		trial.fit()
		rest := trial.weigh(trial.r)
		before, after := l.without(r, rest)
		gain := math.Min(worth(rest.dot(rest), c, 1), n*math.Log(before/after)-(1+c.unknowns)*math.Log(n))
		if gain > lowers {
			best, lowers, shows = c, gain, trial.slips(trial.warps[len(trial.warps)-1])
		}
	}
	return best, lowers, shows
}

// fewFrames and moreFrames are how many frames an explanation must do without, those for which it
// does most: an outlier that nobody marked is no cause. It is more where many are out.
const (
	fewFrames  = 1
	moreFrames = 4
)

// without are two sums of squares without the frames that differ most in them.
func (l *laid) without(r, rest column) (before, after float64) {
	drop := make([]float64, l.n)
	for i := range drop {
		for k := range ways {
			a, b := r.v[k*l.n+i], rest.v[k*l.n+i]
			drop[i] += a*a - b*b
		}
	}
	before, after = r.dot(r), rest.dot(rest)
	frames := fewFrames
	if l.alone() > fewAlone {
		frames = moreFrames
	}
	for range min(frames, l.n-1) {
		i := floats.MaxIdx(drop)
		for k := range ways {
			a, b := r.v[k*l.n+i], rest.v[k*l.n+i]
			before, after = before-a*a, after-b*b
		}
		drop[i] = math.Inf(-1)
	}
	return before, max(after, math.SmallestNonzeroFloat64)
}

// alone is the share of known frames that do not count.
func (l *laid) alone() float64 {
	out, known := 0.0, 0.0
	for i, k := range l.known {
		known += step(k)
		out += step(k && l.weights[i] == 0)
	}
	return out / max(1, known)
}

// closely is how many changes of time are fitted to the end before one is taken: by more than a
// frame the picture does not change in proportion.
const closely = 4

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
			e[k] = sum[k*l.n+i] * l.sigma[k] / math.Sqrt(w)
		}
		sizes[i] = e.size()
		most = max(most, sizes[i])
	}
	for _, d := range sizes {
		frames += int(step(d > seenShare*most))
	}
	return most, frames
}
