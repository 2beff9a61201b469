package pace

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"seamrail/motion/footage"
)

// A product that turns has no one place in the picture, and yet from each frame to the next the picture
// goes on: what comes nearer grows, what faces the lens goes by. These steps are in proportion to those
// of the axes, with a sign, as long as much the same is seen of the product; what differs is noise of
// them. Both are fitted.

// The ways in which a picture goes on: to the right, down, turned, grown.
const ways = 4

// steps are how the picture went on with each frame from the one before.
type steps struct {
	y     [ways][]float64
	sigma [ways]float64 // what differs from step to step by chance
	known []bool
	n     int
}

// leastKnown is the share of the frames of which it must be known how they lie on the one before.
const leastKnown = 0.5

// newSteps are those of a take; false where too few are known.
func newSteps(frames []footage.Frame) (s steps, ok bool) {
	s = steps{n: len(frames), known: make([]bool, len(frames))}
	count := 0.0
	for w := range s.y {
		s.y[w] = make([]float64, s.n)
	}
	for k, f := range frames {
		p := f.FromBefore
		row := [ways]float64{p.X, p.Y, p.Turn, math.Log(p.Scale)}
		s.known[k] = k > 0 && p.Known && p.Scale > 0
		for w, v := range row {
			s.known[k] = s.known[k] && !math.IsNaN(v) && !math.IsInf(v, 0)
			s.y[w][k] = v
		}
		if s.known[k] {
			count++
		}
	}
	for w := range s.y {
		var apart []float64
		for k := 1; k < s.n; k++ {
			if s.known[k] && s.known[k-1] {
				apart = append(apart, math.Abs(s.y[w][k]-s.y[w][k-1]))
			}
		}
		s.sigma[w] = max(1.4826*middle(apart)/math.Sqrt2, leastStep[w])
	}
	return s, count >= leastKnown*float64(s.n)
}

// leastStep is what steps are never known better than: px, px, degrees, and a share.
var leastStep = [ways]float64{2e-3, 2e-3, 5e-4, 1e-5}

// stepped is a plan laid on steps.
type stepped struct {
	track
	steps
	zero float64
	late lateness // beside that, by move; nothing where the whole is laid
	beta [ways][]float64
	r    [ways][]float64
	own  [ways]float64 // the scatter of what is left over
}

func (l *stepped) planned(frame float64) float64 {
	t := frame - l.zero
	if len(l.late.at) > 0 {
		t -= l.late.of(t)
	}
	return t
}

// row is by how much each axis goes on with a frame, after a 1: what turns evenly all along.
func (l *stepped) row(frame float64, out []float64) []float64 {
	out = append(out[:0], 1)
	was, now := l.planned(frame-1), l.planned(frame)
	for _, a := range l.moving {
		out = append(out, (l.at(a, now)-l.at(a, was))*unitSteps)
	}
	return out
}

// fit finds by how much each axis moves the picture, way by way, of every so manieth frame.
func (l *stepped) fit(every, times int) {
	p := 1 + len(l.moving)
	rows := make([]float64, 0, p*(l.n/every+1))
	var row []float64
	for k := 0; k < l.n; k += every {
		row = l.row(float64(k), row)
		rows = append(rows, row...)
	}
	for w := range ways {
		l.own[w] = max(l.own[w], l.sigma[w])
		if l.r[w] == nil {
			l.r[w] = make([]float64, l.n)
		}
		weight := func(int) float64 { return 1 }
		for turn := range times {
			l.beta[w] = l.solve(w, every, rows, weight)
			var sizes []float64
			for k, i := 0, 0; k < l.n; k, i = k+every, i+1 {
				l.r[w][k] = l.y[w][k] - along(rows[i*p:(i+1)*p], l.beta[w])
				if l.known[k] {
					sizes = append(sizes, math.Abs(l.r[w][k]))
				}
			}
			if turn+1 < times {
				l.own[w] = max(leastStep[w], 1.4826*middle(sizes))
			}
			weight = func(k int) float64 { return weigh(l.r[w][k] / l.own[w]) }
		}
	}
}

