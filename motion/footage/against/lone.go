package against

import "math"

// Frames that say something else than both their sides are outliers of measuring, as a Hampel
// identifier has them (R. K. Pearson, IEEE Trans. Control Systems Technology 10:55-63, 2002,
// DOI 10.1109/87.974338): further from the median of those around than so many deviations.
const (
	around  = 4   // frames on each side
	hampel  = 6.0 // deviations: chance brings one in a billion
	leastBy = 3.0 // px: what is less moves no fit, and a rig swings by as much
	// Where few frames are out, so many of them among those around each other are no errors of
	// measuring: something happened there.
	crowd    = 4
	fewAlone = 0.05 // share of frames
)

// lone marks the frames that stand alone: outliers of r against those around them. Where many
// do, more of those around are asked: half of a few are outliers too often.
func lone(r []float64, counts []bool) []bool {
	sigma := noise(r, counts)
	out := outliers(r, counts, sigma, around)
	if share(out) > fewAlone {
		return outliers(r, counts, sigma, 3*around)
	}
	return scattered(out, r, counts, sigma)
}

// outliers marks the frames that are off so many on each side of them.
func outliers(r []float64, counts []bool, sigma float64, sides int) []bool {
	out := make([]bool, len(r))
	for i, v := range r {
		if !counts[i] {
			continue
		}
		var near []float64
		for k := max(0, i-sides); k <= min(len(r)-1, i+sides); k++ {
			if counts[k] && k != i {
				near = append(near, r[k])
			}
		}
		if len(near) >= around {
			out[i] = off(v, near) > max(leastBy, hampel*sigma)
		}
	}
	return out
}

// share is how many of all are marked.
func share(marked []bool) float64 {
	n := 0.0
	for _, m := range marked {
		n += step(m)
	}
	return n / float64(max(1, len(marked)))
}

// scattered takes back what is no error of measuring, where few are marked in all: in a crowd of
// marked ones, and where others around are disturbed too.
func scattered(marked []bool, r []float64, counts []bool, sigma float64) []bool {
	out := make([]bool, len(marked))
	for i := range marked {
		if !marked[i] {
			continue
		}
		n, near := 0, []float64(nil)
		for k := max(0, i-around); k <= min(len(marked)-1, i+around); k++ {
			if n += int(step(marked[k])); counts[k] && !marked[k] {
				near = append(near, r[k])
			}
		}
		out[i] = n < crowd && !disturbed(r[i], near, sigma)
	}
	return out
}

// calm is how many frames around one that is alone may be off themselves, less one; beyond is how
// many times further than any of these it is off all the same: what swings does not leap so.
const (
	calm   = 2
	beyond = 4.0
)

// disturbed tells whether a frame that is off is so among others that are, by as much or less.
func disturbed(v float64, near []float64, sigma float64) bool {
	m, n, most := middle(near), 0, 0.0
	for _, x := range near {
		n += int(step(math.Abs(x-m) > sets*sigma))
		most = max(most, math.Abs(x-m))
	}
	return n >= calm && math.Abs(v-m) < beyond*most
}

// off is how far v is from the middle of others; 0 where these scatter as much.
func off(v float64, near []float64) float64 {
	m := middle(near)
	for k, x := range near {
		near[k] = math.Abs(x - m)
	}
	if d := math.Abs(v - m); d > hampel*normal*middle(near) {
		return d
	}
	return 0
}
