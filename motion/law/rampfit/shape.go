package rampfit

import (
	"math"
	"slices"

	"seamrail/motion/base/root"
	"seamrail/motion/law"
)

// shape is a law of the catalogue with the shares that it takes.
type shape struct {
	kind   law.Kind
	shares int // 0, 1 or 2: of the ramp, and of the jerk in it
}

// shapes are all that the family has, plainest first. A law at an even speed is one of
// them: a rig without any ramp worth seeing.
func shapes() []shape {
	var out []shape
	for _, k := range law.Kinds() {
		out = append(out, shape{k, len(k.Takes())})
	}
	return out
}

// leastShare keeps a ramp longer than nothing: at a thousandth of the way nobody sees it.
// Two ramps take all of the way at most, and jerk up and down all of a ramp.
const leastShare, mostShare = 1e-3, 0.5

// within keeps shares within their bounds. A law at its bound is one like another: half a
// ramp of jerk is one without even acceleration.
func within(shares []float64) {
	for i, x := range shares {
		shares[i] = math.Max(leastShare, math.Min(mostShare, x))
	}
}

// law returns the law with some shares, nil where they are out of bounds.
func (s shape) law(shares []float64) law.Law {
	if slices.ContainsFunc(shares, func(x float64) bool { return !(x >= leastShare && x <= mostShare) }) {
		return nil
	}
	spec := law.Spec{}
	if len(shares) > 0 {
		spec.Ramp = shares[0]
	}
	if len(shares) > 1 {
		spec.JerkShare = shares[1]
	}
	l, err := s.kind.Make(spec)
	if err != nil {
		return nil
	}
	return l
}

// begins are shares to begin a search at.
func (s shape) begins() [][]float64 {
	ramps, jerks := []float64{0.04, 0.12, 0.25, 0.42}, []float64{0.1, 0.3, 0.48}
	switch s.shares {
	case 0:
		return [][]float64{nil}
	case 1:
		var out [][]float64
		for _, r := range ramps {
			out = append(out, []float64{r})
		}
		return out
	}
	var out [][]float64
	for _, r := range ramps {
		for _, j := range jerks {
			out = append(out, []float64{r, j})
		}
	}
	return out
}

// reaches is the u at which a law has done a share of its way.
func reaches(l law.Law, share float64) float64 {
	const halvings = 60
	_, u := root.Bisect(0, 1, halvings, 0, func(u float64) bool { return l.At(u).S < share })
	return u
}

// at is the share of the way that is done at a time, before it and after it included.
func at(l law.Law, start, way, sec float64) float64 {
	return l.At(math.Max(0, math.Min(1, (sec-start)/way))).S
}
