package align

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"seamrail/motion/footage"
)

const (
	// together is how near to where others have it a block must be to agree with them, in pixels,
	// before it is known how well they fit.
	together = 0.75
	// apart is how far from each other two blocks must be to ask them for a turn, in blocks.
	apart = 2.5
	// fewest blocks must agree: two give a shift, a turn and a scale, and as many again must say so.
	fewest = 5
	// tukey is where a block has no weight any more, in standard deviations: it keeps 95 % of what
	// least squares would make of normal errors (Beaton and Tukey, Technometrics 16:147, 1974, DOI
	// 10.1080/00401706.1974.10489171).
	tukey = 4.685
	// toSigma makes a standard deviation of the middle one of absolute errors that are normal.
	toSigma = 1.4826
	// rounds of weights; they settle in some three.
	reweighed = 6
	// unseen is a part of a pixel that no scatter shows: what is left of it where a picture lies
	// between pixels. TestShiftsTurnsAndScalesAreFound has some 0.01.
	unseen = 0.01
	// own is by how much a block may lie off the common motion by its depth and form alone, in
	// pixels: beyond what its grain leaves open, no block is surer than that.
	own = 0.05
)

// fitted is the one shift, turn and scale on which most blocks agree, from where they were looked
// for, and how many do.
func fitted(list []moved) (p footage.Pose, agree int) {
	if len(list) < fewest {
		return p, 0
	}
	fit, count := agreed(list)
	if count < fewest {
		return p, count
	}
	p, agree, o := settled(list, fit, nil)
	p.Doubt = o.doubt()
	return p, agree
}

// settled is what the blocks about a fit make of it by least squares, each weighed by how well it
// lies on what all make, how many have a weight, and what they leave open. What is known of each
// block from other frames is in faith, by the block's number; nil where nothing is.
func settled(list []moved, fit linear, faith []trust) (p footage.Pose, agree int, o open) {
	weights := make([]float64, len(list))
	var normal *mat.SymDense
	for range reweighed {
		weigh(weights, list, fit, faith)
		next, n, ok := leastSquares(list, weights)
		if !ok {
			return p, 0, o
		}
		fit, normal = next, n
	}
	weigh(weights, list, fit, faith)
	for _, w := range weights {
		if w > 0 {
			agree++
		}
	}
	return footage.Linear(fit[0], fit[1], 1+fit[2], fit[3]), agree, openOf(list, fit, normal, weights)
}

// linear are a shift and the entries of a matrix (1+a -b; b 1+a).
type linear [4]float64

// goes is where a fit has a block go: by the shift, and by the matrix of where it seems to be.
func (m *moved) goes(l linear) (dx, dy float64) {
	return l[0] + l[2]*m.lever[0] + l[3]*m.lever[1], l[1] + l[2]*m.lever[2] + l[3]*m.lever[3]
}

// off is how far a block is from where a fit has it.
func off(l linear, m moved) float64 { return math.Hypot(m.away(l)) }

// agreed is what two of the blocks say on which most agree, all pairs tried: of a block that is
// together the square of how far it is off counts, of any other the most of that, so that of two
// depths that lie within each other's reach the one with more blocks is taken (P. H. S. Torr and
// A. Zisserman, Comput. Vis. Image Underst. 78:138, 2000, DOI 10.1006/cviu.1999.0832).
func agreed(list []moved) (best linear, count int) {
	least := math.Inf(1)
	for i, a := range list {
		for _, b := range list[:i+1] { // itself: a shift alone
			l, ok := said(a, b)
			if !ok {
				continue
			}
			if sum := misses(list, l); sum < least {
				best, least = l, sum
			}
		}
	}
	for _, m := range list {
		if off(best, m) < together {
			count++
		}
	}
	return best, count
}

// said is the motion that two blocks say; a block and itself say a shift. Two that are near each
// other say nothing.
func said(a, b moved) (linear, bool) {
	if a.n == b.n {
		return linear{a.dx, a.dy}, true
	}
	x, y := a.x-b.x, a.y-b.y
	n := x*x + y*y
	if n <= apart*apart*block*block {
		return linear{}, false
	}
	dx, dy := a.dx-b.dx, a.dy-b.dy
	l := linear{0, 0, (dx*x + dy*y) / n, (dy*x - dx*y) / n}
	ox, oy := a.goes(l)
	l[0], l[1] = a.dx-ox, a.dy-oy
	return l, true
}