func along(a, b []float64) (sum float64) {
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

func (l *stepped) solve(w, every int, rows []float64, weight func(k int) float64) []float64 {
	p := 1 + len(l.moving)
	normal, right := make([]float64, p*p), make([]float64, p)
	for k, i := 0, 0; k < l.n; k, i = k+every, i+1 {
		if !l.known[k] {
			continue
		}
		row, v := rows[i*p:(i+1)*p], weight(k)
		for a := range p {
			right[a] += v * row[a] * l.y[w][k]
			for b := range a + 1 {
				normal[a*p+b] += v * row[a] * row[b]
			}
		}
	}
	return solved(normal, right)
}

// misfit is what is left over, in the noise of steps, at most that of outliers.
func (l *stepped) misfit(every int) (sum float64) {
	for w := range ways {
		for k := 0; k < l.n; k += every {
			if l.known[k] {
				sum += rho(l.r[w][k] / l.sigma[w])
			}
		}
	}
	return sum
}

// at0 is the plan at a place, fitted.
func (l *stepped) at0(zero float64, every, times int) *stepped {
	c := &stepped{track: l.track, steps: l.steps, zero: zero}
	c.fit(every, times)
	return c
}

// laidSteps is the plan where its steps do best, and where else they would; nil where it has no place.
func laidSteps(t track, s steps) (best *stepped, others []*stepped) {
	l := &stepped{track: t, steps: s}
	showing := t.showing(s.n)
	every := max(1, s.n/roughFrames)
	step := float64(min(every, coarsest))
	var all []place
	for zero := -t.last; zero < float64(s.n)-t.first; zero += step {
		if showing(zero) {
			all = append(all, place{zero, l.at0(zero, every, 1).misfit(every)})
		}
	}
	var close []*stepped
	for _, p := range lowest(all) {
		c := l.at0(p.zero, 1, reweighs)
		if c.contrary() {
			continue
		}
		for _, by := range []float64{step / 2, 0.25, 0.125, 0.0625, 0.03125} {
			c = c.settled(by)
		}
		close = append(close, c)
	}
	if len(close) == 0 {
		return nil, nil
	}
	slices.SortStableFunc(close, func(a, b *stepped) int {
		if a.misfit(1) < b.misfit(1) {
			return -1
		}
		return 1
	})
	best = close[0]
	for _, c := range close[1:] {
		if math.Abs(c.zero-best.zero) > 1 && c.misfit(1) <= best.misfit(1)+asGood*best.kin() {
			others = append(others, c)
		}
	}
	return best, others
}

// settled is the best of a place and those beside it.
func (l *stepped) settled(by float64) *stepped {
	best, times := l, 2
	if by < closer[0]/2 {
		times = reweighs
	}
	for _, way := range []float64{-1, 1} {
		for moves := 0; moves < 12; moves++ {
			c := l.at0(best.zero+way*by, 1, times)
			if c.misfit(1) >= best.misfit(1) {
				break
			}
			best = c
		}
	}
	return best
}

// contrary tells whether an axis would move the picture the other way than it is likely to, in the way
// in which it is seen to most.
func (l *stepped) contrary() bool {
	for a, x := range l.moving {
		if x.likely == nil {
			continue
		}
		e := [ways]float64{x.likely.X, x.likely.Y, x.likely.Turn, x.likely.Scale}
		most, way := 0.0, 0
		for w := range ways {
			if size := math.Abs(e[w]) * x.travel / l.own[w]; size > most {
				most, way = size, w
			}
		}
		if most > seen && l.beta[way][1+a]*e[way] < 0 {
			return true
		}
	}
	return false
}

// seen is how many times the noise of a step the whole travel of an axis must move the picture for
// which way to be told.
const seen = 30.0

// kin is by how many times more than chance what is left over goes on from frame to frame.
func (l *stepped) kin() float64 {
	most := 1.0
	for w := range ways {
		row, own := make([]float64, l.n), 0.0
		for k := range row {
			if l.known[k] {
				r := l.r[w][k] / l.own[w]
				row[k] = r * weigh(r)
				own += row[k] * row[k]
			}
		}
		most = max(most, kindred(row)/max(own, math.SmallestNonzeroFloat64))
	}
	return most
}

// told is the share of what is seen of a way that axes which do not go evenly explain: 0 to 1, the
// most of all ways, and by how many times its noise they move it, root mean square.
func (l *stepped) told() (times float64) {
	for w := range ways {
		var sum, squares, n float64
		var row []float64
		for k := range l.n {
			if !l.known[k] {
				continue
			}
			row = l.row(float64(k), row)
			v := along(row, l.beta[w])
			sum, squares, n = sum+v, squares+v*v, n+1
		}
		if n > 1 {
			times = max(times, math.Sqrt(max(0, squares-sum*sum/n)/n)/l.own[w])
		}
	}
	return times
}

// knots are the middles of all moves of axes that do not go evenly, each once, and where they set
// out and end.
func (t track) stretches() (out []piece2) {
	for _, a := range t.moving {
		for _, p := range a.pieces() {
			from, to := t.first+float64(p.from)/fine, t.first+float64(p.to)/fine
			if t.even(a, from, to) {
				continue
			}
			if !slices.ContainsFunc(out, func(q piece2) bool { return math.Abs(q.from-from) < 2 && math.Abs(q.to-to) < 2 }) {
				out = append(out, piece2{from, to})
			}
		}
	}
	slices.SortFunc(out, func(a, b piece2) int {
		if a.from+a.to < b.from+b.to {
			return -1
		}
		return 1
	})
	return out
}

// piece2 is a move, from a planned frame to another.
type piece2 struct{ from, to float64 }

// evenly is by what share of its mean speed an axis may go faster or slower within what it goes
// evenly, its ends left out.
const evenly = 0.5

// even tells whether an axis goes most of a way at one speed, as one that turns for ever does.
func (t track) even(a axis, from, to float64) bool {
	n, off := 0.0, 0.0
	mean := (t.at(a, to) - t.at(a, from)) / (to - from)
	for x := from; x < to; x++ {
		n++
		if math.Abs(t.speed(a, x)-mean) > evenly*math.Abs(mean) {
			off++
		}
	}
	return off < 0.2*n
}

// refined fits how late each move is beside frame 0, with gains, and their variances; nil where they
// cannot be told.
func (l *stepped) refined(moves []piece2) (variance []float64) {
	l.late = lateness{}
	for _, m := range moves {
		l.late.at = append(l.late.at, (m.from+m.to)/2)
		l.late.late = append(l.late.late, 0)
	}
	p, e := 1+len(l.moving), len(moves)
	for range newtons {
		l.fit(1, reweighs)
		size := e + ways*p
		normal, right := mat.NewSymDense(size, nil), make([]float64, size)
		j := make([]float64, size)
		var row, before, after []float64
		for k := range l.n {
			if !l.known[k] {
				continue
			}
			frame := float64(k)
			row = l.row(frame, row)
			before, after = l.row(frame-slightly, before), l.row(frame+slightly, after)
			i, next := l.late.hat(frame - l.zero)
			for w := range ways {
				slope := 0.0
				for a := range row {
					slope -= l.beta[w][a] * (after[a] - before[a]) / (2 * slightly)
				}
				used := []int{i}
				j[i] = slope * (1 - next)
				if next > 0 {
					used, j[i+1] = append(used, i+1), slope*next
				}
				for a, v := range row {
					used, j[e+w*p+a] = append(used, e+w*p+a), v
				}
				s := l.own[w]
				v := weigh(l.r[w][k]/s) / (s * s)
				for x, a := range used {
					right[a] += v * j[a] * l.r[w][k]
					for _, b := range used[:x+1] {
						normal.SetSym(a, b, normal.At(a, b)+v*j[a]*j[b])
					}
				}
			}
		}
		eq, ok := factored(normal)
		if !ok {
			return nil
		}
		step := eq.solve(right)
		for i := range l.late.late {
			l.late.late[i] += min(max(step[i], -longestStep), longestStep)
		}
		variance = eq.variances(e)
	}
	l.fit(1, reweighs)
	return variance
}
