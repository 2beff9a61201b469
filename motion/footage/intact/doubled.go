package intact

import "math"

const (
	// sameShare is what share of its neighbours' a change may be at most for the frame to be
	// the one before once more. What an encoder adds to a picture that it repeats is less; two
	// frames of one sensor differ by their noise, which is more.
	sameShare = 0.2
	// mostTimes is how many frames in a row are taken for one that is held by mistake: more
	// are a rest.
	mostTimes = 4
	// leastMoved is how far a picture goes at least where every encoder shows that it does, in
	// pixels: they place blocks to quarters of one.
	leastMoved = 0.25
	// steadyShare is the share of the greatest change about a frame that the least must have to be
	// grain, in so many frames around on each side: of raw film it is 0.95, of one that was encoded
	// from picture to picture 0.5 and less.
	steadyShare, around = 0.7, 12
	// leastRegular is how many doubled frames tell a rhythm.
	leastRegular = 4
)

// doubled are runs of frames that hardly change amid such as do, and of how many frames that look so
// nobody can tell.
func (t take) doubled() (out []Doubled, unclear int) {
	for k := 1; k < len(t.frames); k++ {
		for times := 1; times <= mostTimes && k+times < len(t.frames); times++ {
			if d, ok := t.held(k, times); ok {
				if t.moves(k, times) || t.steady(k, times) {
					out = append(out, d)
				} else {
					unclear += times
				}
				k += times
				break
			}
		}
	}
	return out, unclear
}

// held tells whether frames k to k+times-1 all look as the one before.
func (t take) held(k, times int) (Doubled, bool) {
	d := Doubled{Frame: k, Times: times, Expected: t.expected(k, times)}
	for i := k; i < k+times; i++ {
		d.Changed = max(d.Changed, t.frames[i].Otherwise)
	}
	return d, d.Changed < sameShare*d.Expected
}

// expected is what frames k to k+times-1 should change at least, by those before and after and
// by where these lead: motion that comes to a turn gets smaller frame by frame, and its
// smallest step is no frame that is there twice.
func (t take) expected(k, times int) float64 {
	before := t.leads(k-1, k-2, times)
	after := t.leads(k+times, k+times+1, times)
	return min(before, after)
}

// leads is the lesser of the change of frame near and of what it and the next one off lead to
// times frames on. At the ends of a take nothing leads there, and a single frame does not tell.
func (t take) leads(near, off, times int) float64 {
	if min(near, off) < 1 || max(near, off) >= len(t.frames) {
		return 0
	}
	a, b := t.frames[near].Otherwise, t.frames[off].Otherwise
	return min(a, a+(a-b)*float64(times))
}

// moves tells whether the picture moves in the frame before frames k to k+times-1 and in that after
// by what an encoder does not leave out. It is so where poses are not known.
func (t take) moves(k, times int) bool {
	for _, i := range []int{k - 1, k + times} {
		p := t.frames[i].FromBefore
		if p.Known && newStep(p, t.reach).length() < max(leastMoved, surely*math.Hypot(p.Doubt.X, p.Doubt.Y)) {
			return false
		}
	}
	return true
}

// steady tells whether all frames about frames k to k+times-1 change as much, as the grain of a
// sensor has it. What an encoder leaves of a picture that does not move changes by much now and by
// nothing then, and a frame that is the one before tells nothing.
func (t take) steady(k, times int) bool {
	least, most, count := math.Inf(1), 0.0, 0
	for i := max(1, k-around); i < min(k+times+around, len(t.frames)); i++ {
		if i < k || i >= k+times {
			v := t.frames[i].Otherwise
			least, most, count = min(least, v), max(most, v), count+1
		}
	}
	return count >= around && least >= steadyShare*most
}

// regular is the distance of doubled frames, where all but a few have the same one.
func regular(all []Doubled) int {
	if len(all) < leastRegular {
		return 0
	}
	count := map[int]int{}
	for k := 1; k < len(all); k++ {
		count[all[k].Frame-all[k-1].Frame]++
	}
	for gap, n := range count {
		if 5*n >= 4*(len(all)-1) {
			return gap
		}
	}
	return 0
}
