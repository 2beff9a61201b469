package against

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// mostRest is how long, s, a rest is looked at: what swings for longer is no after-shake that
// would be left at a rig.
const mostRest = 8.0

// settling is how many frames after a move a rest is looked at from: where it ends is known to a
// part of a frame only, since a soft law hardly moves at its end.
const settling = grain

// restWindows are rests, or what lies between the beginning of one and that of the
// next: what swings goes on swinging under the move that follows.
func (l *laid) restWindows(rests []stretch, on bool) (out []window) {
	phases := map[int]int{}
	for k, r := range rests {
		from, to := l.shown(r.from), float64(l.n)
		switch {
		case on && k+1 < len(rests):
			to = l.shown(rests[k+1].from)
		case !on && !math.IsInf(r.to, 1):
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
		w := window{group: phases[phase], frame: 1 / l.rate}
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

// shakes are the swing that all rests of an axis have in common, where they have: within them alone, and
// going on under the moves that follow.
func (l *laid) shakes() (out []candidate) {
	if l.has(AfterShake) {
		return nil
	}
	for _, rests := range l.allRests() {
		wins := l.restWindows(rests, false)
		if len(wins) == 0 {
			continue
		}
		low := leastSwings / longest(wins)
		out = append(out, l.shaken(wins, low)...)
		out = append(out, l.shaken(l.restWindows(rests, true), low)...)
	}
	return out
}

// mostOf is how much of what is left over in rests beyond noise a swing must be to be one.
const mostOf = 0.6

// isSwing tells whether most of what is in windows beyond noise swings.
func (l *laid) isSwing(wins []window, s swing, along effect) bool {
	noise := 0.0
	for k := range along {
		noise += along[k] * along[k] * l.sigma[k] * l.sigma[k]
	}
	all, n := 0.0, 0.0
	for _, w := range wins {
		all += squares(w.values)
		n += float64(len(w.values) - 1)
	}
	return all-s.rest >= mostOf*(all-n*noise)
}

// squares is the sum of squares about the mean.
func squares(x []float64) float64 {
	return stat.Variance(x, nil) * float64(len(x)-1)
}

// shaken is the swing that windows have in common.
func (l *laid) shaken(wins []window, low float64) []candidate {
	along := l.look(wins)
	l.fill(wins, along)
	s, ok := ringing(wins, l.rate, low)
	if !ok || !l.isSwing(wins, s, along) {
		return nil
	}
	s.wins = wins
	s.doubt(wins)
	groups := 0
	for _, w := range wins {
		groups = max(groups, w.group+1)
	}
	about := label{cause: AfterShake, swing: &s, along: along, frame: l.planned(float64(wins[0].frames[0]))}
	lay := func(l *laid) (out [][ways][]float64) {
		for g := range groups {
			out = append(out, s.columns(wins, g, l.n, along)...)
		}
		return out
	}
	return []candidate{{label: about, unknowns: 2 + ways - 1, searched: 2, make: lay}}
}
