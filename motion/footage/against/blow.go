package against

import (
	"math"
)

const (
	blowWindow = 1.0 / 6 // s: over which it is told whether the picture is disturbed
	mostBlow   = 4.0     // s: how long one is looked at
	sets       = 4.0     // standard deviations by which a frame is out with which one begins
	leastPx    = 0.1     // px, root mean square: less is no blow, but what poses are known to
)

// burst is the stretch of frames in which most is left over, of those in which anything is.
func (l *laid) burst() (from, to int, ok bool) {
	m := max(3, int(math.Round(blowWindow*l.rate)))
	if l.n < 2*m {
		return 0, 0, false
	}
	loud := make([]float64, l.n-m+1) // of the window that begins at a frame, over its bound
	at, most := 0, 0.0
	for i := range loud {
		loud[i] = l.loud(i, m)
		if loud[i] > most {
			at, most = i, loud[i]
		}
	}
	if most <= 1 {
		return 0, 0, false
	}
	from, to = at, at+m
	for i := at; i >= 0 && i > at-m*int(mostBlow/blowWindow) && loud[i] > 1; i-- {
		from = i
	}
	for i := at; i < len(loud) && loud[i] > 1; i++ {
		to = i + m
	}
	for from < at+m-1 && l.out(from) < sets {
		from++
	}
	return from, to, true
}

// loud is how much is left over in a window, over what may be.
func (l *laid) loud(from, m int) float64 {
	sum, px, n := 0.0, 0.0, 0.0
	for i := from; i < from+m; i++ {
		if l.weights[i] == 0 {
			continue
		}
		n++
		for k := range ways {
			r := l.r[k][i]
			sum, px = sum+r*r/(l.sigma[k]*l.sigma[k]*l.rough[i]*l.rough[i]), px+r*r
		}
	}
	if n < 2 {
		return 0
	}
	return min(sum/chance(ways*n, l.n), px/n/(leastPx*leastPx))
}

// oneIn is in how many takes chance alone disturbs one.
const oneIn = 1000

// chance is what a sum of so many squares of normal numbers of chance stays below, in all windows
// of a take: the cube root of such a sum is nearly normal (E. B. Wilson and M. M. Hilferty, Proc.
// Natl. Acad. Sci. 17:684-688, 1931, DOI 10.1073/pnas.17.12.684), and one of n normal numbers is
// beyond z deviations less often than n exp(-z*z/2).
func chance(squares float64, windows int) float64 {
	z, v := math.Sqrt(2*math.Log(oneIn*float64(windows))), 2/(9*squares)
	root := 1 - v + z*math.Sqrt(v)
	return squares * root * root * root
}

// out is how far off a frame is, in deviations of the way in which it is most.
func (l *laid) out(i int) float64 {
	if l.weights[i] == 0 {
		return 0
	}
	return l.worst(i, l.sigma)
}

// blows are a knock where most is left over, and wherever within that more is left over again: with
// what stays behind of it, and without.
func (l *laid) blows() []candidate {
	from, to, ok := l.burst()
	if !ok {
		return nil
	}
	begins := append([]int{from}, l.again(from, to)...)
	var out []candidate
	for k, at := range begins {
		until := to
		if k+1 < len(begins) {
			until = begins[k+1]
		}
		out = append(out, l.blowAt(at, until)...)
	}
	jump := l.jump(from-around, to)
	if jump != from {
		out = append(out, l.blowAt(jump, to)...)
	}
	return append(out, l.slipsAt(jump)...)
}

const (
	// rises is by how many times what is left over must be more, as squares, than before it for
	// another blow to begin there: what swings and fades is less and less.
	rises = 2.5
	// againWindow is over how long either is looked at, s: a swing of 2 Hz goes to one side and back.
	againWindow = 0.25
	// mostAgain is how many blows are looked for within a stretch at a time.
	mostAgain = 4
)

// again are the frames of a stretch at which more is left over than before, most of all first in time.
func (l *laid) again(from, to int) (out []int) {
	m := max(3, int(math.Round(againWindow*l.rate)))
	times := func(i int) float64 {
		before := max(l.loud(i-m, m), math.SmallestNonzeroFloat64)
		return l.loud(i, m) / before
	}
	for i := from + m; i+m <= to && len(out) < mostAgain; i++ {
		if t := times(i); t < rises || l.loud(i, m) <= 1 {
			continue
		}
		best := i
		for k := i; k < min(i+m, to-m+1); k++ {
			if times(k) > times(best) {
				best = k
			}
		}
		out = append(out, best)
		i = best + m
	}
	return out
}

// slipsAt are axes that lose steps at a frame, in the middle of a move.
func (l *laid) slipsAt(frame int) (out []candidate) {
	after := make([]float64, l.n)
	for i := frame; i < l.n; i++ {
		after[i] = 1
	}
	for a := range l.Axes {
		if when := l.planned(float64(frame)); l.step(a, when-1) != 0 && l.step(a, when) != 0 {
			out = append(out, candidate{label: label{cause: LostSteps, axis: a, frame: when}, searched: float64(l.n), make: along(a, after)})
		}
	}
	return out
}

// jump is the frame of a stretch before which what is left over changes most.
func (l *laid) jump(from, to int) (at int) {
	at = max(from, 1)
	most, last := 0.0, -1
	for i := max(from-1, 0); i < min(to, l.n); i++ {
		if l.weights[i] == 0 {
			continue
		}
		if last >= 0 {
			var d effect
			for k := range d {
				d[k] = l.r[k][i] - l.r[k][last]
			}
			if size := d.size(); size > most {
				at, most = i, size
			}
		}
		last = i
	}
	return at
}

// blowAt is a knock that begins at a frame.
func (l *laid) blowAt(from, to int) []candidate {
	ends := min(from+int(mostBlow*l.rate), l.n)
	to = min(max(to, from+3*leastFrames), ends)
	w, whole := l.blowWindow(from, to), l.blowWindow(from, ends) // it swings on under the next one
	about := label{cause: Blow, frame: l.planned(float64(from)), until: l.planned(float64(to))}
	moved := candidate{label: about, unknowns: 1, searched: float64(l.n), make: func(l *laid) [][ways][]float64 { return shifted(l.n, from) }}
	if len(w.frames) < leastFrames {
		return []candidate{moved}
	}
	wins := []window{w}
	along := l.look(wins)
	l.fill(wins, along)
	s, ok := ringing(wins, l.rate, 0)
	if !ok {
		return []candidate{moved}
	}
	s.wins = wins
	s.doubt(wins)
	about.swing, about.along = &s, along
	swings := func(l *laid) [][ways][]float64 { return s.columns([]window{whole}, 0, l.n, along) }
	knocked := candidate{label: about, unknowns: 3 + ways - 1, searched: float64(l.n), make: swings}
	both := knocked
	both.make = func(l *laid) [][ways][]float64 { return append(swings(l), shifted(l.n, from)...) }
	return []candidate{moved, knocked, both}
}

// blowWindow are the frames of a stretch that count, and when they are from its beginning on.
func (l *laid) blowWindow(from, to int) window {
	w := window{frame: 1 / l.rate}
	for i := from; i < to; i++ {
		if l.weights[i] > 0 {
			w.frames, w.times = append(w.frames, i), append(w.times, float64(i-from)/l.rate)
		}
	}
	return w
}

// shifted is a lasting shift of each way from a frame on.
func shifted(n, from int) (out [][ways][]float64) {
	for k := range ways {
		var v [ways][]float64
		v[k] = make([]float64, n)
		for i := from; i < n; i++ {
			v[k][i] = 1
		}
		out = append(out, v)
	}
	return out
}
