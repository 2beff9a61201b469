package brightness

import (
	"math"
	"slices"
)

const (
	// lasting is how many seconds a step must last to be one of the exposure.
	lasting = 0.5
	// leastStep is what a lasting change is at least: a fiftieth of a stop, 1.4 % of light,
	// is below what two pictures side by side show.
	leastStep = 0.02
	// outlying is how many times the middle change of such windows a step must be; of
	// normal noise that is eight standard deviations.
	outlying = 12
	// suddenly is in how many frames suddenShare of a step happens, and no more than one over
	// that share: a flash is more for a while.
	suddenly, suddenShare = 3, 0.6
	// normal is the standard deviation of normal noise whose middle absolute value is 1, and
	// medianLoss by how much a median of it scatters more than a mean (both of the normal
	// distribution: 1/0.6745, root of pi/2).
	normal, medianLoss = 1.4826, 1.2533
)

// steps are sudden changes that last, by medians of windows before and behind each frame,
// which neither flicker nor a flash moves.
func steps(stops []float64, rate float64) (out []Step) {
	n := len(stops)
	w := min(n/4, max(4, int(math.Round(lasting*rate))))
	change := make([]float64, n)
	sizes := make([]float64, 0, n)
	for k := w; k+w <= n; k++ {
		change[k] = between(stops, k, w)
		sizes = append(sizes, math.Abs(change[k]))
	}
	bar := max(leastStep, outlying*median(sizes))
	noise := frameNoise(stops)
	for k := w; k+w <= n; k++ {
		if math.Abs(change[k]) < bar || !greatest(change[k-w:min(n, k+w)], w) {
			continue
		}
		// Medians are as great half a window beside a step as at it.
		at := sharpest(stops, k, w/2, change[k])
		size := between(stops, at, w)
		if share := between(stops, at, suddenly) / size; share >= suddenShare && share <= 1/suddenShare {
			out = append(out, Step{at, size, medianLoss * noise * math.Sqrt(2/float64(w))})
		}
	}
	return out
}

// between is how much brighter the w frames from k on are than the w before.
func between(stops []float64, k, w int) float64 {
	w = min(w, k, len(stops)-k)
	return median(slices.Clone(stops[k:k+w])) - median(slices.Clone(stops[k-w:k]))
}

// median sorts the values; of none it is 0.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return (v[len(v)/2] + v[(len(v)-1)/2]) / 2
}

// greatest tells whether none is greater in size, and none before as great.
func greatest(change []float64, at int) bool {
	for k, v := range change {
		if math.Abs(v) > math.Abs(change[at]) || k < at && math.Abs(v) == math.Abs(change[at]) {
			return false
		}
	}
	return true
}

// sharpest is the frame near k that differs most from the one before in the way of the step.
func sharpest(stops []float64, k, near int, step float64) int {
	best := k
	for i := max(1, k-near); i <= min(len(stops)-1, k+near); i++ {
		if (stops[i]-stops[i-1])*step > (stops[best]-stops[best-1])*step {
			best = i
		}
	}
	return best
}

// frameNoise is how much a frame scatters, from the middle difference of neighbours.
func frameNoise(stops []float64) float64 {
	d := make([]float64, len(stops)-1)
	for k := range d {
		d[k] = math.Abs(stops[k+1] - stops[k])
	}
	return normal * median(d) / math.Sqrt2
}

// without takes the steps out.
func without(stops []float64, all []Step) {
	for _, s := range all {
		for k := s.Frame; k < len(stops); k++ {
			stops[k] -= s.Stops
		}
	}
}
