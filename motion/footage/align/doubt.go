package align

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"seamrail/motion/footage"
)

// across and down are into how many neighbourhoods the blocks of a picture are shared out. All
// blocks of one may lie off for one reason: a depth, or what an encoder predicted of them.
const across, down = 4, 3

// open are the variances of a shift each way, a growth and a turn that blocks leave open: by how far
// each lies off as if it had nothing to do with the others, and by how far neighbourhoods do
// together. Blocks of one depth are neighbours, and as many as they are they are one witness: their
// sums go through the normal equations as one error each (K.-Y. Liang and S. L. Zeger, Biometrika
// 73:13, 1986, DOI 10.1093/biomet/73.1.13, by the g/(g-1) of g of them).
type open struct{ alone, patches [4]float64 }

// openOf is what the blocks leave open of a fit.
func openOf(list []moved, fit linear, normal *mat.SymDense, weights []float64) (o open) {
	var c mat.Cholesky
	var inverse mat.SymDense
	if !c.Factorize(normal) || c.InverseTo(&inverse) != nil {
		for i := range o.alone {
			o.alone[i] = math.Inf(1)
		}
		return o
	}
	sum, weight, count := 0.0, 0.0, 0
	pulls, where := make([]pull, 0, across*down), patchesOf(list)
	for i, m := range list {
		w := weights[i]
		if w == 0 {
			continue
		}
		r1, r2 := m.sure.of(m.away(fit))
		sum, weight, count = sum+w*(r1*r1+r2*r2), weight+w, count+1
		one, two := m.rowsOf()
		to := pullAt(&pulls, where[i])
		for k := range to.by {
			to.by[k] += w * (r1*one[k] + r2*two[k])
		}
	}
	free := float64(2*count-4) / float64(2*count)
	variance := sum / (2 * weight) / math.Max(free, 0.1)
	for i := range o.alone {
		o.alone[i] = variance * inverse.At(i, i)
		for _, p := range pulls {
			moves := 0.0
			for k, v := range p.by {
				moves += inverse.At(i, k) * v
			}
			o.patches[i] += moves * moves
		}
		if g := float64(len(pulls)); g > 1 {
			o.patches[i] *= g / (g - 1)
		}
	}
	return o
}

// doubt is what is more of each, as uncertainties.
func (o open) doubt() footage.Doubt {
	sigma := func(i int) float64 { return math.Sqrt(math.Max(o.alone[i], o.patches[i])) }
	return footage.Doubt{
		X: math.Hypot(sigma(0), unseen), Y: math.Hypot(sigma(1), unseen),
		Turn: sigma(3) * 180 / math.Pi, Scale: sigma(2),
	}
}

// shared is what each of many frames leaves open where neighbourhoods lie off as much more than
// blocks by themselves as they do in all: a few neighbourhoods of one frame do not tell how much.
func shared(all []open) {
	var alone, patches [4]float64
	for _, o := range all {
		for i := range o.alone {
			alone[i], patches[i] = alone[i]+o.alone[i], patches[i]+o.patches[i]
		}
	}
	for n := range all {
		for i, v := range all[n].alone {
			if alone[i] > 0 {
				all[n].patches[i] = v * patches[i] / alone[i]
			}
		}
	}
}

// pull is what the blocks of a neighbourhood do to the sums of the normal equations.
type pull struct {
	patch int
	by    [4]float64
}

func pullAt(all *[]pull, patch int) *pull {
	for i := range *all {
		if p := &(*all)[i]; p.patch == patch {
			return p
		}
	}
	*all = append(*all, pull{patch: patch})
	return &(*all)[len(*all)-1]
}

// patchesOf is in which neighbourhood of all each block lies.
func patchesOf(list []moved) []int {
	left, right, top, foot := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, m := range list {
		left, right, top, foot = min(left, m.x), max(right, m.x), min(top, m.y), max(foot, m.y)
	}
	share := func(v, from, to float64, of int) int {
		return min(int(float64(of)*(v-from)/math.Max(to-from, 1)), of-1)
	}
	out := make([]int, len(list))
	for i, m := range list {
		out[i] = share(m.y, top, foot, down)*across + share(m.x, left, right, across)
	}
	return out
}