// misses is by how much blocks lie off a fit, as agreed counts it.
func misses(list []moved, l linear) (sum float64) {
	for i := range list {
		m := &list[i]
		dx, dy := m.dx-(l[0]+l[2]*m.lever[0]+l[3]*m.lever[1]), m.dy-(l[1]+l[2]*m.lever[2]+l[3]*m.lever[3])
		sum += min(dx*dx+dy*dy, together*together)
	}
	return sum
}

// misfit is how far a block is from where a fit has it, in its own standard uncertainties.
func misfit(l linear, m moved) float64 { return math.Hypot(m.sure.of(m.away(l))) }

// away is by how much a block lies off where a fit has it.
func (m moved) away(l linear) (x, y float64) {
	dx, dy := m.goes(l)
	return m.dx - dx, m.dy - dy
}

// trust is what is known of a block from all frames in which it was looked for: what it weighs, 0
// to 1, and how many times as far as the middle block it lies off, at least once.
type trust struct{ weight, far float64 }

// weigh writes what each block weighs: by how well it fits, against how far blocks lie off each
// way. Others than those that agree do not spoil that; it is 1, in their own standard
// uncertainties, where these are true.
func weigh(weights []float64, list []moved, fit linear, faith []trust) {
	known := func(m moved) trust {
		if faith == nil {
			return trust{1, 1}
		}
		return faith[m.n]
	}
	all := make([]float64, 0, 2*len(list))
	for _, m := range list {
		if k := known(m); k.weight > 0 && off(fit, m) < together*k.far {
			x, y := m.sure.of(m.away(fit))
			all = append(all, math.Abs(x)/k.far, math.Abs(y)/k.far)
		}
	}
	scatter := math.Max(toSigma*middleOf(all), unseen/own)
	for i, m := range list {
		k := known(m)
		weights[i] = k.weight * bisquare(misfit(fit, m)/(tukey*scatter*k.far))
	}
}

// middleOf sorts values; that of none is 0.
func middleOf(all []float64) float64 {
	if len(all) == 0 {
		return 0
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// bisquare is what is u times as far off as what counts no more weighs.
func bisquare(u float64) float64 {
	if u >= 1 {
		return 0
	}
	return (1 - u*u) * (1 - u*u)
}

// rowsOf are what a block says of the four unknowns, each way in its own standard uncertainties.
func (m moved) rowsOf() (one, two [4]float64) {
	right, below := [4]float64{1, 0, m.lever[0], m.lever[1]}, [4]float64{0, 1, m.lever[2], m.lever[3]}
	for i := range 4 {
		one[i], two[i] = m.sure.of(right[i], below[i])
	}
	return one, two
}

// leastSquares weighs each block, each way by how sure it is that way: along an edge a block says
// nothing.
func leastSquares(list []moved, weights []float64) (linear, *mat.SymDense, bool) {
	var sums [4][4]float64
	var right [4]float64
	add := func(w, y float64, row [4]float64) {
		for i := range 4 {
			right[i] += w * y * row[i]
			for k := i; k < 4; k++ {
				sums[i][k] += w * row[i] * row[k]
			}
		}
	}
	for i, m := range list {
		if weights[i] == 0 {
			continue
		}
		one, two := m.rowsOf()
		y1, y2 := m.sure.of(m.dx, m.dy)
		add(weights[i], y1, one)
		add(weights[i], y2, two)
	}
	normal := mat.NewSymDense(4, nil)
	for i := range 4 {
		for k := i; k < 4; k++ {
			normal.SetSym(i, k, sums[i][k])
		}
	}
	var c mat.Cholesky
	var out mat.VecDense
	if !c.Factorize(normal) || c.SolveVecTo(&out, mat.NewVecDense(4, right[:])) != nil {
		return linear{}, nil, false
	}
	return linear(out.RawVector().Data), normal, true
}
