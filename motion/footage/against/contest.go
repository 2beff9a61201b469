package against

import (
	"cmp"
	"math"
	"slices"
)

// contest looks for the explanation that lowers Schwarz's criterion most (G. Schwarz, Ann. Statist.
// 6:461-464, 1978, DOI 10.1214/aos/1176344136): N ln(what is left over) + unknowns ln N. One of
// several of a kind pays for the choice too, twice its logarithm.
type contest struct {
	l      *laid
	base   solved
	r      column  // what is left over of what is explained already
	n      float64 // N
	best   candidate
	lowers float64
	shows  float64 // px
}

// best is the candidate that lowers the criterion most, by how much, and how much of it is seen.
func (l *laid) best() (best candidate, lowers, shows float64) {
	c := contest{l: l, base: solve(l.columns(true), l.weigh(l.y)), n: ways * l.counted()}
	c.r = c.base.residual(l.weigh(l.r))
	if c.r.dot(c.r) <= 0 || c.n <= float64(len(c.base.cols))+1 {
		return candidate{}, 0, 0
	}
	var timed []candidate
	for _, k := range l.candidates() {
		if k.linear = c.proportion(k); k.shape != nil {
			timed = append(timed, k)
		}
	}
	slices.SortStableFunc(timed, func(a, b candidate) int { return cmp.Compare(b.linear, a.linear) })
	for _, k := range timed[:min(len(timed), closely)] {
		if k.linear >= veryStrong {
			c.toTheEnd(k)
		}
	}
	return c.best, c.lowers, c.shows
}

// worth is by how much a candidate lowers the criterion that leaves so much, with all frames and
// without those for which it does most: the lesser of the two.
func (c *contest) worth(k candidate, rest column, columns int) float64 {
	price := (float64(columns) + k.unknowns) * math.Log(c.n)
	all := c.n*math.Log(c.r.dot(c.r)/max(rest.dot(rest), math.SmallestNonzeroFloat64)) - 2*math.Log(max(1, k.searched))
	before, after := c.l.without(c.r, rest)
	return math.Min(all, c.n*math.Log(before/after)) - price
}

// proportion tries a candidate as columns that are in proportion to what is left over.
func (c *contest) proportion(k candidate) float64 {
	v := c.l.beyond(&c.base, k)
	own := solve(v, c.r)
	if len(own.kept) == 0 {
		return 0
	}
	gain := c.worth(k, own.residual(c.r), len(own.kept))
	if gain <= c.lowers || k.above && own.beta[0] < 0 {
		return gain
	}
	if most, frames := c.l.mostSeen(v, own.beta); k.swing == nil || frames >= leastSwing {
		c.best, c.lowers, c.shows = k, gain, most
	}
	return gain
}

// closely is how many changes of time are fitted to the end before one is taken: by more than a
// frame the picture does not change in proportion.
const closely = 4

// toTheEnd tries a change of time by fitting it.
func (c *contest) toTheEnd(k candidate) {
	trial := c.l.copied()
	trial.warps = append(trial.warps, warp{shape: k.shape, label: k.label})
	trial.fit()
	if gain := c.worth(k, trial.weigh(trial.r), 1); gain > c.lowers {
		c.best, c.lowers, c.shows = k, gain, trial.slips(trial.warps[len(trial.warps)-1])
	}
}
