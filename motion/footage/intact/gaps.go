package intact

import (
	"math"
	"slices"
)

const (
	// cutTimes is by how much a change must exceed every neighbour's to be a cut.
	cutTimes = 4
	// leastCut is what a change across a cut is at least, of 1: pictures that differ by less
	// would not be noticed to be others.
	leastCut = 0.03
	// mostShared is what two pictures across a cut have in common at most.
	mostShared = 0.5
	// lightShare is up to which share of a change brightness alone explains it, when no pose
	// is known: a gain that lifts the mean lifts the bright parts more.
	lightShare = 3
	// beside is to how many frames on each side a change is compared.
	beside = 3
	// smooth is by how much of their mean neighbouring steps may differ from it for a gap
	// among them to be told.
	smooth = 0.2
	// jerky is the share of all jerks that one must exceed, and outlying how many times: of
	// normal jerks that is five standard deviations. A few gaps are fewer than the share.
	jerky, outlying = 0.9, 3
	// mostMissing is how many frames a gap may have: more cannot be told from a jerk.
	mostMissing = 8
	// surely is how many uncertainties an ordinary step must be.
	surely = 4
)

// cuts are single changes far beyond all about them: a flash has two, in and out.
func (t take) cuts(twice []bool) (out []int) {
	for k := 1; k < len(t.frames); k++ {
		most, count := 0.0, 0
		for i := max(1, k-beside); i <= min(len(t.frames)-1, k+beside); i++ {
			if i != k && !twice[i] {
				most, count = max(most, t.frames[i].Changed), count+1
			}
		}
		if c := t.frames[k].Changed; count >= beside && c > leastCut && c > cutTimes*most && t.other(k) {
			out = append(out, k)
		}
	}
	return out
}

// other tells whether frame k is another picture than the one before, and not the same one
// brighter or elsewhere.
func (t take) other(k int) bool {
	if posed(t.frames) > 0 {
		p := t.frames[k].FromBefore
		return !p.Known || p.Shared < mostShared
	}
	light := t.frames[k].Mean - t.frames[k-1].Mean
	c := t.frames[k].Changed
	return c*c > lightShare*light*light
}

// dropped are steps of two and more ordinary ones amid such as are alike. A cut is none.
func (t take) dropped(twice []bool, cuts []int) (out []Dropped) {
	jerk := t.jerk(twice)
	for k := 1; k < len(t.frames); k++ {
		near, ok := t.ordinary(k, twice)
		if !ok || t.steps[k].less(1, near).length() < outlying*jerk || twice[k] || slices.Contains(cuts, k) {
			continue
		}
		missing := math.Round(t.steps[k].length()/near.length()) - 1
		if missing >= 1 && missing <= mostMissing && t.steps[k].less(missing+1, near).length() <= t.whole*near.length() {
			out = append(out, Dropped{k, int(missing), t.steps[k].length(), near.length(), twice[k-1]})
		}
	}
	return out
}

// jerk is by how much all but a few steps miss the mean of that before and that after.
func (t take) jerk(twice []bool) float64 {
	var all []float64
	for k := 2; k+1 < len(t.steps); k++ {
		if !twice[k-1] && !twice[k] && !twice[k+1] {
			all = append(all, t.steps[k].less(0.5, t.steps[k-1]).less(0.5, t.steps[k+1]).length())
		}
	}
	if len(all) == 0 {
		return 0
	}
	slices.Sort(all)
	return all[int(jerky*float64(len(all)))]
}

// ordinary is the mean of a few steps before and as many after; false where one differs from
// it, as in a jerk, where it is no more than noise, or where they are not all there.
func (t take) ordinary(k int, twice []bool) (mean step, ok bool) {
	var near []step
	for _, way := range []int{-1, 1} {
		for i, count := k+way, 0; count < t.beside; i += way {
			if i < 1 || i >= len(t.frames) {
				return mean, false
			}
			if !twice[i] {
				near, count = append(near, t.steps[i]), count+1
			}
		}
	}
	for _, s := range near {
		mean = mean.less(-1/float64(len(near)), s)
	}
	for _, s := range near {
		if s.less(1, mean).length() > smooth*mean.length() {
			return mean, false
		}
	}
	return mean, mean.length() > surely*t.doubt
}
