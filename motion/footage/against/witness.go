package against

import (
	"math"
	"slices"
)

// witness is a take laid on its plan, and what was found of it.
type witness struct {
	plain  *laid // only laid and scaled
	full   *laid // with all that was found
	others []Number
	found  []found
	seen   float64 // px: what moves the picture by less is not counted
	shock  float64 // px: the same of a blow
	grow   float64 // by what uncertainties grow where more is left over than noise
}

// look finds all there is.
func (w *witness) look() {
	w.full = w.plain.copied()
	if len(w.plain.warps) > 1 { // the plan as it is knows no rate
		w.plain = newLaid(w.plain.track, w.plain.series, place{frame: w.plain.warps[0].late})
		w.plain.robust()
	}
	for _, warp := range w.full.warps[1:] {
		w.found = append(w.found, found{label: warp.label, lowers: veryStrong, shows: w.full.slips(warp)})
	}
	w.found = append(w.found, w.full.explain()...)
	n := ways*w.full.counted() - float64(len(w.full.result.kept))
	w.grow = math.Sqrt(max(1, w.full.squares()/max(1, n)))
}

// copied is the same, to go on with by itself.
func (l *laid) copied() *laid {
	c := *l
	c.weights, c.warps, c.extras = slices.Clone(l.weights), slices.Clone(l.warps), slices.Clone(l.extras)
	c.pos, c.speeds = nil, nil
	for k := range ways {
		c.gains[k], c.sures[k], c.r[k] = slices.Clone(l.gains[k]), slices.Clone(l.sures[k]), slices.Clone(l.r[k])
	}
	c.lay()
	return &c
}

// slips is by how many px a change of time moves the picture at the most.
func (l *laid) slips(w warp) (most float64) {
	v := l.lateness(w.shape)
	for i := range l.n {
		d := 0.0
		for k := range v {
			d += v[k][i] * v[k][i]
		}
		most = max(most, math.Sqrt(d)*math.Abs(w.late))
	}
	return most
}

// tell fills a result.
func (w *witness) tell(r *Result) {
	l := w.full
	f0 := Number{l.recorded(l.warps[0].late), math.Hypot(w.grow*l.warps[0].sure, l.bent)}
	r.Frame0 = Frame0{Number: f0, Others: w.others, Known: f0.Sure < mostDoubt && len(w.others) == 0}
	r.Compared.From, r.Compared.To = max(l.planned(0), l.first), min(l.planned(float64(l.n-1)), l.last)
	r.Compared.Share = l.seen()
	r.Rate = w.rate()
	r.Rounds = w.rounds()
	for a := range l.Axes {
		r.Axes = append(r.Axes, w.axis(a))
	}
	r.Shake, r.Blows, r.Drift = w.shake(), w.shocks(), w.drift()
	r.Plain, r.Left = w.plain.residual(l.weights), l.residual(l.weights)
	for k := range ways {
		r.Noise = math.Hypot(r.Noise, l.sigma[k])
	}
	for i, known := range l.known {
		if known && l.weights[i] == 0 {
			r.Alone++
		}
	}
	r.Verdict = w.judge(r)
}

// mostDoubt is the uncertainty of frame 0, in frames, above which nobody can say which it is.
const mostDoubt = 0.5

// seen is how much of what moves in a round was seen in any.
func (l *laid) seen() float64 {
	moves, have := 0.0, map[int64]bool{}
	for i := range l.n {
		if j := math.Round(l.planned(float64(i))); l.weights[i] > 0 && j >= 0 && j < float64(l.end()) {
			have[int64(j)%l.Loop] = true
		}
	}
	seen := 0.0
	for k := range l.Loop {
		if l.moving(float64(k)) {
			moves++
			seen += step(have[k])
		}
	}
	return seen / max(1, moves)
}

// residual is what is left over in frames that count.
func (l *laid) residual(weights []float64) (out Residual) {
	sum, n := 0.0, 0.0
	for i, w := range weights {
		if w == 0 {
			continue
		}
		d := 0.0
		for k := range ways {
			d += l.r[k][i] * l.r[k][i]
		}
		sum, n = sum+d, n+1
		if d = math.Sqrt(d); d > out.Worst {
			out.Worst, out.Frame = d, int(l.recorded(float64(i)))
		}
	}
	out.RMS = math.Sqrt(sum / max(1, n))
	return out
}
