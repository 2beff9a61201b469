package pace

import (
	"math"
	"slices"
)

const (
	// leastShown is the share of a round's moving frames that a recording must show to be laid anywhere,
	// and of those that it shows where it shows most to be laid at a place.
	leastShown = 0.5
	// coarse is how far apart places are looked at first, in frames: an edge of a rest draws from
	// farther away.
	coarse = 0.5
	// coarsest is how many times that a long take is looked at.
	coarsest = 4
	// roughFrames bounds that first look: how many changes of a long take are looked at.
	roughFrames = 500
	// kept is how many places are looked at closely.
	kept = 6
	// asGood is by how much more a place may cost than the best and do as well, in the units of
	// half a square: three standard uncertainties, each frame's residual like those beside it as
	// far as they are.
	asGood = 4.5
)

// place is where a plan may lie, and what it costs there.
type place struct {
	zero, cost float64
}

// moved counts the planned frames in which something moves, up to each.
func (t track) moved() (before []int) {
	n := 0
	for x := t.first; x < t.last; x++ {
		before = append(before, n)
		if !t.rests(x, x+1) {
			n++
		}
	}
	return append(before, n)
}

// showing tells whether a recording of n frames shows enough of what moves with frame 0 at a place.
func (t track) showing(n int) func(zero float64) bool {
	moved := t.moved()
	shown := func(zero float64) float64 {
		from := min(max(int(-zero-t.first), 0), len(moved)-1)
		to := min(max(int(float64(n)-zero-t.first), 0), len(moved)-1)
		return float64(moved[to] - moved[from])
	}
	begins := min(max(int(-t.first), 0), len(moved)-1)
	least := leastShown * float64(moved[min(begins+int(t.Loop), len(moved)-1)]-moved[begins])
	for zero := -t.last; zero < float64(n)-t.first; zero++ {
		least = max(least, leastShown*shown(zero))
	}
	return func(zero float64) bool { return shown(zero) >= least }
}

// places are those that do best at a first look, over all at which enough is shown.
func places(t track, c change) (out []place) {
	n, showing := c.frames, t.showing(c.frames)
	every := max(1, len(c.y)/roughFrames)
	step := coarse * float64(min(max(1, n/roughFrames), coarsest))
	var row []place
	for zero := -t.last; zero < float64(n)-t.first; zero += step {
		if !showing(zero) {
			continue
		}
		l := laid{track: t, change: c, zero: zero}
		row = append(row, place{zero, l.rough(every)})
	}
	return lowest(row)
}

// lowest are the places that cost less than both beside them, the best first.
func lowest(row []place) (out []place) {
	for i, p := range row {
		if (i == 0 || p.cost <= row[i-1].cost) && (i == len(row)-1 || p.cost < row[i+1].cost) {
			out = append(out, p)
		}
	}
	slices.SortFunc(out, func(a, b place) int {
		if a.cost < b.cost {
			return -1
		}
		return 1
	})
	return out[:min(len(out), kept)]
}

// Steps of a close search, in frames: the last leaves a parabola.
var closer = [...]float64{0.25, 0.0625, 0.02}

// settle moves a plan to the place about where it is that costs least, and returns that cost.
func (l *laid) settle(steps []float64) float64 {
	best := l.fit()
	for _, step := range steps {
		var c [3]float64
		c[1] = best
		for moves := 0; moves < 12; moves++ {
			c[0], c[2] = l.beside(-step), l.beside(step)
			if c[1] <= c[0] && c[1] <= c[2] {
				break
			}
			to := step
			if c[0] < c[2] {
				to = -step
			}
			l.zero += to
			c[1] = min(c[0], c[2])
		}
		best = c[1]
		if bend := c[0] + c[2] - 2*c[1]; step == steps[len(steps)-1] && bend > 0 {
			l.zero += min(max(step/2*(c[0]-c[2])/bend, -step), step)
		}
	}
	return l.fit()
}

// beside is what it costs a little later.
func (l *laid) beside(by float64) float64 {
	c := l.copied()
	c.zero += by
	return c.fit()
}

// found lays the plan where it does best, with the gain that suits, and tells where else it would
// do. It is nil where there is no place.
func found(t track, c change) (*laid, []*laid) {
	var all []*laid
	for _, p := range places(t, c) {
		l := &laid{track: t, change: c, zero: p.zero}
		l.rough(1)
		l.scatters()
		all = append(all, l)
	}
	if len(all) == 0 {
		return nil, nil
	}
	best := all[0].suited()
	for k, l := range all {
		l.model, l.rest, l.moves, l.share = best.model, best.rest, best.moves, nil
		if k > 0 {
			l.settle(closer[:1])
		}
	}
	all[0] = best
	return choose(all)
}

// choose is the one that costs least, and those that do as well elsewhere.
func choose(all []*laid) (best *laid, others []*laid) {
	least := math.Inf(1)
	costs := make([]float64, len(all))
	for k, l := range all {
		if costs[k] = l.cost(1); costs[k] < least {
			least, best = costs[k], l
		}
	}
	best.settle(closer[:])
	same := best.kin()
	for k, l := range all {
		if math.Abs(l.zero-best.zero) > 1 && costs[k] <= least+asGood*same {
			others = append(others, l)
		}
	}
	return best, others
}

// enough is by how many times more terms than the best has are looked at: a product of six panes
// shows nothing in fewer than six waves.
const enough = 4

// suited is the same place with the model that suits best by the criterion of Schwarz (G. Schwarz,
// The Annals of Statistics 6:461-464, 1978, DOI 10.1214/aos/1176344136), of robust scatters.
func (l *laid) suited() *laid {
	var best *laid
	least := math.Inf(1)
	for _, m := range l.models(l.movingFrames()) {
		if best != nil && m.order > enough*max(best.model.order, 1) {
			break // twice as many terms were no better
		}
		c := l.copied()
		c.model, c.share = m, nil
		c.fit()
		c.scatters()
		c.settle(closer[:1])
		if s := c.schwarz(); s < least {
			least, best = s, c
		}
	}
	best.scatters()
	best.settle(closer[:])
	return best
}

// movingFrames counts those recorded in which the plan moves.
func (l *laid) movingFrames() (n int) {
	for k := 1; k < l.frames; k++ {
		if !l.rests(l.planned(float64(k-1)), l.planned(float64(k))) {
			n++
		}
	}
	return n
}

// schwarz is the criterion: twice the cost and the logarithms of the scatters that it was told in.
func (l *laid) schwarz() float64 {
	sum := 0.0
	for k := range l.y {
		s := l.scatter(k)
		sum += 2*rho(l.off(k)/s) + 2*math.Log(s)
	}
	return sum + float64(l.unknowns(l.model))*math.Log(float64(l.frames))
}
