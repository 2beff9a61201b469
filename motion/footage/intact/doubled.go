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
	// leastRegular is how many doubled frames tell a rhythm.
	leastRegular = 4
)

// doubled are runs of frames that hardly change amid such as do.
func (t take) doubled() (out []Doubled) {
	for k := 1; k < len(t.frames); k++ {
		for times := 1; times <= mostTimes && k+times < len(t.frames); times++ {
			if d, ok := t.held(k, times); ok {
				out = append(out, d)
				k += times
				break
			}
		}
	}
	return out
}

// held tells whether frames k to k+times-1 are all the one before.
func (t take) held(k, times int) (Doubled, bool) {
	d := Doubled{Frame: k, Times: times, Expected: t.expected(k, times)}
	for i := k; i < k+times; i++ {
		d.Changed = max(d.Changed, t.frames[i].Changed)
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
	a, b := t.unlit(near), t.unlit(off)
	return min(a, a+(a-b)*float64(times))
}

// unlit is what frame k changes at least besides its brightness: flicker is no motion.
func (t take) unlit(k int) float64 {
	c, light := t.frames[k].Changed, t.frames[k].Mean-t.frames[k-1].Mean
	return math.Sqrt(max(0, c*c-lightShare*light*light))
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
