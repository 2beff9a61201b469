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
	var normal *mat.SymDense
	var scatter float64
	for range reweighed {
		scatter = scatterOf(list, fit)
		next, n, ok := leastSquares(list, fit, scatter)
		if !ok {
			return p, 0
		}
		fit, normal = next, n
	}
	p = footage.Linear(fit[0], fit[1], 1+fit[2], fit[3])
	for _, m := range list {
		if misfit(fit, m) < tukey*scatter {
			agree++
		}
	}
	p.Doubt = doubtOf(list, fit, normal, scatter)
	return p, agree
}

// linear are a shift and the entries of a matrix (1+a -b; b 1+a).
type linear [4]float64

func (l linear) of(x, y float64) (dx, dy float64) {
	return l[0] + l[2]*x - l[3]*y, l[1] + l[3]*x + l[2]*y
}

// off is how far a block is from where a fit has it.
func off(l linear, m moved) float64 {
	dx, dy := l.of(m.x, m.y)
	return math.Hypot(m.dx-dx, m.dy-dy)
}

// agreed is what two of the blocks say on which most agree, all pairs tried: of a block that is
// together the square of how far it is off counts, of any other the most of that, so that of two
// depths that lie within each other's reach the one with more blocks is taken (P. H. S. Torr and
// A. Zisserman, Comput. Vis. Image Underst. 78:138, 2000, DOI 10.1006/cviu.1999.0832).
func agreed(list []moved) (best linear, count int) {
	least := math.Inf(1)
	try := func(l linear) {
		n, sum := 0, 0.0
		for _, m := range list {
			d := off(l, m)
			if d < together {
				n++
			}
			sum += min(d*d, together*together)
		}
		if sum < least {
			best, count, least = l, n, sum
		}
	}
	for i, a := range list {
		try(linear{a.dx, a.dy})
		for _, b := range list[:i] {
			x, y := a.x-b.x, a.y-b.y
			if n := x*x + y*y; n > apart*apart*block*block {
				dx, dy := a.dx-b.dx, a.dy-b.dy
				l := linear{0, 0, (dx*x + dy*y) / n, (dy*x - dx*y) / n}
				ox, oy := l.of(a.x, a.y)
				l[0], l[1] = a.dx-ox, a.dy-oy
				try(l)
			}
		}
	}
	return best, count
}

// misfit is how far a block is from where a fit has it, in its own standard uncertainties.
func misfit(l linear, m moved) float64 { return math.Hypot(m.sure.of(m.away(l))) }

// away is by how much a block lies off where a fit has it.
func (m moved) away(l linear) (x, y float64) {
	dx, dy := l.of(m.x, m.y)
	return m.dx - dx, m.dy - dy
}

// scatterOf is how far blocks lie from a fit each way, in their own standard uncertainties, which
// others than those that agree do not spoil. It is 1 where these are true.
func scatterOf(list []moved, fit linear) float64 {
	var all []float64
	for _, m := range list {
		if off(fit, m) < together {
			x, y := m.sure.of(m.away(fit))
			all = append(all, math.Abs(x), math.Abs(y))
		}
	}
	slices.Sort(all)
	return math.Max(toSigma*all[len(all)/2], unseen/own)
}

// leastSquares weighs each block by how well it lies on the fit before, each way by how sure it is
// that way: along an edge a block says nothing.
func leastSquares(list []moved, before linear, scatter float64) (linear, *mat.SymDense, bool) {
	normal, right := mat.NewSymDense(4, nil), mat.NewVecDense(4, nil)
	add := func(w, y float64, row [4]float64) {
		for i := range 4 {
			right.SetVec(i, right.AtVec(i)+w*y*row[i])
			for k := i; k < 4; k++ {
				normal.SetSym(i, k, normal.At(i, k)+w*row[i]*row[k])
			}
		}
	}
	for _, m := range list {
		w := weightOf(m, before, scatter)
		if w == 0 {
			continue
		}
		across, down := [4]float64{1, 0, m.x, -m.y}, [4]float64{0, 1, m.y, m.x}
		y1, y2 := m.sure.of(m.dx, m.dy)
		var one, two [4]float64
		for i := range 4 {
			one[i], two[i] = m.sure.of(across[i], down[i])
		}
		add(w, y1, one)
		add(w, y2, two)
	}
	var c mat.Cholesky
	var out mat.VecDense
	if !c.Factorize(normal) || c.SolveVecTo(&out, right) != nil {
		return before, nil, false
	}
	return linear(out.RawVector().Data), normal, true
}

// weightOf is that of a block by how well it fits.
func weightOf(m moved, fit linear, scatter float64) float64 {
	u := misfit(fit, m) / (tukey * scatter)
	if u >= 1 {
		return 0
	}
	return math.Pow(1-u*u, 2)
}

// doubtOf is what the scatter of the blocks leaves open.
func doubtOf(list []moved, fit linear, normal *mat.SymDense, scatter float64) footage.Doubt {
	sum, weight, count := 0.0, 0.0, 0
	for _, m := range list {
		if w := weightOf(m, fit, scatter); w > 0 {
			d := misfit(fit, m)
			sum, weight, count = sum+w*d*d, weight+w, count+1
		}
	}
	free := float64(2*count-4) / float64(2*count)
	variance := sum / (2 * weight) / math.Max(free, 0.1)
	var c mat.Cholesky
	var inverse mat.SymDense
	if !c.Factorize(normal) || c.InverseTo(&inverse) != nil {
		return footage.Doubt{X: math.Inf(1), Y: math.Inf(1), Turn: math.Inf(1), Scale: math.Inf(1)}
	}
	sigma := func(i int) float64 { return math.Sqrt(variance * inverse.At(i, i)) }
	return footage.Doubt{
		X: math.Hypot(sigma(0), unseen), Y: math.Hypot(sigma(1), unseen),
		Turn: sigma(3) * 180 / math.Pi, Scale: sigma(2),
	}
}
