package against

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// mostRest is how long, s, a rest is looked at: what swings for longer is no after-shake that
// would be left at a rig.
const mostRest = 8.0

// settling is how many frames after a move a rest is looked at from: where it ends is known to a
// part of a frame only, since a soft law hardly moves at its end.
const settling = 1.0

// restWindows are the rests of a take with what is left over in them along a direction.
func (l *laid) restWindows() (out []window) {
	phases := map[int]int{}
	for _, r := range l.rests() {
		from, to := l.shown(r.from), float64(l.n)
		if !math.IsInf(r.to, 1) {
			to = l.shown(r.to)
		}
		to = min(to, from+mostRest*l.rate)
		phase := int(math.Round(math.Mod(r.from, float64(l.Loop)) / grain))
		if math.IsInf(r.to, 1) {
			phase = -1 // the stop at the end is like no other
		}
		if _, ok := phases[phase]; !ok {
			phases[phase] = len(phases)
		}
		w := window{group: phases[phase]}
		for i := max(0, int(math.Ceil(from+settling))); float64(i) < to && i < l.n; i++ {
			if l.weights[i] > 0 {
				w.frames, w.times = append(w.frames, i), append(w.times, (float64(i)-from)/l.rate)
			}
		}
		if len(w.frames) >= leastFrames && w.times[0] < mostRest/2 {
			out = append(out, w)
		}
	}
	return out
}

// look takes what is left over in windows, along the direction in which it is most.
func (l *laid) look(wins []window) (along effect) {
	spread := mat.NewSymDense(ways, nil)
	for _, w := range wins {
		var mean [ways]float64
		for _, i := range w.frames {
			for k := range mean {
				mean[k] += l.r[k][i] / float64(len(w.frames))
			}
		}
		for _, i := range w.frames {
			for a := range ways {
				for b := range a + 1 {
					spread.SetSym(a, b, spread.At(a, b)+(l.r[a][i]-mean[a])*(l.r[b][i]-mean[b]))
				}
			}
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(spread, true) {
		return effect{right: 1}
	}
	var v mat.Dense
	eigen.VectorsTo(&v)
	for k := range along { // in the order of eigenvalues, the greatest last
		along[k] = v.At(k, ways-1)
	}
	return along
}

// fill gives windows what is left over along a direction.
func (l *laid) fill(wins []window, along effect) {
	for j := range wins {
		wins[j].values = make([]float64, len(wins[j].frames))
		for n, i := range wins[j].frames {
			for k := range along {
				wins[j].values[n] += along[k] * l.r[k][i]
			}
		}
	}
}

// has tells whether a cause was taken up already.
func (l *laid) has(c Cause) bool {
	for _, e := range l.extras {
		if e.label.cause == c {
			return true
		}
	}
	return false
}

// shakes is the swing that all rests have in common, where they have.
func (l *laid) shakes() []candidate {
	wins := l.restWindows()
	if len(wins) == 0 || l.has(AfterShake) {
		return nil
	}
	along := l.look(wins)
	l.fill(wins, along)
	s, ok := ringing(wins, l.rate)
	if !ok {
		return nil
	}
	s.wins = wins
	s.doubt(wins)
	groups := map[int]bool{}
	for _, w := range wins {
		groups[w.group] = true
	}
	return []candidate{{label: label{cause: AfterShake, swing: &s, along: along, frame: l.planned(float64(wins[0].frames[0]))}, unknowns: 2 + ways - 1,
		make: func(l *laid) (out [][ways][]float64) {
			for g := range len(groups) + 1 {
				if groups[g] {
					out = append(out, s.columns(wins, g, l.n, along)...)
				}
			}
			return out
		}}}
}
